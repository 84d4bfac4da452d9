import { leastSquares } from '../photo/least-squares.kernel.ts';
import type { Point2 } from './outline.ts';

/** A straight line: a place on it and its way, of length one. */
export interface FittedLine {
  readonly kind: 'line';
  readonly at: Point2;
  readonly way: Point2;
}

/** A circle. */
export interface FittedArc {
  readonly kind: 'arc';
  readonly centre: Point2;
  readonly radius: number;
}

/** The line with the least squares across it (pearson-1901). */
export function fittedLine(points: readonly Point2[]): FittedLine {
  const n = points.length;
  let [x, y] = [0, 0];
  for (const p of points) [x, y] = [x + p[0] / n, y + p[1] / n];
  let [xx, xy, yy] = [0, 0, 0];
  for (const p of points) {
    xx += (p[0] - x) ** 2;
    xy += (p[0] - x) * (p[1] - y);
    yy += (p[1] - y) ** 2;
  }
  const angle = Math.atan2(2 * xy, xx - yy) / 2;
  const way: Point2 = [Math.cos(angle), Math.sin(angle)];
  const [a, b] = [points[0]!, points[n - 1]!];
  const runs = (b[0] - a[0]) * way[0] + (b[1] - a[1]) * way[1];
  return { kind: 'line', at: [x, y], way: runs < 0 ? [-way[0], -way[1]] : way };
}

/** The circle with the least squares of distances from it, begun at the one through the first, middle and last place. */
export function fittedArc(points: readonly Point2[]): FittedArc | undefined {
  const n = points.length;
  const first =
    circleThrough(points[0]!, points[n >> 1]!, points[n - 1]!) ??
    circleThrough(points[0]!, points[Math.floor(n / 3)]!, points[Math.floor((2 * n) / 3)]!);
  if (first === undefined) return undefined;
  const fit = leastSquares({
    start: Float64Array.of(first.centre[0], first.centre[1], first.radius),
    nudges: Float64Array.of(1e-4, 1e-4, 1e-4),
    count: n,
    residuals: ([cx, cy, r], out) => {
      points.forEach((p, i) => {
        out[i] = Math.hypot(p[0] - cx!, p[1] - cy!) - r!;
      });
    },
  });
  if (fit === undefined) return undefined;
  const [cx, cy, radius] = fit.terms;
  return radius! > 0 ? { kind: 'arc', centre: [cx!, cy!], radius: radius! } : undefined;
}

export function circleThrough(p: Point2, q: Point2, r: Point2): FittedArc | undefined {
  const [ax, ay, bx, by] = [q[0] - p[0], q[1] - p[1], r[0] - p[0], r[1] - p[1]];
  const twice = 2 * (ax * by - ay * bx);
  const [aa, bb] = [ax * ax + ay * ay, bx * bx + by * by];
  if (!(Math.abs(twice) > 1e-9 * (aa + bb))) return undefined;
  const [ux, uy] = [(by * aa - ay * bb) / twice, (ax * bb - bx * aa) / twice];
  return { kind: 'arc', centre: [p[0] + ux, p[1] + uy], radius: Math.hypot(ux, uy) };
}

/** Signed distance of a place from it. */
export function offPiece(piece: FittedLine | FittedArc, p: Point2): number {
  if (piece.kind === 'arc') return Math.hypot(p[0] - piece.centre[0], p[1] - piece.centre[1]) - piece.radius;
  return (p[0] - piece.at[0]) * piece.way[1] - (p[1] - piece.at[1]) * piece.way[0];
}

/** The place on it nearest to another. */
export function onPiece(piece: FittedLine | FittedArc, p: Point2): Point2 {
  if (piece.kind === 'line') {
    const s = (p[0] - piece.at[0]) * piece.way[0] + (p[1] - piece.at[1]) * piece.way[1];
    return [piece.at[0] + s * piece.way[0], piece.at[1] + s * piece.way[1]];
  }
  const [x, y] = [p[0] - piece.centre[0], p[1] - piece.centre[1]];
  const share = piece.radius / (Math.hypot(x, y) || 1);
  return [piece.centre[0] + x * share, piece.centre[1] + y * share];
}

/** Where two of them meet; none, one or two places. */
export function meetings(p: FittedLine | FittedArc, q: FittedLine | FittedArc): Point2[] {
  if (p.kind === 'line' && q.kind === 'line') {
    const across = p.way[0] * q.way[1] - p.way[1] * q.way[0];
    if (Math.abs(across) < 0.02) return [];
    const s = ((q.at[0] - p.at[0]) * q.way[1] - (q.at[1] - p.at[1]) * q.way[0]) / across;
    return [[p.at[0] + s * p.way[0], p.at[1] + s * p.way[1]]];
  }
  if (p.kind === 'line') return q.kind === 'arc' ? lineCircle(p, q) : [];
  if (q.kind === 'line') return lineCircle(q, p);
  // two circles: both lie on the line where their powers are the same
  const [dx, dy] = [q.centre[0] - p.centre[0], q.centre[1] - p.centre[1]];
  const d = Math.hypot(dx, dy);
  if (d < 1e-9) return [];
  const along = (d * d + p.radius ** 2 - q.radius ** 2) / (2 * d);
  const way: Point2 = [-dy / d, dx / d];
  return lineCircle({ kind: 'line', at: [p.centre[0] + (along * dx) / d, p.centre[1] + (along * dy) / d], way }, p);
}

function lineCircle(line: FittedLine, circle: FittedArc): Point2[] {
  const near = onPiece(line, circle.centre);
  const square = circle.radius ** 2 - (near[0] - circle.centre[0]) ** 2 - (near[1] - circle.centre[1]) ** 2;
  if (square < 0) return [];
  const half = Math.sqrt(square);
  return [1, -1].map((side): Point2 => [near[0] + side * half * line.way[0], near[1] + side * half * line.way[1]]);
}
