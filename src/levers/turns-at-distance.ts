import { cross, dot, norm, sub, type Vec } from '#geometry';
import { type Crank, footOnAxis } from './crank.ts';

/** The two turns at which a pin stands at a distance from a place: `middle` -+ `half` [rad]; undefined: at none. */
export interface TurnsAtDistance {
  readonly middleRad: number;
  readonly halfRad: number;
  /** Cosine of `half`: beyond +-1 the place is out of reach. */
  readonly cosine: number;
}

/**
 * The turns of a crank at which its pin stands `distanceMm` from a place: exact, in space.
 * The pin runs on a circle c + r (u cos t + w sin t); |pin - x|^2 = D^2 is A cos t + B sin t = C, so t = atan2(B, A) -+ acos(C/hypot(A, B)).
 * Where the cosine is beyond +-1 the pin cannot get there: `halfRad` is not a number.
 */
export function turnsAtDistance(crank: Crank, pinMm: Vec, fromMm: Vec, distanceMm: number): TurnsAtDistance {
  const centre = footOnAxis(crank, pinMm);
  const u = sub(pinMm, centre);
  const w = cross(crank.axis, u);
  const to = sub(fromMm, centre);
  const [a, b] = [2 * dot(to, u), 2 * dot(to, w)];
  const c = dot(to, to) + dot(u, u) - distanceMm * distanceMm;
  const cosine = c / Math.max(Math.hypot(a, b), Number.MIN_VALUE);
  // A hair beyond 1 at a dead centre is rounding, not out of reach.
  const near = Math.abs(cosine) <= 1 + 1e-12 ? Math.min(1, Math.max(-1, cosine)) : cosine;
  return { middleRad: Math.atan2(b, a), halfRad: Math.acos(near), cosine };
}

/** The turn out of a branch that is nearest to one before [rad]. */
export function turnNear(turns: TurnsAtDistance, branch: 1 | -1, beforeRad: number): number {
  const turn = turns.middleRad + branch * turns.halfRad;
  return turn - 2 * Math.PI * Math.round((turn - beforeRad) / (2 * Math.PI));
}

/** The distance between two places [mm]. */
export const apart = (a: Vec, b: Vec): number => norm(sub(a, b));
