import type { Line } from '#car';
import { dutyNeeds } from '#standards';

/** What a hose is proved at, over its working pressure (common practice, no source). */
export const PROOF_FACTOR = 1.5;
/** Held for so long (common practice, no source) [min]. */
export const PROOF_MINUTES = 5;

/** Most working pressure of a line [bar gauge], and whether the car says it or only its duty's usual. */
export function workingPressure(line: Line): { readonly bar: number; readonly isUsual: boolean } {
  if (line.pressureBar !== undefined) return { bar: line.pressureBar, isUsual: false };
  return { bar: dutyNeeds(line.duty).pressureBar, isUsual: true };
}

/**
 * Pressure at which a line is proved on the bench.
 *
 *     p = 1.5 p_working
 */
export const proofBar = (line: Line): number => PROOF_FACTOR * workingPressure(line).bar;
