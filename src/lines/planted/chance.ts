import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { type Vec, cross, scale } from '#geometry';

/** Chance that comes out the same for the same seed. */
export interface Chance {
  /** Evenly between two values. */
  between(low: number, high: number): number;
  whole(low: number, high: number): number;
  oneOf<T>(all: readonly T[]): T;
  direction(): Vec;
  /** A unit vector square to `along`. */
  squareTo(along: Vec): Vec;
}

export function chance(seed: number): Chance {
  const generator = xoroshiro128plus(seed);
  for (let n = 0; n < 8; n++) generator.next();
  const between = (low: number, high: number): number => low + (high - low) * uniformFloat64(generator);
  const whole = (low: number, high: number): number => Math.min(high, low + Math.floor(between(0, high - low + 1)));
  const direction = (): Vec => {
    const z = between(-1, 1);
    const angle = between(0, 2 * Math.PI);
    const flat = Math.sqrt(Math.max(0, 1 - z * z));
    return [flat * Math.cos(angle), flat * Math.sin(angle), z];
  };
  const squareTo = (along: Vec): Vec => {
    for (;;) {
      const side = cross(along, direction());
      const n = Math.hypot(...side);
      if (n > 0.1) return scale(side, 1 / n);
    }
  };
  return { between, whole, oneOf: (all) => all[whole(0, all.length - 1)]!, direction, squareTo };
}
