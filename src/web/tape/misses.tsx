import type { ReactNode } from 'react';
import type { ReadingMiss } from '#car';
import { inShopWords } from './measuring.ts';
import { useLengths } from './lengths.ts';

interface Wish {
  readonly readings: readonly ReadingMiss[];
  readonly remarks: readonly string[];
  readonly fault: string | undefined;
  /** What is said when it can be worked out. */
  readonly found: string | undefined;
}

/** How the readings agree, as they are typed: each with its miss, and the one to be measured again by name. */
export function Misses({ readings, remarks, fault, found }: Wish): ReactNode {
  const { fine, text } = useLengths();
  if (fault !== undefined)
    return <p className="warn warn-fix" role="status">{`◆ Not worked out yet: ${text(inShopWords(fault))}`}</p>;
  if (found === undefined) return null;
  return (
    <div role="status">
      <p>
        <strong>{text(found)}</strong>
      </p>
      <table className="sheet">
        <thead>
          <tr>
            <th scope="col">Reading</th>
            <th scope="col" className="num">
              Misses by
            </th>
            <th scope="col" className="num">
              Known to
            </th>
          </tr>
        </thead>
        <tbody>
          {readings.map((row) => (
            <tr key={row.name} className={row.disagrees ? 'warn' : ''}>
              <td>{`${row.disagrees ? '▲ ' : ''}${inShopWords(row.name)}`}</td>
              <td className="num">{fine(row.residualMm)}</td>
              <td className="num">{`±${fine(row.knownToMm)}`}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {remarks.map((remark) => (
        <p className="warn" key={remark}>{`▲ ${text(inShopWords(remark))}`}</p>
      ))}
    </div>
  );
}
