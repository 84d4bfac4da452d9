import type { ReactNode } from 'react';
import type { BuyRow, Comparison, SurplusRow, Verdict } from '#stock';
import { open } from '../bench/place.ts';
import { counted } from '../snags/counted.ts';
import { useLengths } from '../tape/lengths.ts';
import { amount } from './amount.ts';

const verdicts: Readonly<Record<Verdict, string>> = {
  scrap: 'Scrap',
  remake: 'Remake',
  new: 'New',
  keep: 'Keep',
};

/** Each line's fate, what is to be bought and what is left over. */
export function Compared({ comparison }: { readonly comparison: Comparison }): ReactNode {
  const { text } = useLengths();
  const { lines, buy, surplus, fitsElsewhere, withoutWay } = comparison;
  const words = Object.keys(verdicts) as Verdict[];
  return (
    <section className="compared" aria-label="What it cost">
      <p>
        <strong>
          {words.map((word) => `${lines.filter((line) => line.verdict === word).length} ${word}`).join(', ')}
        </strong>
      </p>
      {withoutWay.length === 0 ? null : (
        <p className="warn warn-fix">{`◆ To be worked out first: ${withoutWay.join(', ')}. What they need is not in these lists, and what they have is set aside.`}</p>
      )}
      {words
        .filter((word) => lines.some((line) => line.verdict === word))
        .map((word) => (
          <Fates key={word} verdict={word} lines={lines.filter((line) => line.verdict === word)} />
        ))}
      <Parts title={`To buy: ${counted(buy.filter((row) => row.toBuy > 0).length, 'row')}`} rows={buy} />
      <Parts title={`Left over, goes back or into the box: ${counted(surplus.length, 'row')}`} rows={surplus} />
      {fitsElsewhere.length === 0 ? null : (
        <>
          <h2>Hoses that do elsewhere</h2>
          <ul>
            {fitsElsewhere.map((fit) => (
              <li key={`${fit.line} ${fit.fits}`}>
                {text(`${fit.line} does for ${fit.fits}, ${fit.how}: ${fit.why}`)}
              </li>
            ))}
          </ul>
        </>
      )}
      <p className="small soft">
        A line only planned gives back all it has, hose and tube by the metre; a made one what comes off it and can be
        used again.
      </p>
    </section>
  );
}

interface FatesWish {
  readonly verdict: Verdict;
  readonly lines: Comparison['lines'];
}

function Fates({ verdict, lines }: FatesWish): ReactNode {
  const { text } = useLengths();
  const rows = (
    <ul className="fates">
      {lines.map((line) => (
        <li key={line.line}>
          <button type="button" className="word" onClick={() => open({ kind: 'line', id: line.line })}>
            <strong>{line.line}</strong>
          </button>{' '}
          {text(line.why)}
        </li>
      ))}
    </ul>
  );
  const title = `${verdicts[verdict]}: ${lines.length}`;
  // What stays as it is need not be read line by line.
  return verdict === 'keep' ? (
    <details className="opened">
      <summary>{title}</summary>
      {rows}
    </details>
  ) : (
    <>
      <h2>{title}</h2>
      {rows}
    </>
  );
}

function Parts({
  title,
  rows,
}: {
  readonly title: string;
  readonly rows: readonly (BuyRow | SurplusRow)[];
}): ReactNode {
  const lengths = useLengths();
  return (
    <>
      <h2>{title}</h2>
      {rows.length === 0 ? (
        <p>Nothing.</p>
      ) : (
        <table className="sheet order" aria-label={title.split(':')[0]}>
          <tbody>
            {rows.map((row) => (
              <tr key={row.id}>
                <td className="num buy">{amount('toBuy' in row ? row.toBuy : row.qty, row.unit, lengths)}</td>
                <td>
                  {lengths.soldAs(row.name)}
                  <span className="small soft order-where">{row.id}</span>
                  <span className="small soft order-where">
                    {lengths.cutText(('usedIn' in row ? row.usedIn : row.from).join(', '))}
                  </span>
                </td>
                <td className="num small soft">
                  {'inBox' in row && row.inBox > 0 ? `${amount(row.inBox, row.unit, lengths)} in the box` : ''}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </>
  );
}
