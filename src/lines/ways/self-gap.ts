import type { Vec } from '#geometry';
import { runningLength } from './holds.ts';

/** Every so many points of the path are looked at: 3 mm apart times this is well under a hose's radius. */
const STRIDE = 2;

/** How near a hose comes to itself, surface to surface, for places more than half a turn apart along it; null where it is too short to [mm]. */
export function selfGap(path: Float64Array, odMm: number, minBendRadiusMm: number): { gapMm: number; at: Vec } | null {
  const along = runningLength(path);
  const apart = Math.PI * minBendRadiusMm;
  let least = Number.POSITIVE_INFINITY;
  let at: Vec = [0, 0, 0];
  for (let i = 0; i < along.length; i += STRIDE)
    for (let j = along.length - 1; j > i && along[j]! - along[i]! > apart; j -= STRIDE) {
      const dx = path[3 * i]! - path[3 * j]!;
      const dy = path[3 * i + 1]! - path[3 * j + 1]!;
      const dz = path[3 * i + 2]! - path[3 * j + 2]!;
      const square = dx * dx + dy * dy + dz * dz;
      if (square >= least) continue;
      least = square;
      at = [path[3 * i]!, path[3 * i + 1]!, path[3 * i + 2]!];
    }
  return least === Number.POSITIVE_INFINITY ? null : { gapMm: Math.sqrt(least) - odMm, at };
}
