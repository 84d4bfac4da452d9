import type { SlabShape } from './slab-shape.kernel.ts';

/** Numbers of row checks done, the measure of work: the same on every machine. */
export interface Work {
  checks: number;
}

/** Stretches may touch: a rounding error is no overlap [mm]. */
const TOUCH_MM = 1e-7;

/** Stretches of one shape: a slab of a millimetre over 2 m with four stretches in each. */
const MOST_STRETCHES = 8192;

/** One sheet, in slabs: where along each row something lies. */
export class Board {
  readonly rows: number;
  readonly lengthMm: number;
  private readonly most: number;
  private readonly counts: Int32Array;
  private readonly spans: Float64Array;
  private readonly pointers: Int32Array;
  private readonly work: Work;

  /**
   * @param rows - slabs over its width
   * @param lengthMm - how long it is [mm]
   * @param most - how many stretches one row may have to hold
   */
  constructor(rows: number, lengthMm: number, most: number, work: Work) {
    this.rows = rows;
    this.lengthMm = lengthMm;
    this.most = most;
    this.counts = new Int32Array(rows);
    this.spans = new Float64Array(rows * most * 2);
    this.pointers = new Int32Array(MOST_STRETCHES);
    this.work = work;
  }

  clear(): void {
    this.counts.fill(0);
  }

  /**
   * The least x at which the shape, its foot on row `row`, lies clear of all that is there; Infinity where it is more than
   * `mostX`. Each stretch's pointer only goes forward, as x does.
   */
  leastX(shape: SlabShape, row: number, mostX: number): number {
    const { counts, spans, pointers, most } = this;
    const { starts, spans: own, rows } = shape;
    const base = row + shape.firstRow;
    const count = starts[rows]!;
    for (let i = 0; i < count; i++) pointers[i] = 0;
    let x = 0;
    // Round and round the rows until every one has let the same x pass.
    for (let r = 0, clean = 0; clean < rows; r = r === rows - 1 ? 0 : r + 1) {
      const at = base + r;
      const before = x;
      const held = counts[at]!;
      const offset = at * most * 2;
      for (let i = starts[r]!; i < starts[r + 1]!; i++) {
        const begin = own[2 * i]!;
        const end = own[2 * i + 1]!;
        let p = pointers[i]!;
        while (p < held) {
          const there = spans[offset + 2 * p + 1]!;
          if (there <= x + begin + TOUCH_MM) p++;
          else if (spans[offset + 2 * p]! < x + end - TOUCH_MM) {
            x = there - begin;
            p++;
          } else break;
        }
        pointers[i] = p;
      }
      this.work.checks++;
      if (x > mostX) return Infinity;
      clean = x > before ? 0 : clean + 1;
    }
    return x;
  }

  /** Takes the place of a shape, its foot on `row` and its own x = 0 at `x`. */
  take(shape: SlabShape, row: number, x: number): void {
    const { starts, spans: own } = shape;
    for (let r = 0; r < shape.rows; r++) {
      const at = row + shape.firstRow + r;
      if (at < 0 || at >= this.rows) continue;
      for (let i = starts[r]!; i < starts[r + 1]!; i++) this.insert(at, x + own[2 * i]!, x + own[2 * i + 1]!);
    }
  }

  /** Joined with what it meets, so that stretches stay apart and in order. */
  private insert(row: number, begin: number, end: number): void {
    const { spans } = this;
    const offset = row * this.most * 2;
    const count = this.counts[row]!;
    let first = 0;
    while (first < count && spans[offset + 2 * first + 1]! < begin) first++;
    let next = first;
    let [low, high] = [begin, end];
    while (next < count && spans[offset + 2 * next]! <= end) {
      low = Math.min(low, spans[offset + 2 * next]!);
      high = Math.max(high, spans[offset + 2 * next + 1]!);
      next++;
    }
    const shift = 1 - (next - first);
    if (shift !== 0) spans.copyWithin(offset + 2 * (next + shift), offset + 2 * next, offset + 2 * count);
    spans[offset + 2 * first] = low;
    spans[offset + 2 * first + 1] = high;
    this.counts[row] = count + shift;
  }
}
