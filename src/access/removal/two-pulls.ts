import { type Bounds, scale, type Vec } from '#geometry';
import { type Mover, movedMover } from './mover.ts';
import type { Obstacle } from './obstacle.ts';
import { inPlace, motionOf, type Pose } from './pose.ts';
import { axisDirections } from './directions.ts';
import { allowedDepth, lengthOut } from './straight-pulls.ts';
import { touchesAlong } from './touch.kernel.ts';

/** How far a part is first pulled off its place before it is pulled out another way [mm]: a hand tries a little before a lot. */
const FIRST_MM = [15, 50, 150];

/**
 * A way out in two straight pulls past everything: a little off its place, then out another way; null where none is found.
 *
 * @param own - ways in which the part itself comes off its place, tried before the axes
 * @param directions - ways out, the first one that is free counts
 */
export function twoPulls(
  mover: Mover,
  obstacles: readonly Obstacle[],
  bounds: Bounds,
  own: readonly Vec[],
  directions: readonly Vec[],
): readonly Pose[] | null {
  const allowed = obstacles.map((way) => allowedDepth(mover, way));
  const isFree = (pulled: Mover, direction: Vec, lengthMm: number): boolean =>
    obstacles.every((way, i) => !touchesAlong(pulled, way, direction, lengthMm, allowed[i]!));
  for (const firstMm of FIRST_MM)
    for (const first of [...own, ...axisDirections]) {
      if (!isFree(mover, first, firstMm)) continue;
      const off: Pose = { ...inPlace, shift: scale(first, firstMm) };
      const pulled = movedMover(mover, motionOf(off, mover.middle));
      const out = directions.find((direction) => isFree(pulled, direction, lengthOut(pulled, bounds, direction)));
      if (out === undefined) continue;
      const far = lengthOut(pulled, bounds, out);
      return [
        inPlace,
        off,
        { ...inPlace, shift: [0, 1, 2].map((k) => off.shift[k]! + far * out[k]!) as unknown as Vec },
      ];
    }
  return null;
}
