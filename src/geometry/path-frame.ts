import { addScaled, cross, dot, norm, scale, sub, unit, type Vec } from './vec.ts';

/** Less sideways than this, of a unit vector, is no bend direction: the end is straight. */
const STRAIGHT = 1e-6;

const pointAt = (p: ArrayLike<number>, i: number): Vec => [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];

/**
 * Unit directions of a smooth curve at its points: at a point, that of the circle through it and its neighbours; at the ends
 * those given, else that of the circle through the last three points.
 */
export function directionsAlong(points: ArrayLike<number>, first?: Vec, last?: Vec): readonly Vec[] {
  const n = points.length / 3;
  const out: Vec[] = [];
  for (let i = 0; i < n; i++) {
    if (i === 0 && first) out.push(unit(first));
    else if (i === n - 1 && last) out.push(unit(last));
    else if (n === 2) out.push(unit(sub(pointAt(points, 1), pointAt(points, 0))));
    else {
      const j = Math.min(Math.max(i, 1), n - 2);
      const a = sub(pointAt(points, j), pointAt(points, j - 1));
      const b = sub(pointAt(points, j + 1), pointAt(points, j));
      const la = norm(a);
      const lb = norm(b);
      // On a circle the direction at the middle weighs the chord directions by the other chord's length.
      const middle = unit(addScaled(scale(a, lb / la), b, la / lb));
      if (i === j) out.push(middle);
      // At the end of a chord the direction is the middle's mirrored in the chord.
      else out.push(i < j ? mirroredIn(middle, unit(a)) : mirroredIn(middle, unit(b)));
    }
  }
  return out;
}

const mirroredIn = (d: Vec, chord: Vec): Vec => sub(scale(chord, 2 * dot(d, chord)), d);

/**
 * A vector square to the curve, carried along it without twist from the first point to every other (double reflection:
 * Wang, Juttler, Zheng, Liu 2008, from memory). `start` need not be square: its part along the curve is dropped.
 */
export function carriedAlong(points: ArrayLike<number>, directions: readonly Vec[], start: Vec): readonly Vec[] {
  const t0 = directions[0]!;
  let r = unit(addScaled(start, t0, -dot(start, t0)));
  const out: Vec[] = [r];
  for (let i = 0; i + 1 < directions.length; i++) {
    const v = sub(pointAt(points, i + 1), pointAt(points, i));
    const vv = dot(v, v);
    if (vv > 0) {
      const mirroredR = addScaled(r, v, (-2 * dot(v, r)) / vv);
      const mirroredT = addScaled(directions[i]!, v, (-2 * dot(v, directions[i]!)) / vv);
      const w = sub(directions[i + 1]!, mirroredT);
      const ww = dot(w, w);
      r = ww > 1e-18 ? addScaled(mirroredR, w, (-2 * dot(w, mirroredR)) / ww) : mirroredR;
      const t = directions[i + 1]!;
      r = unit(addScaled(r, t, -dot(r, t)));
    }
    out.push(r);
  }
  return out;
}

/**
 * How far the second end is turned from the first on the straight, untwisted hose: clockwise looking from the first end
 * along the hose, 0 <= angle < 360 [deg]; null where an end is straight.
 *
 * @param points - the hose's centreline from the first end to the second, x,y,z triples [mm]
 * @param firstFaces - which way the first end's fitting screws on, from the hose towards its port; any length, and only its
 *   part square to the hose counts
 * @param secondFaces - the same of the second end
 * @param leaving - direction of the hose at the first end, if known better than from the points
 * @param arriving - direction of travel at the second end, likewise
 */
export function endToEndDeg(
  points: ArrayLike<number>,
  firstFaces: Vec,
  secondFaces: Vec,
  leaving?: Vec,
  arriving?: Vec,
): number | null {
  const directions = directionsAlong(points, leaving, arriving);
  const t0 = directions[0]!;
  const t1 = directions.at(-1)!;
  const a = addScaled(firstFaces, t0, -dot(firstFaces, t0));
  const b = addScaled(secondFaces, t1, -dot(secondFaces, t1));
  if (norm(a) <= STRAIGHT * norm(firstFaces) || norm(b) <= STRAIGHT * norm(secondFaces)) return null;
  const carried = carriedAlong(points, directions, a).at(-1)!;
  // A turn right-handed about the direction of travel looks clockwise to one who looks along it.
  const angle = (Math.atan2(dot(t1, cross(carried, b)), dot(carried, b)) * 180) / Math.PI;
  return angle < -1e-9 ? angle + 360 : Math.max(0, angle);
}
