import type { ReactNode } from 'react';
import { type CutSheet, cutsCsv, type Order } from '#stock';
import { useLengths } from '../tape/lengths.ts';
import { Key } from '../frame/key.tsx';
import { savedText } from './amount.ts';

/** Which cut comes out of which length of hose or tube, drawn to scale. */
export function CutPlanList({ order }: { readonly order: Order }): ReactNode {
  const lengths = useLengths();
  const sheets = [...order.hoseByTheMetre, ...order.tubes];
  return (
    <>
      <div className="keys">
        <Key onClick={() => savedText('cuts.csv', cutsCsv(order))}>Save as CSV</Key>
        <Key onClick={() => print()}>Print</Key>
      </div>
      <p className="small soft">Cut to the longest that the allowance asks, trial-fit, then trim.</p>
      {sheets.map((sheet) => (
        <Sheet key={sheet.id} sheet={sheet} />
      ))}
      {order.brackets.length === 0 ? null : (
        <section>
          <h2>Brackets to make</h2>
          <ul>
            {order.brackets.map((bracket) => (
              <li key={`${bracket.line} ${bracket.alongMm}`}>
                <strong>{bracket.line}</strong>
                {` at ${lengths.one(bracket.alongMm)} from A, place ${lengths.spot(bracket.atMm)}`}
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}

function Sheet({ sheet }: { readonly sheet: CutSheet }): ReactNode {
  const lengths = useLengths();
  return (
    <section>
      <h2>{`${sheet.id}: buy ${lengths.metres(sheet.toBuyM)}`}</h2>
      {sheet.lengths.map((length, i) => (
        <div key={`${length.from} ${i}`} className="length">
          <p className="small soft">{`${length.from === 'box' ? 'from the box' : 'bought'}, ${lengths.one(length.lengthMm)}; ${lengths.one(length.leftMm)} left`}</p>
          <div className="length-bar" aria-hidden="true">
            {length.cuts.map((cut) => (
              <span key={cut.id} style={{ width: `${(100 * cut.lengthMm) / length.lengthMm}%` }}>
                {cut.id.split(' ')[0]}
              </span>
            ))}
          </div>
          <ul className="small">
            {length.cuts.map((cut) => (
              <li key={cut.id}>
                <strong>{lengths.one(cut.lengthMm)}</strong> {cut.id}
              </li>
            ))}
          </ul>
        </div>
      ))}
    </section>
  );
}
