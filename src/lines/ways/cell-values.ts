/** Cells along a page's edge, as a power of two. */
const BITS = 4;
const EDGE = 1 << BITS;
const MASK = EDGE - 1;
/** Pages are numbered from here, so that cells some way below 0 have whole numbers above it. */
const ORIGIN = 1024;
const SPAN = 2 * ORIGIN;

/** A number for each cell of an endless grid, worked out when it is first asked for: at (i, j, k). */
export class CellValues {
  private readonly pages = new Map<number, Float64Array>();
  private readonly work: (i: number, j: number, k: number) => number;
  private lastKey = -1;
  private last: Float64Array = new Float64Array(0);

  constructor(work: (i: number, j: number, k: number) => number) {
    this.work = work;
  }

  at(i: number, j: number, k: number): number {
    const key = (i >> BITS) + ORIGIN + SPAN * ((j >> BITS) + ORIGIN + SPAN * ((k >> BITS) + ORIGIN));
    if (key !== this.lastKey) {
      this.last = this.page(key);
      this.lastKey = key;
    }
    const page = this.last;
    const n = (i & MASK) | ((j & MASK) << BITS) | ((k & MASK) << (2 * BITS));
    const kept = page[n]!;
    if (kept === kept) return kept;
    return (page[n] = this.work(i, j, k));
  }

  /** Takes over what another has worked out, for the cells that `holds` says are still right. */
  takeOver(from: CellValues, holds: (i: number, j: number, k: number) => boolean): void {
    for (const [key, page] of from.pages) {
      const [pi, pj, pk] = [key % SPAN, Math.floor(key / SPAN) % SPAN, Math.floor(key / SPAN / SPAN)];
      const [i0, j0, k0] = [(pi - ORIGIN) << BITS, (pj - ORIGIN) << BITS, (pk - ORIGIN) << BITS];
      const copy = page.map((value, n) =>
        value === value && holds(i0 + (n & MASK), j0 + ((n >> BITS) & MASK), k0 + (n >> (2 * BITS)))
          ? value
          : Number.NaN,
      );
      this.pages.set(key, copy);
    }
    this.lastKey = -1;
  }

  private page(key: number): Float64Array {
    let page = this.pages.get(key);
    if (page === undefined) {
      page = new Float64Array(EDGE ** 3).fill(Number.NaN);
      this.pages.set(key, page);
    }
    return page;
  }
}
