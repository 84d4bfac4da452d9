import { chordAt } from './spread.ts';

/** How far to either side the bend is felt for [mm]: shorter, and rounding of the points shows; longer, and short bends hide. */
const WINDOW_MM = 8;

/**
 * Least bend radius of a polyline whose points lie on the true curve: the least radius of the circles through a point and
 * the first points at least `windowMm` along to either side. On an arc it is the arc's own radius; a straight joined to an
 * arc never makes it less.
 *
 * @returns radius [mm] and the number of the middle point; Infinity and -1 for a straight or a line of two points
 */
export function tightestBend(
  points: ArrayLike<number>,
  windowMm = WINDOW_MM,
): { readonly radiusMm: number; readonly at: number } {
  const n = points.length / 3;
  let radiusMm = Infinity;
  let at = -1;
  for (let i = 1; i + 1 < n; i++) {
    const before = reach(points, i, -1, windowMm);
    const after = reach(points, i, 1, windowMm);
    if (before < 0 || after < 0) continue;
    const r = circleRadius(points, before, i, after);
    if (r < radiusMm) {
      radiusMm = r;
      at = i;
    }
  }
  return { radiusMm, at };
}

/** First point at least `windowMm` along; near an end the end itself, if it is at least a third of that away; else -1. */
function reach(p: ArrayLike<number>, from: number, way: 1 | -1, windowMm: number): number {
  const last = p.length / 3 - 1;
  let run = 0;
  let j = from;
  while (run < windowMm - 1e-6) {
    if ((way > 0 && j === last) || (way < 0 && j === 0)) return run >= windowMm / 3 ? j : -1;
    run += chordAt(p, way > 0 ? j : j - 1);
    j += way;
  }
  return j;
}

/** Radius of the circle through three points; Infinity when they are in line. */
function circleRadius(p: ArrayLike<number>, i: number, j: number, k: number): number {
  const ax = p[3 * j]! - p[3 * i]!;
  const ay = p[3 * j + 1]! - p[3 * i + 1]!;
  const az = p[3 * j + 2]! - p[3 * i + 2]!;
  const bx = p[3 * k]! - p[3 * j]!;
  const by = p[3 * k + 1]! - p[3 * j + 1]!;
  const bz = p[3 * k + 2]! - p[3 * j + 2]!;
  const twiceArea = Math.hypot(ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx);
  const a = Math.hypot(ax, ay, az);
  const b = Math.hypot(bx, by, bz);
  const c = Math.hypot(ax + bx, ay + by, az + bz);
  return twiceArea > 1e-12 * a * b ? (a * b * c) / (2 * twiceArea) : Infinity;
}
