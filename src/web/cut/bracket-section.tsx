import type { ReactNode } from 'react';
import type { BracketAnswer } from '#levers';
import { formatNumber } from '#units';
import { forceWords, lengthWords } from './panel-numbers.ts';

const words: Readonly<Record<BracketAnswer['rows'][number]['what'], string>> = {
  bearing: 'Pin on its hole',
  'net-section': 'Strip round the pin',
  'tear-out': 'Pin to the edge',
  foot: 'Bending over the foot',
  'bolt-bearing': 'Bolt on its hole',
  'bolt-tear-out': 'Bolt to the edge',
};
const KG_PER_LB = 0.45359237;
const PSI_PER_MPA = 145.03774;

/** Three digits of strengths that are known to three. */
const stressWords = (mpa: number, isInch: boolean): string =>
  isInch ? `${formatNumber(Number((mpa * PSI_PER_MPA).toPrecision(3)))} psi` : `${formatNumber(mpa)} MPa`;

/** The last digit that is shown: 0.1 mm, 0.01 in. */
const LEAST_MM = 0.13;
const gives = (mm: number, isInch: boolean): string =>
  mm < LEAST_MM ? `under ${lengthWords(LEAST_MM, isInch)}` : lengthWords(mm, isInch);

/** A lever's bracket under the pull that it is judged by: each stress against what its sheet stands, and how far the hand gives. */
export function Bracket({ of, isInch }: { readonly of: BracketAnswer; readonly isInch: boolean }): ReactNode {
  return (
    <section className="cut-section" aria-label="Bracket">
      <h2>{`Bracket, ${of.sheet.id}, ${forceWords(of.forceN, isInch)} on each plate`}</h2>
      <table className="sheet" aria-label="Bracket">
        <tbody>
          {of.rows.map(({ what, stressMpa, standsMpa }) => (
            <tr key={what}>
              <td>{words[what]}</td>
              <td className="num">{`${stressWords(stressMpa, isInch)} of ${stressWords(standsMpa, isInch)}`}</td>
            </tr>
          ))}
          <tr>
            <td>{`The hand gives at ${forceWords(250, isInch)}`}</td>
            <td className="num">{gives(of.handGivesMm, isInch)}</td>
          </tr>
          {of.massSavedKg === undefined ? null : (
            <tr>
              <td>Its lightening holes save</td>
              <td className="num">
                {isInch
                  ? `${formatNumber(of.massSavedKg / KG_PER_LB, 3)} lb`
                  : `${formatNumber(1000 * of.massSavedKg)} g`}
              </td>
            </tr>
          )}
        </tbody>
      </table>
      <p className="small soft">
        What it is bolted to gives besides. Cracks begin at the rims of holes: try it before it is relied on.
      </p>
    </section>
  );
}
