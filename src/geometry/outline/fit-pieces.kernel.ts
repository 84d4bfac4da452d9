import type { Point2 } from './outline.ts';

/** A stretch of a chain that is taken as one straight line or one arc: from one place of the chain to another. */
export interface Piece {
  readonly from: number;
  readonly to: number;
  readonly kind: 'line' | 'arc';
}

export interface PieceWish {
  /** Scatter of the places across the chain [mm]. */
  readonly scatterMm: number;
  /** A bow [mm] that a straight edge may show all the same: what is left of lens and slant (one standard deviation). */
  readonly bowMm: number;
  /** Places at either end of a piece that do not count: corners are seen round. */
  readonly ends: number;
  /** Least number of steps in a piece. */
  readonly least: number;
}

/*
 * What one more piece must save in squares over the scatter: its share of the description's length (rissanen-1978), two
 * numbers for a line and three for an arc, each half the logarithm of a thousand places, doubled; and as much again since
 * neighbouring places of an edge in a picture do not scatter on their own.
 */
const LINE_PRICE = 28;
const ARC_PRICE = 42;
/** Flatter than this, an arc is a line: its bow over its chord. */
const FLATTEST = 1 / 400;

/** Sums over a chain of x, y, x2, xy, y2 and the third and fourth powers that a circle needs, so that any stretch costs the same. */
const SUMS = 9;

/**
 * The chain cut into lines and arcs so that squares over the scatter and the pieces' prices together are least: every cut is
 * looked at (dynamic programming, bellman-1961). `points` is open: it begins and ends at a cut.
 */
export function chainPieces(points: readonly Point2[], wish: PieceWish): Piece[] {
  const n = points.length;
  const sums = chainSums(points);
  const best = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
  const cut = new Int32Array(n).fill(-1);
  const isArc = new Uint8Array(n);
  best[0] = 0;
  for (let j = wish.least; j < n; j++)
    for (let i = 0; i <= j - wish.least; i++) {
      if (best[i]! + LINE_PRICE >= best[j]!) continue;
      const costs = stretchCosts(points, sums, i, j, wish);
      const line = best[i]! + costs.line + LINE_PRICE;
      const arc = best[i]! + costs.arc + ARC_PRICE;
      if (Math.min(line, arc) >= best[j]!) continue;
      best[j] = Math.min(line, arc);
      cut[j] = i;
      isArc[j] = arc < line ? 1 : 0;
    }
  const out: Piece[] = [];
  for (let j = n - 1; j > 0; j = cut[j]!) {
    if (cut[j]! < 0) return [{ from: 0, to: n - 1, kind: 'line' }];
    out.unshift({ from: cut[j]!, to: j, kind: isArc[j] === 1 ? 'arc' : 'line' });
  }
  return out;
}

function chainSums(points: readonly Point2[]): Float64Array {
  const sums = new Float64Array(SUMS * (points.length + 1));
  // about the middle, in tens of mm: fourth powers of large coordinates would swallow the scatter
  const [mx, my] = middleOf(points);
  points.forEach(([px, py], i) => {
    const [x, y] = [(px - mx) / 10, (py - my) / 10];
    const q = x * x + y * y;
    const row = [x, y, x * x, x * y, y * y, x * q, y * q, q * q, 1];
    for (let k = 0; k < SUMS; k++) sums[SUMS * (i + 1) + k] = sums[SUMS * i + k]! + row[k]!;
  });
  return sums;
}

function middleOf(points: readonly Point2[]): Point2 {
  let [x, y] = [0, 0];
  for (const p of points) [x, y] = [x + p[0], y + p[1]];
  return [x / points.length, y / points.length];
}

/** Central moments of a stretch: count, then means and sums about them, back in millimetres. */
interface Moments {
  readonly n: number;
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
  readonly xq: number;
  readonly yq: number;
  readonly qq: number;
}

function moments(sums: Float64Array, i: number, j: number): Moments | undefined {
  const a = SUMS * i;
  const b = SUMS * (j + 1);
  const n = sums[b + 8]! - sums[a + 8]!;
  if (n < 3) return undefined;
  const of = (k: number): number => (sums[b + k]! - sums[a + k]!) / n;
  const [x, y, x2, xy, y2, x3, y3, q4] = [of(0), of(1), of(2), of(3), of(4), of(5), of(6), of(7)];
  const xx = x2 - x * x;
  const cov = xy - x * y;
  const yy = y2 - y * y;
  // q about the mean is q - 2 m.p + |m|^2
  const mm = x * x + y * y;
  const xq = x3 - 2 * (x * x2 + y * xy) + mm * x - x * (x2 + y2 - mm);
  const yq = y3 - 2 * (x * xy + y * y2) + mm * y - y * (x2 + y2 - mm);
  const q = xx + yy;
  const qq =
    q4 - 4 * (x * x3 + y * y3) + 4 * (x * x * x2 + 2 * x * y * xy + y * y * y2) + 2 * mm * (x2 + y2) - 3 * mm * mm;
  return { n, xx, xy: cov, yy, xq, yq, qq: Math.max(0, qq - q * q) };
}

/** Sum of squares [mm2] about the line that fits best: the smaller principal moment. */
function lineSquares({ n, xx, xy, yy }: Moments): number {
  const half = (xx + yy) / 2;
  return 100 * n * Math.max(0, half - Math.hypot((xx - yy) / 2, xy));
}

/** Sum of squares [mm2] about the circle that fits best, by the way of kasa-1976; with its radius in `lastRadius`. */
let lastRadius = 0;
function circleSquares({ n, xx, xy, yy, xq, yq, qq }: Moments): number {
  const det = xx * yy - xy * xy;
  if (!(det > 1e-9 * (xx + yy) ** 2)) {
    lastRadius = Number.POSITIVE_INFINITY;
    return Number.POSITIVE_INFINITY;
  }
  const a = (xq * yy - yq * xy) / det;
  const b = (yq * xx - xq * xy) / det;
  const radius2 = (a * a + b * b) / 4 + xx + yy;
  lastRadius = 10 * Math.sqrt(radius2);
  const left = Math.max(0, qq - a * xq - b * yq);
  return (100 * n * left) / (4 * radius2);
}

function stretchCosts(
  points: readonly Point2[],
  sums: Float64Array,
  i: number,
  j: number,
  wish: PieceWish,
): { line: number; arc: number } {
  const ends = Math.min(wish.ends, Math.floor((j - i - 2) / 2));
  const m = moments(sums, i + ends, j - ends);
  if (m === undefined) return { line: 0, arc: 0 };
  const square = wish.scatterMm ** 2;
  const straight = lineSquares(m) / square;
  const round = circleSquares(m) / square;
  const [p, q] = [points[i]!, points[j]!];
  const chord = Math.hypot(q[0] - p[0], q[1] - p[1]);
  const bow = (chord * chord) / (8 * lastRadius);
  // a straight edge may look bowed by a little, at a price
  const bowed = round + (bow / wish.bowMm) ** 2;
  const isFlat = !(bow > FLATTEST * chord);
  return {
    line: Math.min(straight, isFlat || bow < 6 * wish.bowMm ? bowed : straight),
    arc: isFlat ? Number.POSITIVE_INFINITY : round,
  };
}
