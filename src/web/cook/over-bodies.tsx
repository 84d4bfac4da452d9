import type { ReactNode } from 'react';
import type { HeatCase } from '#heat';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { LevelMark } from '../snags/level-mark.tsx';
import { heatAddress } from './heat-place.ts';
import { useHeatUnits } from './heat-units.ts';
import { overBodies } from './ranked.ts';

/** Looms, cables, parts and panels that come to what they stand, or within the error of it: before the list of all of them. */
export function OverBodies({ at }: { readonly at: HeatCase }): ReactNode {
  const said = useHeatUnits();
  const rows = overBodies(at);
  if (rows.length === 0) return null;
  return (
    <section aria-label="Beside the lines">
      <h2>Beside the lines</h2>
      <ul className="cures">
        {rows.map(({ kind, id, name, limit, standing }) => (
          <li key={`${kind} ${id}`}>
            <Key
              weight="bare"
              className="printed"
              onClick={() => open({ kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind, id } }) })}
            >
              {name}
            </Key>
            <LevelMark level={standing === 'broken' ? 'stop' : 'fix'} />
            {` ${said.degrees(limit.valueC)}; it stands ${said.degrees(limit.limitC)}`}
          </li>
        ))}
      </ul>
    </section>
  );
}
