import { mmFromInches } from '#units';
import type { SourceId } from '#sources';

/** How far a cut hose may be off its length, by length [in]; the last row is a share of the length. */
export const cutTolerances = [
  { upToIn: 12, plusMinusIn: 0.125, source: 'rma-ip-2' },
  { upToIn: 24, plusMinusIn: 0.188, source: 'rma-ip-2' },
  { upToIn: 36, plusMinusIn: 0.25, source: 'rma-ip-2' },
  { upToIn: 48, plusMinusIn: 0.375, source: 'rma-ip-2' },
  { upToIn: 72, plusMinusIn: 0.5, source: 'rma-ip-2' },
] as const satisfies readonly { upToIn: number; plusMinusIn: number; source: SourceId }[];

/** Beyond the table: one part in a hundred. Source: rma-ip-2. */
const longShare = 0.01;

/** How far a hose cut to this length may be off [mm], plus or minus; a length on a row's border takes the shorter row. */
export function cutToleranceMm(lengthMm: number): number {
  const row = cutTolerances.find((r) => lengthMm <= mmFromInches(r.upToIn));
  return row === undefined ? longShare * lengthMm : mmFromInches(row.plusMinusIn);
}
