import type { Bounds, Vec } from '#geometry';
import type { Mover } from './mover.ts';
import type { Obstacle } from './obstacle.ts';
import { depthIn } from './touch.kernel.ts';

/** What touched at the start may go this much deeper on the way [mm]: play of a part that is worked loose. */
export const PLAY_MM = 1;
/** Clear of all else by this, a part is out [mm]. */
const OUT_MM = 20;

/** How deep each obstacle may be in the mover on its way out: not at all, or as deep as it stands in it already and a little play. */
export const allowedDepth = (mover: Mover, way: Obstacle): number => {
  const depth = depthIn(mover, way, 0);
  return depth > 0 ? depth + PLAY_MM : 0;
};

/** How far to pull until the mover is out of the bounds [mm]. */
export function lengthOut({ middle, reachMm }: Mover, bounds: Bounds, direction: Vec): number {
  let least = Infinity;
  for (const k of [0, 1, 2] as const) {
    const d = direction[k];
    if (Math.abs(d) < 1e-9) continue;
    const far = d > 0 ? bounds.max[k] - middle[k] : middle[k] - bounds.min[k];
    least = Math.min(least, (far + reachMm + OUT_MM) / Math.abs(d));
  }
  return Math.max(0, least);
}
