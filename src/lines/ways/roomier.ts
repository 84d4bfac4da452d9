import type { Way } from '../way.ts';
import type { Clearance } from './clearance.ts';

/** Readings of slack in bricks are this much too generous at inside corners, at worst [mm]. */
const MOST_MISS_MM = 3;
const OVER_MM = 0.2;

/** The same reading with some room taken off, for a search that the true surfaces refused. */
export function roomier(clear: Clearance, roomMm: number): Clearance {
  if (roomMm === 0) return clear;
  return {
    slackAndGradient(x, y, z, out) {
      clear.slackAndGradient(x, y, z, out);
      out[0] = out[0]! - roomMm;
    },
    closely(x, y, z, out) {
      clear.closely(x, y, z, out);
      out[0] = out[0]! - roomMm;
    },
    coarse: (x, y, z) => clear.coarse(x, y, z),
  };
}

/** Room that would have cured the least miss [mm]; null where a way is feasible or none failed by keep-offs so narrowly. */
export function narrowMissMm(ways: readonly Way[]): number | null {
  if (ways.some((way) => way.feasible)) return null;
  const misses = ways.map((way) =>
    Math.max(
      ...way.fails.map((fail) =>
        fail.limit === 'keep-off' ? (fail.limitMm ?? Infinity) - (fail.valueMm ?? 0) : Infinity,
      ),
    ),
  );
  const least = Math.min(...misses);
  return least <= MOST_MISS_MM ? least + OVER_MM : null;
}
