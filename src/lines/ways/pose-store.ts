/** Poses worked out, each from another: place, heading, cost so far, the pose it came from and the end it set out from. */
export class PoseStore {
  /** x, y, z, heading, cost. */
  private numbers = new Float64Array(NUMBERS * FIRST_CAPACITY);
  private links = new Int32Array(2 * FIRST_CAPACITY);
  count = 0;

  add(numbers: Float64Array, cost: number, from: number, start: number): number {
    const n = this.count++;
    if (NUMBERS * this.count > this.numbers.length) this.grow();
    for (let k = 0; k < 6; k++) this.numbers[NUMBERS * n + k] = numbers[k]!;
    this.numbers[NUMBERS * n + 6] = cost;
    this.links[2 * n] = from;
    this.links[2 * n + 1] = start;
    return n;
  }

  /** out = place and heading. */
  read(n: number, out: Float64Array): void {
    for (let k = 0; k < 6; k++) out[k] = this.numbers[NUMBERS * n + k]!;
  }

  costOf(n: number): number {
    return this.numbers[NUMBERS * n + 6]!;
  }

  /** The pose that this one came from; -1 for a start. */
  from(n: number): number {
    return this.links[2 * n]!;
  }

  startOf(n: number): number {
    return this.links[2 * n + 1]!;
  }

  private grow(): void {
    const [numbers, links] = [this.numbers, this.links];
    this.numbers = new Float64Array(2 * numbers.length);
    this.numbers.set(numbers);
    this.links = new Int32Array(2 * links.length);
    this.links.set(links);
  }
}

const NUMBERS = 7;
const FIRST_CAPACITY = 4096;

/** The least cost by which each cell of poses was come to, and which cells are done with: by key, whole numbers from 0 up to 2^53. */
export class CellCosts {
  private keys = new Float64Array(FIRST_CELLS).fill(-1);
  private costs = new Float64Array(FIRST_CELLS);
  private closed = new Uint8Array(FIRST_CELLS);
  private used = 0;

  /** Infinity where nothing came yet. */
  costOf(key: number): number {
    const at = this.slotOf(key);
    return this.keys[at] === key ? this.costs[at]! : Infinity;
  }

  set(key: number, cost: number): void {
    let at = this.slotOf(key);
    if (this.keys[at] !== key) {
      if (2 * ++this.used > this.keys.length) {
        this.grow();
        at = this.slotOf(key);
      }
      this.keys[at] = key;
    }
    this.costs[at] = cost;
  }

  /** Done with a cell that has a cost; false where it was already. */
  close(key: number): boolean {
    const at = this.slotOf(key);
    if (this.closed[at] === 1) return false;
    this.closed[at] = 1;
    return true;
  }

  /** Where a key is, or would be put: the next free place from its hash on. */
  private slotOf(key: number): number {
    const high = Math.floor(key / TWO_31);
    const hash = Math.imul((key - high * TWO_31) ^ Math.imul(high, 0x85ebca6b), 0x9e3779b1);
    const last = this.keys.length - 1;
    let at = (hash ^ (hash >>> 15)) & last;
    while (this.keys[at] !== key && this.keys[at] !== -1) at = (at + 1) & last;
    return at;
  }

  private grow(): void {
    const { keys, costs, closed } = this;
    this.keys = new Float64Array(2 * keys.length).fill(-1);
    this.costs = new Float64Array(2 * keys.length);
    this.closed = new Uint8Array(2 * keys.length);
    for (let n = 0; n < keys.length; n++) {
      if (keys[n] === -1) continue;
      const at = this.slotOf(keys[n]!);
      this.keys[at] = keys[n]!;
      this.costs[at] = costs[n]!;
      this.closed[at] = closed[n]!;
    }
  }
}

/** A power of two. */
const FIRST_CELLS = 4096;
const TWO_31 = 2 ** 31;

/** A queue that hands out the smallest key first, and of equals the one pushed first. */
export class LeastFirst {
  private readonly keys: number[] = [];
  private readonly order: number[] = [];
  private readonly values: number[] = [];
  private pushed = 0;

  push(key: number, value: number): void {
    const order = this.pushed++;
    let i = this.keys.length;
    while (i > 0) {
      const up = (i - 1) >> 1;
      if (!this.before(key, order, up)) break;
      this.move(up, i);
      i = up;
    }
    this.put(i, key, order, value);
  }

  /** The value with the smallest key; null where nothing is left. */
  pop(): number | null {
    const top = this.values[0];
    if (top === undefined) return null;
    const [key, order, value] = [this.keys.pop()!, this.order.pop()!, this.values.pop()!];
    const n = this.keys.length;
    if (n === 0) return top;
    let i = 0;
    for (;;) {
      let down = 2 * i + 1;
      if (down >= n) break;
      if (down + 1 < n && this.before(this.keys[down + 1]!, this.order[down + 1]!, down)) down++;
      if (this.before(key, order, down)) break;
      this.move(down, i);
      i = down;
    }
    this.put(i, key, order, value);
    return top;
  }

  private before(key: number, order: number, i: number): boolean {
    return key < this.keys[i]! || (key === this.keys[i]! && order < this.order[i]!);
  }

  private move(from: number, to: number): void {
    this.put(to, this.keys[from]!, this.order[from]!, this.values[from]!);
  }

  private put(i: number, key: number, order: number, value: number): void {
    this.keys[i] = key;
    this.order[i] = order;
    this.values[i] = value;
  }
}

const HALF = 1 << 12;

/** A number for the cube of this size that holds a place, up to 4096 cubes either way. */
export const placeKey = (x: number, y: number, z: number, size: number): number =>
  Math.floor(x / size) + HALF + 2 * HALF * (Math.floor(y / size) + HALF + 2 * HALF * (Math.floor(z / size) + HALF));

/** Bins of heading. */
export const HEADING_BINS = 96;

/** The bin of a direction: faces of a cube, 4 x 4 on each. */
export function headingBin(x: number, y: number, z: number): number {
  const ax = Math.abs(x);
  const ay = Math.abs(y);
  const az = Math.abs(z);
  if (ax >= ay && ax >= az) return 16 * (x < 0 ? 1 : 0) + 4 * quarter(y / ax) + quarter(z / ax);
  if (ay >= az) return 16 * (y < 0 ? 3 : 2) + 4 * quarter(z / ay) + quarter(x / ay);
  return 16 * (z < 0 ? 5 : 4) + 4 * quarter(x / az) + quarter(y / az);
}

const quarter = (share: number): number => Math.min(3, Math.floor((share + 1) * 2));
