import type { Lever } from '#car';
import { type BracketAnswer, bracketByTriangles } from '#levers';
import { formatNumber } from '#units';
import type { LeverUnits } from './lever-units.ts';

const MARGIN = '  ';
const KG_PER_LB = 0.45359237;
const PSI_PER_MPA = 145.03774;
const words: Readonly<Record<BracketAnswer['rows'][number]['what'], string>> = {
  bearing: 'pin on its hole',
  'net-section': 'strip round the pin',
  'tear-out': 'pin to the edge',
  foot: 'bending over the foot',
  'bolt-bearing': 'bolt on its hole',
  'bolt-tear-out': 'bolt to the edge',
};

/** What the bracket of a lever has under its pull against what its sheet stands, and how far the hand gives. */
export function bracketRows(answer: BracketAnswer, plate: NonNullable<Lever['bracket']>, units: LeverUnits): string[] {
  // Three digits of strengths that are known to three.
  const mpa = (value: number): string =>
    units.lengths.unit === 'in'
      ? `${formatNumber(Number((value * PSI_PER_MPA).toPrecision(3)))} psi`
      : `${formatNumber(value)} MPa`;
  // 0.13 mm prints as 0.1 mm and as 0.01 in: the last digit that is shown.
  const give = (mm: number): string => (mm < 0.13 ? `under ${units.travel(0.13)}` : units.travel(mm));
  const rows = answer.rows.map((row) => `${words[row.what]} ${mpa(row.stressMpa)} of ${mpa(row.standsMpa)}`);
  const fine = bracketByTriangles(plate, answer);
  return [
    `${MARGIN}bracket, ${answer.sheet.id}, ${units.force(answer.forceN)} on each plate: ${rows.join(', ')}`,
    `${MARGIN}${MARGIN}at ${units.force(250)} the pivot gives ${give(answer.pivotGivesMm)}, the hand ${give(answer.handGivesMm)}; what it is bolted to gives besides`,
    ...(answer.massSavedKg === undefined
      ? []
      : [
          `${MARGIN}${MARGIN}its lightening holes save ${units.lengths.unit === 'in' ? `${formatNumber(answer.massSavedKg / KG_PER_LB, 3)} lb` : `${formatNumber(1000 * answer.massSavedKg)} g`}`,
        ]),
    ...(fine === null
      ? []
      : [
          `${MARGIN}${MARGIN}by triangles: ${mpa(fine.stressMpa)} where it is most (at the rim of a hole), the pivot gives ${give(fine.pivotGivesMm)}; cracks begin there: test it`,
        ]),
  ];
}
