import type { ReactNode } from 'react';
import { type HeatAnswer, type ReadingCompared, readsHow } from '#heat';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { heatAddress } from './heat-place.ts';
import { type HeatUnits, useHeatUnits } from './heat-units.ts';
import { MEANS } from './reading-draft.ts';

/** What was read beside what is worked out, in this case. */
export function ReadingsList({ answer, caseId }: { readonly answer: HeatAnswer; readonly caseId: string }): ReactNode {
  const said = useHeatUnits();
  const rows = answer.readings.filter(({ reading }) => reading.case === caseId);
  if (rows.length === 0) return null;
  return (
    <section aria-label="As read on the car">
      <h2>As read on the car</h2>
      <div className="flow-wide">
        <table className="sheet">
          <thead>
            <tr>
              <th>reading</th>
              <th className="num">read</th>
              <th className="num">worked out</th>
              <th className="num">differs by</th>
            </tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.reading.id}>
                <td>
                  <Key
                    weight="bare"
                    className="printed"
                    onClick={() =>
                      open({
                        kind: 'cook',
                        id: heatAddress({ caseId, about: { kind: 'reading', id: row.reading.id } }),
                      })
                    }
                  >
                    {`${row.reading.id} ${ofWhat(row)}`}
                  </Key>
                  <span className="small soft flow-below">
                    {`${MEANS[row.reading.means]}${row.corrected === undefined ? '' : `; ${row.corrected}`}`}
                  </span>
                </td>
                <td className="num">{readTold(row, said)}</td>
                <td className="num">{row.workedC === null ? 'not' : said.degrees(row.workedC)}</td>
                <td className="num">{row.differenceK === null ? '' : said.difference(row.differenceK)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {[...new Set(rows.map(({ reading }) => reading.means))].map((means) => (
        <p key={means} className="small soft">
          {`${readsHow[means].replace(/^./u, (letter) => letter.toUpperCase())}.`}
        </p>
      ))}
    </section>
  );
}

const ofWhat = ({ reading }: ReadingCompared): string =>
  reading.line ?? reading.part ?? reading.panel ?? (reading.bay === undefined ? '' : `air of ${reading.bay}`);

function readTold({ reading: { readC, belowC } }: ReadingCompared, said: HeatUnits): string {
  if (readC === undefined) return `below ${said.degrees(belowC!)}`;
  return belowC === undefined ? said.degrees(readC) : `${said.degrees(readC)} to ${said.degrees(belowC)}`;
}
