import type { Flowing } from '#flow';

/** Invented fluids of the right order, for tests of laws and not of fluids. */
export const hotOil: Flowing = { densityKgM3: 840, viscosityPaS: 0.01 };
export const warmOil: Flowing = { densityKgM3: 865, viscosityPaS: 0.06 };
export const coldOil: Flowing = { densityKgM3: 885, viscosityPaS: 0.6 };
export const water: Flowing = { densityKgM3: 998.2, viscosityPaS: 0.001002 };

/** Even numbers in 0 to 1 from a seed, the same on every machine (mulberry32). */
export function seeded(seed: number): (low?: number, high?: number) => number {
  let state = seed >>> 0;
  return (low = 0, high = 1) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return low + (((t ^ (t >>> 14)) >>> 0) / 2 ** 32) * (high - low);
  };
}

/** A number spread evenly over its powers of ten. */
export const spread = (draw: (low?: number, high?: number) => number, low: number, high: number): number =>
  Math.exp(draw(Math.log(low), Math.log(high)));
