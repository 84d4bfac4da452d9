/** Independent scramblings of one sequence: their spread tells the error. */
export const REPLICATES = 8;

/** Student's t for a two-sided 95 % interval out of 8 means (7 degrees of freedom). */
const T_95_OF_8 = 2.3646;

/** 3.0: with no hit among n rays the share is below 3/n with 95 % confidence, as 0.05^(1/n) = 1 - 3.0/n. */
const ZERO_HITS = -Math.log(0.05);

/**
 * Mean of the replicates and half the width of its 95 % interval.
 *
 * @param sums - of the shares in each replicate
 * @param rays - in each replicate
 */
export function replicateError95(sums: Float64Array, rays: number): { mean: number; error95: number } {
  const n = sums.length;
  let sum = 0;
  for (let i = 0; i < n; i++) sum += sums[i]!;
  const mean = sum / (n * rays);
  let squares = 0;
  for (let i = 0; i < n; i++) squares += (sums[i]! / rays - mean) ** 2;
  return { mean, error95: T_95_OF_8 * Math.sqrt(squares / (n * (n - 1))) };
}

export const zeroHitsError95 = (rays: number): number => ZERO_HITS / rays;
