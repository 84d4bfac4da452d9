import type { Point2 } from '#geometry';

/**
 * A shape cut into level slabs of one height: for each slab the stretches of x that the shape reaches anywhere in it. It is never
 * less than the shape, in x as exact as the shape's own numbers, in y to a slab.
 */
export interface SlabShape {
  /** Slab of its first row, against the shape's own foot; below 0 where the shape was grown. */
  readonly firstRow: number;
  readonly rows: number;
  /** Where each row's stretches begin in `spans`, one more at the end; counted in stretches. */
  readonly starts: Int32Array;
  /** Begin and end of each stretch [mm], two numbers each, in rising order within a row. */
  readonly spans: Float64Array;
}

/** Length of x that each slab's stretches take in a row before they are joined. */
type Row = [number, number][];

/**
 * Slabs of closed rings (the first the outside, others its openings), grown by a distance all round.
 *
 * @param rings - points round each ring [mm]
 * @param slabMm - height of a slab [mm]
 * @param growMm - grown by this [mm]; 0 = the shape itself
 */
export function slabShape(rings: readonly (readonly Point2[])[], slabMm: number, growMm: number): SlabShape {
  let [low, high] = [Infinity, -Infinity];
  for (const ring of rings)
    for (const [, y] of ring) {
      low = Math.min(low, y);
      high = Math.max(high, y);
    }
  const firstRow = Math.floor((low - growMm) / slabMm + 1e-9);
  const rows = Math.max(1, Math.ceil((high + growMm) / slabMm - 1e-9) - firstRow);
  const found: Row[] = Array.from({ length: rows }, () => []);
  for (let r = 0; r <= rows; r++) levelStretches(rings, (firstRow + r) * slabMm, r, found);
  for (const ring of rings)
    for (let i = 0; i < ring.length; i++)
      edgeStretches(ring[i]!, ring[(i + 1) % ring.length]!, slabMm, growMm, firstRow, found);
  return packed(found, firstRow);
}

/** Where the level at `y`, foot of row `r` and head of the row below it, runs inside the rings (even-odd). */
function levelStretches(rings: readonly (readonly Point2[])[], y: number, r: number, found: Row[]): void {
  const xs: number[] = [];
  for (const ring of rings)
    for (let i = 0; i < ring.length; i++) {
      const a = ring[i]!;
      const b = ring[(i + 1) % ring.length]!;
      if (a[1] > y !== b[1] > y) xs.push(a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]));
    }
  xs.sort((one, two) => one - two);
  for (let i = 0; i + 1 < xs.length; i += 2) {
    if (r > 0) found[r - 1]!.push([xs[i]!, xs[i + 1]!]);
    if (r < found.length) found[r]!.push([xs[i]!, xs[i + 1]!]);
  }
}

/** What an edge, grown by a disc, takes of each slab that it reaches. */
function edgeStretches(a: Point2, b: Point2, slabMm: number, growMm: number, firstRow: number, found: Row[]): void {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const length = Math.hypot(dx, dy);
  const from = Math.max(0, Math.floor((Math.min(a[1], b[1]) - growMm) / slabMm - 1e-9) - firstRow);
  const to = Math.min(found.length - 1, Math.floor((Math.max(a[1], b[1]) + growMm) / slabMm + 1e-9) - firstRow);
  // Square to the edge, for its two sides.
  const [nx, ny] = length === 0 ? [0, 0] : [(-dy / length) * growMm, (dx / length) * growMm];
  for (let r = from; r <= to; r++) {
    const [y0, y1] = [(firstRow + r) * slabMm, (firstRow + r + 1) * slabMm];
    let [low, high] = [Infinity, -Infinity];
    for (const side of growMm === 0 ? [0] : [-1, 1]) {
      const [ax, ay, bx, by] = [a[0] + side * nx, a[1] + side * ny, b[0] + side * nx, b[1] + side * ny];
      // The part of this side that lies in the slab.
      let [t0, t1] = [0, 1];
      if (by === ay) {
        if (ay < y0 || ay > y1) continue;
      } else {
        const [u, v] = [(y0 - ay) / (by - ay), (y1 - ay) / (by - ay)];
        t0 = Math.max(0, Math.min(u, v));
        t1 = Math.min(1, Math.max(u, v));
        if (t0 > t1) continue;
      }
      const [x0, x1] = [ax + t0 * (bx - ax), ax + t1 * (bx - ax)];
      low = Math.min(low, x0, x1);
      high = Math.max(high, x0, x1);
    }
    if (growMm > 0)
      for (const [cx, cy] of [a, b]) {
        const off = Math.max(0, y0 - cy, cy - y1);
        if (off >= growMm) continue;
        const half = Math.sqrt(growMm * growMm - off * off);
        low = Math.min(low, cx - half);
        high = Math.max(high, cx + half);
      }
    if (low <= high) found[r]!.push([low, high]);
  }
}

function packed(found: readonly Row[], firstRow: number): SlabShape {
  const starts = new Int32Array(found.length + 1);
  const spans: number[] = [];
  for (const [r, row] of found.entries()) {
    row.sort((one, two) => one[0] - two[0]);
    let [begin, end] = [NaN, NaN];
    for (const [a, b] of row) {
      if (a <= end) {
        end = Math.max(end, b);
        continue;
      }
      if (begin <= end) spans.push(begin, end);
      [begin, end] = [a, b];
    }
    if (begin <= end) spans.push(begin, end);
    starts[r + 1] = spans.length / 2;
  }
  return { firstRow, rows: found.length, starts, spans: Float64Array.from(spans) };
}
