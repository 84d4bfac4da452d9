import type { Point } from './solid-distance.ts';
import type { Inserts, ReadWay } from './read-way.ts';

const sub = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const norm = (a: Point): number => Math.hypot(a[0], a[1], a[2]);

/** Steps between the three points of a circle: closer ones drown in the third decimal of a path. */
const WINDOW = 4;
const RADIUS_SHARE = 0.97;
const STRAIGHT_MM = 25.4;
const OFF_STRAIGHT_MM = 0.3;
/** Cut lengths are printed in fives; chords are shorter than their curve. */
const CUT_MM = 2.5 + 0.7;

/** What is wrong with the hose: its bends, its first straights, its cut length. */
export function hoseFaults(way: ReadWay, hose: number, inserts: Inserts): string[] {
  const body = way.bodies[hose]!;
  const piece = way.pieces[0]!;
  const path = body.pathMm;
  const faults: string[] = [];
  if (Math.abs(piece.odMm - body.odMm) > 0.01)
    faults.push(`the hose is drawn ${body.odMm} mm thick, listed ${piece.odMm}`);
  const tightest = tightestCircle(path);
  if (tightest < piece.minBendRadiusMm * RADIUS_SHARE)
    faults.push(`bends to ${tightest.toFixed(1)} mm, ${piece.minBendRadiusMm} allowed`);
  if (tightest < piece.tightestBendMm * RADIUS_SHARE)
    faults.push(`bends to ${tightest.toFixed(1)} mm, ${piece.tightestBendMm} stated`);
  for (const [label, points, before] of [
    ['first', path, way.bodies[hose - 1]!.pathMm],
    ['last', [...path].reverse(), [...way.bodies[hose + 1]!.pathMm].reverse()],
  ] as const) {
    const off = offStraight(points, before, Math.max(body.odMm, STRAIGHT_MM));
    if (off > OFF_STRAIGHT_MM) faults.push(`the ${label} straight is ${off.toFixed(2)} mm off straight`);
  }
  const insert = way.ends.reduce((sum, end) => sum + inserts(end.makeUp.at(-1)!), 0);
  const shown = path.slice(1).reduce((sum, p, i) => sum + norm(sub(p, path[i]!)), 0);
  const over = piece.cutLengthMm - shown - insert;
  if (Math.abs(over) > CUT_MM)
    faults.push(
      `cut to ${piece.cutLengthMm}, but ${shown.toFixed(1)} shows and ${insert.toFixed(1)} is inside the ends`,
    );
  return faults;
}

function tightestCircle(path: readonly Point[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k + 2 * WINDOW < path.length; k++)
    least = Math.min(least, circle(path[k]!, path[k + WINDOW]!, path[k + 2 * WINDOW]!));
  return least;
}

/** Radius of the circle through three points. */
function circle(a: Point, b: Point, c: Point): number {
  const [p, q, r] = [norm(sub(b, a)), norm(sub(c, b)), norm(sub(a, c))];
  const twiceArea = norm(cross(sub(b, a), sub(c, a)));
  return twiceArea < 1e-9 ? Number.POSITIVE_INFINITY : (p * q * r) / (2 * twiceArea);
}

/** How far the hose leaves the line on along the end before it, over its first straight. */
function offStraight(path: readonly Point[], before: readonly Point[], straightMm: number): number {
  const out = sub(before.at(-1)!, before.at(-2)!);
  const along: Point = [out[0] / norm(out), out[1] / norm(out), out[2] / norm(out)];
  let most = 0;
  for (const p of path) {
    const from = sub(p, path[0]!);
    if (dot(from, along) > straightMm) break;
    most = Math.max(most, norm(cross(from, along)));
  }
  return most;
}
