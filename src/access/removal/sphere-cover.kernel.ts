import type { Solid } from '#geometry';

/** Numbers a ball takes in a cover: x, y, z, and its radius [mm]. */
export const BALL = 4;
/**
 * Cells in which the surface is looked for, as a share of what a ball may stand out: just under a third, so that the ball grown from a
 * cell's place of the surface always holds that cell.
 */
const CELL_SHARE = 0.33;
/** Cells that lie side by side are looked at so many at once. */
const BLOCK = 32;
/** So many blocks side by side are passed over at once where none is near. */
const ROW = 16;
/** Halvings when the deepest ball that touches a place from within is looked for. */
const HALVINGS = 14;

type Covered = Pick<Solid, 'bounds' | 'distance' | 'closest'> & {
  /** Distance without its sign, where that is cheaper. */
  readonly offSurface?: Solid['distance'];
};

/**
 * Balls that together hold the whole surface of a solid and stand out of it by at most `overMm`. The surface is looked for in small
 * cells; each that is not yet held gets the largest ball that touches its place of the surface from within.
 *
 * @param solid - what is covered [mm]
 * @param overMm - how far a ball may stand out [mm]
 * @returns x, y, z, radius of each ball [mm]
 */
export function sphereCover(solid: Covered, overMm: number): Float64Array {
  const near = CELL_SHARE * overMm;
  const cells = surfaceCells(solid, near / Math.sqrt(3));
  // Every place of the surface is this near to the middle of one of those cells.
  const spare = overMm - near;
  const blocks = new Blocks(cells);
  const balls: number[] = [];
  for (let i = 0; i < cells.length / 3; i++) {
    if (blocks.isHeld[i] === 1) continue;
    const [x, y, z] = solid.closest(cells[3 * i]!, cells[3 * i + 1]!, cells[3 * i + 2]!).point;
    const ball = deepest(solid, x, y, z, spare);
    balls.push(ball[0], ball[1], ball[2], ball[3] + overMm);
    blocks.holdOne(i);
    blocks.hold(ball[0], ball[1], ball[2], ball[3] + spare, i);
  }
  return Float64Array.from(balls);
}

/** Cells in blocks of neighbours, and blocks in rows, so that a ball need not be held against all of them. */
class Blocks {
  readonly isHeld: Uint8Array;
  private readonly cells: Float64Array;
  private readonly blocks: Held;
  private readonly rows: Held;

  constructor(cells: Float64Array) {
    this.cells = cells;
    this.isHeld = new Uint8Array(cells.length / 3);
    this.blocks = heldIn(cells, BLOCK);
    this.rows = heldIn(cells, BLOCK * ROW);
  }

  /** One cell by itself. */
  holdOne(i: number): void {
    if (this.isHeld[i] === 1) return;
    this.isHeld[i] = 1;
    this.blocks.left[Math.floor(i / BLOCK)]!--;
    this.rows.left[Math.floor(i / (BLOCK * ROW))]!--;
  }

  /** Marks the cells from one on whose middles lie within a ball. */
  hold(x: number, y: number, z: number, radius: number, from: number): void {
    const { blocks, rows } = this;
    const first = Math.floor(from / BLOCK);
    for (let row = Math.floor(first / ROW); row < rows.left.length; row++) {
      if (isApart(rows, row, x, y, z, radius)) continue;
      const to = Math.min((row + 1) * ROW, blocks.left.length);
      for (let block = Math.max(first, row * ROW); block < to; block++)
        if (!isApart(blocks, block, x, y, z, radius)) this.holdIn(block, x, y, z, radius);
    }
  }

  private holdIn(block: number, x: number, y: number, z: number, radius: number): void {
    const { cells, isHeld } = this;
    const to = Math.min((block + 1) * BLOCK, isHeld.length);
    let held = 0;
    for (let i = block * BLOCK; i < to; i++) {
      if (isHeld[i] === 1) continue;
      const dx = cells[3 * i]! - x;
      const dy = cells[3 * i + 1]! - y;
      const dz = cells[3 * i + 2]! - z;
      if (dx * dx + dy * dy + dz * dz > radius * radius) continue;
      isHeld[i] = 1;
      held++;
    }
    this.blocks.left[block]! -= held;
    this.rows.left[Math.floor(block / ROW)]! -= held;
  }
}

