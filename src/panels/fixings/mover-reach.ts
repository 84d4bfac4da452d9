import type { Mover } from '#car';
import { addScaled, cross, dot, norm, scale, sub, unit, type Vec } from '#geometry';

/** How far a mover takes a point from where it rests [mm], and the way it goes. */
export interface MoverReach {
  readonly mm: number;
  readonly along: Vec;
}

/** The furthest of a mover's own limits; turned about its pivot and slid. Undefined where nothing moves. */
export function moverReach(mover: Mover | undefined, at: Vec): MoverReach | undefined {
  if (mover === undefined) return undefined;
  const steps: Vec[] = (mover.slideMm ?? []).map((slide) => [slide[0], slide[1], slide[2]]);
  if (mover.turnDeg !== undefined && mover.axis !== undefined && mover.pivotMm !== undefined) {
    const axis = unit(mover.axis as Vec);
    const arm = sub(at, mover.pivotMm as Vec);
    const square = sub(arm, scale(axis, dot(arm, axis)));
    for (const deg of mover.turnDeg) {
      const angle = (deg * Math.PI) / 180;
      const turned = addScaled(scale(square, Math.cos(angle) - 1), cross(axis, square), Math.sin(angle));
      steps.push(turned);
    }
  }
  const furthest = steps.reduce<Vec>((a, b) => (norm(b) > norm(a) ? b : a), [0, 0, 0]);
  const mm = norm(furthest);
  return mm < 1e-6 ? undefined : { mm, along: scale(furthest, 1 / mm) };
}
