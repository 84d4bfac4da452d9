import type { ReactNode } from 'react';
import type { HeatLimit } from '#heat';
import { describeSource } from '#sources';
import { useHeatUnits } from './heat-units.ts';

/** What everything on it stands, least margin first, each with whose limit it is. */
export function LimitsTable({ limits }: { readonly limits: readonly HeatLimit[] }): ReactNode {
  const said = useHeatUnits();
  if (limits.length === 0) return <p className="soft">What it stands is not said.</p>;
  return (
    <div className="flow-wide">
      <table className="sheet" aria-label="What it stands">
        <thead>
          <tr>
            <th>what</th>
            <th className="num">comes to</th>
            <th className="num">stands</th>
            <th className="num">left</th>
          </tr>
        </thead>
        <tbody>
          {limits.map((limit) => (
            <tr key={`${limit.what} ${limit.name} ${limit.limitC}`}>
              <td>
                {said.soldAs(`${limit.what}: ${limit.name}`)}
                <span className="small soft flow-below">{describeSource(limit.source)}</span>
              </td>
              <td className="num">{said.degrees(limit.valueC)}</td>
              <td className="num">{said.degrees(limit.limitC)}</td>
              <td className="num">{`${limit.marginK < 0 ? '▲ ' : ''}${said.difference(limit.marginK)}`}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
