import type { Lever } from '#car';
import { addScaled, distance, dot, norm, scale, sub, unit, type Vec } from '#geometry';
import { leverCrank, pinAt } from './crank.ts';

/** Gap from a place to the middle of a wheel's rim [mm]. */
export function rimDistance(wheel: NonNullable<Lever['wheel']>, placeMm: Vec): number {
  const axis = unit(wheel.axis);
  const to = sub(placeMm, wheel.centreMm);
  const flat = addScaled(to, axis, -dot(to, axis));
  const length = norm(flat);
  // On the column itself every place of the rim is as near.
  if (!(length > 0)) return Math.hypot(dot(to, axis), wheel.rimRadiusMm);
  const rim = addScaled(wheel.centreMm, scale(flat, 1 / length), wheel.rimRadiusMm);
  return distance(placeMm, rim);
}

/** How far the handle is from the rim of the wheel: at both ends of its swing and as drawn [mm]. */
export function reach(lever: Lever): readonly [low: number, rest: number, high: number] | null {
  const { wheel, handle } = lever;
  if (wheel === undefined || handle === undefined) return null;
  const crank = leverCrank(lever);
  const at = (turn: number): number => rimDistance(wheel, pinAt(crank, handle.atMm, turn));
  return [at(crank.turnRad[0]), at(0), at(crank.turnRad[1])];
}
