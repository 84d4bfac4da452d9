import { Matrix, solve } from 'ml-matrix';
import { add, addScaled, cross, dot, norm, perpendicular, scale, sub, unit, type Vec } from './vec.ts';

/** A round wall: a line, and a distance from it. */
export interface RoundFit {
  /** A point of the axis [mm]. */
  readonly centreMm: Vec;
  /** Along the axis, one of its two ways. */
  readonly axis: Vec;
  readonly radiusMm: number;
  /** Root mean square of the distances of the points from the wall [mm]. */
  readonly rmsMm: number;
}

const STEPS = 30;
const DONE_MM = 1e-9;

/**
 * The circle nearest to points of a plane, by least squares of the distances.
 *
 *     begun from x^2 + y^2 = 2 a x + 2 b y + c, then minimise sum (|p_i - centre| - r)^2 by Gauss-Newton
 *
 * @param points - at least three, not on one line [mm]
 * @param axis - square to the plane, unit
 */
export function circleFit(points: readonly Vec[], axis: Vec): RoundFit | undefined {
  const begun = begunCircle(points, axis);
  return begun === undefined ? undefined : improved(points, begun, false);
}

/**
 * The cylinder nearest to points, by least squares of the distances.
 *
 *     minimise sum (|q_i| - r)^2,  q_i = (p_i - c) - ((p_i - c) . a) a,  by Gauss-Newton over c, a and r
 *
 * @param points - points of a round wall [mm]
 * @param axis - roughly its axis, unit
 */
export function cylinderFit(points: readonly Vec[], axis: Vec): RoundFit | undefined {
  const begun = begunCircle(points, axis);
  return begun === undefined ? undefined : improved(points, begun, true);
}

function middleOf(points: readonly Vec[]): Vec {
  return scale(
    points.reduce((sum, point) => add(sum, point), [0, 0, 0] as Vec),
    1 / Math.max(1, points.length),
  );
}

function begunCircle(points: readonly Vec[], axis: Vec): RoundFit | undefined {
  if (points.length < 5) return undefined;
  const u = perpendicular(axis);
  const v = cross(axis, u);
  const middle = middleOf(points);
  const flat = points.map((point) => [dot(sub(point, middle), u), dot(sub(point, middle), v)] as const);
  const found = solved(
    flat.map(([x, y]) => [2 * x, 2 * y, 1]),
    flat.map(([x, y]) => x * x + y * y),
  );
  if (found === undefined) return undefined;
  const [a = 0, b = 0, c = 0] = found;
  const squared = c + a * a + b * b;
  if (!(squared > 0)) return undefined;
  return { centreMm: addScaled(addScaled(middle, u, a), v, b), axis, radiusMm: Math.sqrt(squared), rmsMm: Infinity };
}

function improved(points: readonly Vec[], begun: RoundFit, turnsAxis: boolean): RoundFit | undefined {
  let { centreMm: c, axis: a, radiusMm: r } = begun;
  for (let step = 0; step < STEPS; step++) {
    const u = perpendicular(a);
    const v = cross(a, u);
    const rows: number[][] = [];
    const misses: number[] = [];
    for (const point of points) {
      const d = sub(point, c);
      const h = dot(d, a);
      const q = addScaled(d, a, -h);
      const far = Math.max(1e-12, norm(q));
      const [eu, ev] = [dot(q, u) / far, dot(q, v) / far];
      rows.push(turnsAxis ? [-eu, -ev, -1, -h * eu, -h * ev] : [-eu, -ev, -1]);
      misses.push(r - far);
    }
    const by = solved(rows, misses);
    if (by === undefined || !by.every(Number.isFinite)) return undefined;
    const [du = 0, dv = 0, dr = 0, tu = 0, tv = 0] = by;
    c = addScaled(addScaled(c, u, du), v, dv);
    r += dr;
    if (turnsAxis) a = unit(addScaled(addScaled(a, u, tu), v, tv));
    if (Math.hypot(du, dv, dr) < DONE_MM && Math.hypot(tu, tv) < DONE_MM) break;
  }
  if (!(r > 0)) return undefined;
  const fit = { centreMm: c, axis: a, radiusMm: r, rmsMm: 0 };
  const squares = points.reduce((sum, point) => sum + roundMiss(fit, point) ** 2, 0);
  return { ...fit, rmsMm: Math.sqrt(squares / points.length) };
}

/** Signed distance from a round wall, outward positive [mm]. */
export function roundMiss(fit: Pick<RoundFit, 'centreMm' | 'axis' | 'radiusMm'>, point: Vec): number {
  const d = sub(point, fit.centreMm);
  return norm(addScaled(d, fit.axis, -dot(d, fit.axis))) - fit.radiusMm;
}

/** Least squares by the normal equations; undefined where they do not say. */
function solved(rows: readonly number[][], right: readonly number[]): number[] | undefined {
  const n = rows[0]?.length ?? 0;
  const normal = Matrix.zeros(n, n);
  const side = Matrix.zeros(n, 1);
  rows.forEach((row, k) => {
    for (let i = 0; i < n; i++) {
      side.set(i, 0, side.get(i, 0) + row[i]! * right[k]!);
      for (let j = 0; j < n; j++) normal.set(i, j, normal.get(i, j) + row[i]! * row[j]!);
    }
  });
  try {
    return solve(normal, side).to1DArray();
  } catch {
    return undefined;
  }
}
