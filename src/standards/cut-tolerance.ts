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

/**
 * Usual tolerance of a hose cut to length, by the hose trade's table: 1/8 in up to 12 in, then in steps, 1 % above 72 in; a
 * length on a row's border takes the shorter row.
 *
 *     tolerance = table(length)
 *
 * @param lengthMm - cut length [mm]
 * @returns tolerance, plus or minus [mm]
 * @valid 0 < lengthMm <= 30000
 * @source rma-ip-2 table 4-8
 * @example cutToleranceMm(300) // 3.175
 */
export function cutToleranceMm(lengthMm: number): number {
  const row = cutTolerances.find((r) => lengthMm <= mmFromInches(r.upToIn));
  return row === undefined ? longShare * lengthMm : mmFromInches(row.plusMinusIn);
}
