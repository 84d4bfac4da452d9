import type { ReactNode } from 'react';
import type { HeatCase, HeatLimit } from '#heat';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { heatAddress } from './heat-place.ts';
import { useHeatUnits } from './heat-units.ts';
import { leastOf } from './ranked.ts';

const HOW = { given: 'as given', kept: 'follows what is in it', 'worked out': 'worked out' } as const;

/** Panels and parts: how hot, what each stands, hottest first. */
export function BodiesList({ at }: { readonly at: HeatCase }): ReactNode {
  const opened = (kind: 'panel' | 'part', id: string): void =>
    open({ kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind, id } }) });
  return (
    <>
      {at.panels.length === 0 ? null : <Panels at={at} onOpen={(id) => opened('panel', id)} />}
      <Parts at={at} onOpen={(id) => opened('part', id)} />
    </>
  );
}

interface Wish {
  readonly at: HeatCase;
  readonly onOpen: (id: string) => void;
}

function Panels({ at, onOpen }: Wish): ReactNode {
  const said = useHeatUnits();
  return (
    <section aria-label="Panels">
      <h2>Panels</h2>
      <div className="flow-wide">
        <table className="sheet">
          <thead>
            <tr>
              <th>panel</th>
              <th className="num">hottest</th>
              <th className="num">mean</th>
              <th>stands</th>
            </tr>
          </thead>
          <tbody>
            {at.panels
              .toSorted((a, b) => b.worstC - a.worstC)
              .map((row) => (
                <tr key={row.panel}>
                  <td>
                    <Key weight="bare" className="printed" onClick={() => onOpen(row.panel)}>
                      {row.panel}
                    </Key>
                    <span className="small soft flow-below">{row.name}</span>
                  </td>
                  <td className="num">{said.degrees(row.worstC)}</td>
                  <td className="num">{said.degrees(row.meanC)}</td>
                  <td>{limitTold(leastOf(row.limits), said.degrees)}</td>
                </tr>
              ))}
          </tbody>
        </table>
      </div>
    </section>
  );
}

function Parts({ at, onOpen }: Wish): ReactNode {
  const said = useHeatUnits();
  const over = at.parts.filter(({ limits }) => (leastOf(limits)?.marginK ?? 0) < 0);
  const rows = [...over, ...at.parts.filter((row) => !over.includes(row))];
  return (
    <details className="opened" open={over.length > 0}>
      <summary>{`Parts, looms and cables: ${at.parts.length}${over.length === 0 ? '' : `, ${over.length} over what it stands`}`}</summary>
      <div className="flow-wide">
        <table className="sheet" aria-label="Parts">
          <thead>
            <tr>
              <th>part</th>
              <th className="num">surface</th>
              <th>how</th>
              <th>stands</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.part}>
                <td>
                  <Key weight="bare" className="printed" onClick={() => onOpen(row.part)}>
                    {row.name}
                  </Key>
                </td>
                <td className="num">{said.degrees(row.surfaceC)}</td>
                <td>{HOW[row.how]}</td>
                <td>{limitTold(leastOf(row.limits), said.degrees)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}

const limitTold = (limit: HeatLimit | undefined, degrees: (c: number) => string): string =>
  limit === undefined ? 'not said' : `${limit.marginK < 0 ? '▲ ' : ''}${degrees(limit.limitC)}`;