/** Cells by so many that follow each other. */
interface Held {
  /** Of each lot: a ball about its cells. */
  readonly about: Float64Array;
  /** Of each lot: how many of its cells no ball holds yet. */
  readonly left: Int32Array;
}

/** Nothing of a lot that is not held yet comes into a ball. */
function isApart({ about, left }: Held, lot: number, x: number, y: number, z: number, radius: number): boolean {
  if (left[lot] === 0) return true;
  const bx = about[lot * BALL]! - x;
  const by = about[lot * BALL + 1]! - y;
  const bz = about[lot * BALL + 2]! - z;
  const reach = radius + about[lot * BALL + 3]!;
  return bx * bx + by * by + bz * bz > reach * reach;
}

function heldIn(cells: Float64Array, size: number): Held {
  const count = cells.length / 3;
  const lots = Math.ceil(count / size);
  const about = new Float64Array(lots * BALL);
  const left = new Int32Array(lots);
  for (let lot = 0; lot < lots; lot++) {
    const to = Math.min((lot + 1) * size, count);
    left[lot] = to - lot * size;
    let reach = 0;
    for (let k = 0; k < 3; k++) {
      let [low, high] = [Infinity, -Infinity];
      for (let i = lot * size; i < to; i++) {
        const c = cells[3 * i + k]!;
        if (c < low) low = c;
        if (c > high) high = c;
      }
      about[lot * BALL + k] = (low + high) / 2;
      reach += ((high - low) / 2) ** 2;
    }
    about[lot * BALL + 3] = Math.sqrt(reach);
  }
  return { about, left };
}

/** The middle of each small cell that the surface passes: cells are halved from one about the whole solid, so that neighbours follow each other. */
function surfaceCells(solid: Covered, half: number): Float64Array {
  const { min, max } = solid.bounds;
  const size = Math.max(max[0] - min[0], max[1] - min[1], max[2] - min[2]) / 2 + 1e-6;
  const levels = Math.max(0, Math.ceil(Math.log2(size / half)));
  const found: number[] = [];
  const off = solid.offSurface ?? ((x: number, y: number, z: number) => Math.abs(solid.distance(x, y, z)));
  const halve = (x: number, y: number, z: number, at: number, level: number): void => {
    if (off(x, y, z) > at * Math.sqrt(3)) return;
    if (level === 0) {
      found.push(x, y, z);
      return;
    }
    const q = at / 2;
    for (let k = 0; k < 8; k++) halve(x + (k & 1 ? q : -q), y + (k & 2 ? q : -q), z + (k & 4 ? q : -q), q, level - 1);
  };
  halve((min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2, half * 2 ** levels, levels);
  return Float64Array.from(found);
}

/** The largest ball within the solid that reaches a place of its surface: centre and radius, the radius 0 on an edge. */
function deepest(solid: Covered, x: number, y: number, z: number, spare: number): [number, number, number, number] {
  const [ux, uy, uz] = inwards(solid, x, y, z);
  let [low, high] = [0, 0];
  // Doubled until the ball no longer reaches back to the place; what it may miss by is spare.
  for (let t = Math.max(1, spare / 2); t < 1e5; t *= 2) {
    if (-solid.distance(x + ux * t, y + uy * t, z + uz * t) < t - spare / 2) {
      high = t;
      break;
    }
    low = t;
  }
  for (let k = 0; k < HALVINGS && high - low > 0.1; k++) {
    const t = (low + high) / 2;
    if (-solid.distance(x + ux * t, y + uy * t, z + uz * t) < t - spare / 2) high = t;
    else low = t;
  }
  const [cx, cy, cz] = [x + ux * low, y + uy * low, z + uz * low];
  return [cx, cy, cz, Math.max(0, -solid.distance(cx, cy, cz))];
}

/** The way down into the solid from a place of its surface, from the slope of its distance. */
function inwards(solid: Covered, x: number, y: number, z: number): [number, number, number] {
  const h = 0.05;
  const gx = solid.distance(x + h, y, z) - solid.distance(x - h, y, z);
  const gy = solid.distance(x, y + h, z) - solid.distance(x, y - h, z);
  const gz = solid.distance(x, y, z + h) - solid.distance(x, y, z - h);
  const length = Math.hypot(gx, gy, gz);
  return length < 1e-9 ? [0, 0, -1] : [-gx / length, -gy / length, -gz / length];
}
