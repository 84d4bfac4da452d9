import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

/** Chance that comes out the same for the same seed. */
export interface Seeded {
  between(low: number, high: number): number;
  /** Evenly in the logarithm. */
  scale(low: number, high: number): number;
  whole(low: number, high: number): number;
  oneOf<T>(all: readonly T[]): T;
  isLucky(share: number): boolean;
}

export function seeded(seed: number): Seeded {
  const generator = xoroshiro128plus(seed);
  for (let n = 0; n < 8; n++) generator.next();
  const between = (low: number, high: number): number => low + (high - low) * uniformFloat64(generator);
  const whole = (low: number, high: number): number => Math.min(high, low + Math.floor(between(0, high - low + 1)));
  return {
    between,
    whole,
    scale: (low, high) => Math.exp(between(Math.log(low), Math.log(high))),
    oneOf: (all) => all[whole(0, all.length - 1)]!,
    isLucky: (share) => uniformFloat64(generator) < share,
  };
}
