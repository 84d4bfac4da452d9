import type { Point2 } from '#geometry';

/** A straight line of the drawing: through a point, along a unit vector. The sheet lies to its left. */
export interface FlatLine {
  readonly at: Point2;
  readonly along: Point2;
}

export const plus = (a: Point2, b: Point2, s = 1): Point2 => [a[0] + b[0] * s, a[1] + b[1] * s];
export const minus = (a: Point2, b: Point2): Point2 => [a[0] - b[0], a[1] - b[1]];
export const dot2 = (a: Point2, b: Point2): number => a[0] * b[0] + a[1] * b[1];
export const cross2 = (a: Point2, b: Point2): number => a[0] * b[1] - a[1] * b[0];
export const long2 = (a: Point2): number => Math.hypot(a[0], a[1]);
export const unit2 = (a: Point2): Point2 => [a[0] / long2(a), a[1] / long2(a)];
/** A quarter turn to the right: outwards from a line whose sheet lies to its left. */
export const rightOf = (a: Point2): Point2 => [a[1], -a[0]];
export const degOf = (a: Point2): number => (Math.atan2(a[1], a[0]) * 180) / Math.PI;

export const lineThrough = (from: Point2, to: Point2): FlatLine => ({ at: from, along: unit2(minus(to, from)) });

/** The line moved outwards by so much. */
export const movedOut = (line: FlatLine, mm: number): FlatLine => ({
  ...line,
  at: plus(line.at, rightOf(line.along), mm),
});

/** How far outside the line a point stands. */
export const outsideLine = (line: FlatLine, p: Point2): number => dot2(minus(p, line.at), rightOf(line.along));

/** Flatter than this two lines are taken to run on in one [sine of their angle]. */
const IN_LINE = 0.02;

/** Where two lines cross; near `by` and as far out as the deeper of the two where they run on in one. */
export function crossing(a: FlatLine, b: FlatLine, by: Point2): Point2 {
  const sine = cross2(a.along, b.along);
  if (Math.abs(sine) > IN_LINE) return plus(a.at, a.along, cross2(minus(b.at, a.at), b.along) / sine);
  const deeper = outsideLine(a, by) > outsideLine(b, by) ? a : b;
  return plus(by, rightOf(deeper.along), -outsideLine(deeper, by));
}
