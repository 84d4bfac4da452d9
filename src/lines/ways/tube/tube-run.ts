import {
  type Vec,
  addScaled,
  arcPath,
  distance,
  dot,
  norm,
  perpendicular,
  scale,
  sub,
  subdivided,
  unit,
} from '#geometry';

/** The corners of a bent tube, start and end included: straights between them, each inner corner rounded on one radius. */
export type Corners = readonly Vec[];

/** A bent tube measured: one more straight than bends. */
export interface TubeRun {
  /** Unit vectors along the legs from corner to corner. */
  readonly along: readonly Vec[];
  /** What is left straight of each leg between the bends [mm]; negative where the bends do not fit. */
  readonly straightsMm: readonly number[];
  /** Angle bent through at each inner corner [rad]. */
  readonly bendsRad: readonly number[];
  /** Along the centreline, straights and arcs [mm]. */
  readonly lengthMm: number;
}

/**
 * Straights and bends of a run of corners on one radius: a bend by a takes R tan(a/2) of the leg on each side and is R a long.
 */
export function tubeRun(corners: Corners, radiusMm: number): TubeRun {
  const legs = corners.slice(1).map((p, i) => sub(p, corners[i]!));
  const along = directions(legs);
  const bendsRad = along.slice(1).map((d, i) => angleBetween(along[i]!, d));
  const tangents = [0, ...bendsRad.map((a) => radiusMm * Math.tan(a / 2)), 0];
  const straightsMm = legs.map((leg, i) => Math.hypot(...leg) - tangents[i]! - tangents[i + 1]!);
  const lengthMm = straightsMm.reduce((sum, s) => sum + s, 0) + bendsRad.reduce((sum, a) => sum + radiusMm * a, 0);
  return { along, straightsMm, bendsRad, lengthMm };
}

/** Unit vectors along legs; a leg of no length goes on as the one before it. */
function directions(legs: readonly Vec[]): Vec[] {
  const out: Vec[] = [];
  for (const leg of legs) out.push(norm(leg) > 0 ? unit(leg) : (out.at(-1) ?? firstOf(legs)));
  return out;
}

function firstOf(legs: readonly Vec[]): Vec {
  const leg = legs.find((one) => norm(one) > 0);
  return leg === undefined ? [1, 0, 0] : unit(leg);
}

/** Angle between unit vectors [rad], good for small and large ones alike. */
export function angleBetween(u: Vec, v: Vec): number {
  const sum: Vec = [u[0] + v[0], u[1] + v[1], u[2] + v[2]];
  return 2 * Math.atan2(distance(u, v), Math.hypot(...sum));
}

/** Farthest apart that points of a path may be [mm]; the outside contract is 3. */
const STEP_MM = 2.95;

/** The centreline from the first corner to the last: x,y,z, points at most 3 mm apart, on the true arcs. */
export function tubePath(corners: Corners, radiusMm: number): Float64Array {
  const { along, bendsRad } = tubeRun(corners, radiusMm);
  const points: number[] = [...corners[0]!];
  bendsRad.forEach((angle, i) => {
    if (angle < STRAIGHT_RAD) return;
    const corner = corners[i + 1]!;
    const from = addScaled(corner, along[i]!, -radiusMm * Math.tan(angle / 2));
    points.push(...arcPath(from, along[i]!, along[i + 1]!, radiusMm, angle, SAGITTA_MM, STEP_MM).points);
  });
  points.push(...corners.at(-1)!);
  return subdivided(withoutRepeats(points), STEP_MM);
}

/** How far a chord of the drawn path may stand off its arc [mm]; the outside contract is 0.05. */
const SAGITTA_MM = 0.045;
/** A bend below this is none [rad]. */
export const STRAIGHT_RAD = 1e-6;

function withoutRepeats(points: readonly number[]): number[] {
  const out: number[] = points.slice(0, 3);
  for (let i = 3; i + 2 < points.length; i += 3) {
    const d = Math.hypot(points[i]! - out.at(-3)!, points[i + 1]! - out.at(-2)!, points[i + 2]! - out.at(-1)!);
    if (d > 1e-9) out.push(points[i]!, points[i + 1]!, points[i + 2]!);
  }
  return out;
}

/** Corners that do not turn, left out. */
export function withoutStraightCorners(corners: Corners): Vec[] {
  const out: Vec[] = [];
  for (const [i, at] of corners.entries()) {
    const before = out.at(-1);
    const next = corners[i + 1];
    if (before !== undefined && next !== undefined) {
      const turn = distance(before, at) < 1e-9 ? 0 : angleBetween(unit(sub(at, before)), unit(sub(next, at)));
      if (turn < STRAIGHT_RAD) continue;
    }
    out.push(at);
  }
  return out;
}

/** The side to which a run bends from `before` to `after`: the unit vector square to `before`, towards the bend's centre; any side where it goes straight on or back. */
export function bendSide(before: Vec, after: Vec): Vec {
  const side = sub(after, scale(before, dot(after, before)));
  return norm(side) > 0 ? unit(side) : perpendicular(before);
}
