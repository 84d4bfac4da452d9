import { distanceToBounds } from './bounds.ts';
import type { Solid } from './solid.ts';

/** Something to keep off: a solid, and how far [mm]. */
export interface SlackItem {
  readonly solid: Solid;
  readonly keepOffMm: number;
}

/** Cells along a side of a brick. */
export const BRICK_CELLS = 8;
const SIDE = BRICK_CELLS + 1;
const ROW = SIDE;
const LAYER = SIDE * SIDE;
/** Values of a brick: the corners of its cells, those on its faces also in its neighbours. */
export const BRICK_VALUES = SIDE * SIDE * SIDE;
/** One bit a cell: read this cell off the solids themselves. */
export const FLAG_WORDS = (BRICK_CELLS * BRICK_CELLS * BRICK_CELLS) / 32;

/** The first grid of a brick, in cells. */
const COARSEST = 4;
/** The eight corners of a cell, from its first. */
const cornerOffset = [0, 1, ROW, ROW + 1, LAYER, LAYER + 1, LAYER + ROW, LAYER + ROW + 1];

const FAR = 1;
const DENSE = 2;

/**
 * How much too much a reading may be where there is slack; where there is none, a share of what is lacking more. Between corners h
 * apart a distance at least r from what it measures to is read too large by at most h^2/(4 r): along each axis a chord lies above the
 * curve by h^2/8 times its second derivative, and those of |p - q| add up to 2/r. Cells that cannot keep this are halved, and the
 * smallest are read off the solids themselves.
 */
const MOST_TOO_MUCH_MM = 0.9;
const SHARE_OF_LACK = 0.1;
/** Where a coarse cell's gradient, squared, is below this, a ridge runs through: its brick is worked out finer. */
const RIDGE = 0.94;

interface Filling {
  readonly cellMm: number;
  readonly reachMm: number;
  readonly items: readonly SlackItem[];
  readonly values: Float32Array;
  readonly flags: Uint32Array;
}

/** Fills bricks one at a time; what a brick holds depends on nothing but the options and its place. */
export function makeBrickFiller({ cellMm, reachMm, items, values, flags }: Filling) {
  const half = (cellMm * BRICK_CELLS) / 2;
  const halfDiagonal = half * Math.sqrt(3);
  /** How far the middle of a cell is from its corners, and twice that. */
  const fromMiddle = (cellMm * Math.sqrt(3)) / 2;
  const spreadOf = cellMm * Math.sqrt(3);
  const slackAtMiddle = new Float64Array(items.length);
  const relevant = new Int32Array(items.length);
  const measured = new Uint8Array(BRICK_VALUES);
  const nearness = new Float64Array(BRICK_VALUES);
  const distances = new Float64Array(items.length);
  /** The items that can be the nearest anywhere in the brick go to the front of `relevant`; returns how many, or -1 for none in reach. */
  const findRelevant = (x: number, y: number, z: number): number => {
    let least = Infinity;
    let n = 0;
    for (let i = 0; i < items.length; i++) {
      const { solid, keepOffMm } = items[i]!;
      const limit = Math.min(reachMm, least) + halfDiagonal * (least < Infinity ? 2 : 1) + keepOffMm;
      if (distanceToBounds(solid.bounds, x, y, z) >= limit) continue;
      const slack = solid.distanceWithin(x, y, z, limit) - keepOffMm;
      if (slack >= limit - keepOffMm) continue;
      slackAtMiddle[i] = slack;
      relevant[n++] = i;
      if (slack < least) least = slack;
    }
    let kept = 0;
    for (let k = 0; k < n; k++) {
      const i = relevant[k]!;
      if (slackAtMiddle[i]! < Math.min(reachMm + halfDiagonal, least + 2 * halfDiagonal)) relevant[kept++] = i;
    }
    // The likeliest first: its slack bounds the search for the others.
    for (let k = 1; k < kept; k++) {
      const i = relevant[k]!;
      let at = k;
      for (; at > 0 && slackAtMiddle[relevant[at - 1]!]! > slackAtMiddle[i]!; at--) relevant[at] = relevant[at - 1]!;
      relevant[at] = i;
    }
    return kept;
  };

  /** Slack at a corner, and in `nearness` how near the things are that may set it in the cells about. */
  const measure = (at: number, x: number, y: number, z: number, n: number, spreadMm: number): number => {
    let best = reachMm;
    for (let k = 0; k < n; k++) {
      const { solid, keepOffMm } = items[relevant[k]!]!;
      const d = solid.distanceWithin(x, y, z, best + spreadMm + keepOffMm);
      distances[k] = d;
      if (d - keepOffMm < best) best = d - keepOffMm;
    }
    let near = Infinity;
    for (let k = 0; k < n; k++) {
      const d = distances[k]!;
      if (d - items[relevant[k]!]!.keepOffMm < best + spreadMm) near = Math.min(near, Math.abs(d));
    }
    nearness[at] = near;
    return best;
  };

  /** Whether the cell of `step` fine cells at `o` keeps the bound on what is read too much. */
  const keepsBound = (base: number, o: number, step: number): boolean => {
    let near = Infinity;
    let most = -Infinity;
    for (let c = 0; c < 8; c++) {
      const at = o + step * cornerOffset[c]!;
      if (nearness[at]! < near) near = nearness[at]!;
      if (values[base + at]! > most) most = values[base + at]!;
    }
    const side = step * cellMm;
    const lack = Math.max(0, -most - fromMiddle * step);
    return near - fromMiddle * step >= (side * side) / (4 * (MOST_TOO_MUCH_MM + SHARE_OF_LACK * lack));
  };
  /** Whether it needs halving: it does not keep the bound, or a ridge runs through it where there is slack. */
  const isCoarse = (base: number, o: number, step: number): boolean =>
    !keepsBound(base, o, step) || hasRidge(values, base + o, step, 1 / (4 * step * cellMm), reachMm);
  const flagCells = (brick: number): void => {
    for (let cell = 0; cell < BRICK_CELLS ** 3; cell++) {
      const o = (cell & 7) + ((cell >> 3) & 7) * ROW + (cell >> 6) * LAYER;
      let fine = true;
      for (let c = 0; c < 8; c++) if (measured[o + cornerOffset[c]!] === 0) fine = false;
      // A cell with a corner that was not measured lies in a larger one that keeps the bound.
      const bit = fine && !keepsBound(brick * BRICK_VALUES, o, 1) ? 1 : 0;
      if ((cell & 31) === 0) flags[brick * FLAG_WORDS + (cell >> 5)] = 0;
      flags[brick * FLAG_WORDS + (cell >> 5)]! |= bit << (cell & 31);
    }
  };

  const fill = (brick: number, x: number, y: number, z: number): number => {
    const n = findRelevant(x + half, y + half, z + half);
    if (n === 0) return FAR;
    const base = brick * BRICK_VALUES;
    measured.fill(0);
    /** Measures the 27 (or 8) corners at `step` of the cell at i, j, k with sides of `size`. */
    const measureCell = (i0: number, j0: number, k0: number, size: number, step: number): void => {
      for (let k = k0; k <= k0 + size; k += step) {
        for (let j = j0; j <= j0 + size; j += step) {
          for (let i = i0; i <= i0 + size; i += step) {
            const at = k * LAYER + j * ROW + i;
            if (measured[at] !== 0) continue;
            measured[at] = 1;
            values[base + at] = measure(at, x + i * cellMm, y + j * cellMm, z + k * cellMm, n, spreadOf * step);
          }
        }
      }
    };
    measureCell(0, 0, 0, BRICK_CELLS, COARSEST);
    refine(COARSEST, (i, j, k, step) => {
      if (!isCoarse(base, k * LAYER + j * ROW + i, step)) return false;
      measureCell(i, j, k, step, step / 2);
      return true;
    });
    for (let step = COARSEST; step > 1; step /= 2) fillBetween(values, measured, base, step);
    flagCells(brick);
    return DENSE;
  };
  return Object.assign(fill, { mostTooMuchMm: MOST_TOO_MUCH_MM });
}

/** Asks for each cell of the coarsest grid whether to split it, and, where it says so, for its eight halves, down to two fine cells. */
function refine(step: number, split: (i: number, j: number, k: number, step: number) => boolean): void {
  const visit = (i0: number, j0: number, k0: number, size: number, cell: number): void => {
    for (let k = k0; k < k0 + size; k += cell) {
      for (let j = j0; j < j0 + size; j += cell) {
        for (let i = i0; i < i0 + size; i += cell) {
          if (split(i, j, k, cell) && cell > 2) visit(i, j, k, cell, cell / 2);
        }
      }
    }
  };
  visit(0, 0, 0, BRICK_CELLS, step);
}

/** Whether the cell at `o`, where it has slack and that is within reach, has a gradient too short for open space. */
function hasRidge(values: Float32Array, o: number, step: number, per: number, reachMm: number): boolean {
  const [i1, j1, k1] = [step, step * ROW, step * LAYER];
  const a = values[o]!;
  const b = values[o + i1]!;
  const c = values[o + j1]!;
  const d = values[o + i1 + j1]!;
  const e = values[o + k1]!;
  const f = values[o + i1 + k1]!;
  const g = values[o + j1 + k1]!;
  const h = values[o + i1 + j1 + k1]!;
  const most = Math.max(a, b, c, d, e, f, g, h);
  if (most >= reachMm || most < 0) return false;
  const gx = (b + d + f + h - a - c - e - g) * per;
  const gy = (c + d + g + h - a - b - e - f) * per;
  const gz = (e + f + g + h - a - b - c - d) * per;
  return gx * gx + gy * gy + gz * gz < RIDGE;
}

/** Straight lines to what was not measured, halving cells of `step`: along x on coarse rows, along y on fine ones, then along z. */
function fillBetween(values: Float32Array, measured: Uint8Array, base: number, step: number): void {
  const fine = step / 2;
  for (const [stride, stride1, step1, stride2, step2] of [
    [1, ROW, step, LAYER, step],
    [ROW, 1, fine, LAYER, step],
    [LAYER, 1, fine, ROW, fine],
  ] as const) {
    for (let p = 0; p <= BRICK_CELLS; p += step1) {
      for (let q = 0; q <= BRICK_CELLS; q += step2) {
        for (let i = fine; i < BRICK_CELLS; i += step) {
          const at = p * stride1 + q * stride2 + i * stride;
          if (measured[at] !== 0) continue;
          const o = base + at;
          values[o] = (values[o - fine * stride]! + values[o + fine * stride]!) / 2;
        }
      }
    }
  }
}

/**
 * Trilinear slack and its gradient at (u, v, w) cells into a brick; false where the cell is to be read off the solids.
 *
 * @param perCell - one over the cell size [1/mm]
 */
export function readBrick(
  values: Float32Array,
  flags: Uint32Array,
  brick: number,
  u: number,
  v: number,
  w: number,
  perCell: number,
  out: Float64Array,
): boolean {
  const i = u < 1 ? 0 : u >= BRICK_CELLS ? BRICK_CELLS - 1 : u | 0;
  const j = v < 1 ? 0 : v >= BRICK_CELLS ? BRICK_CELLS - 1 : v | 0;
  const k = w < 1 ? 0 : w >= BRICK_CELLS ? BRICK_CELLS - 1 : w | 0;
  const cell = (k << 6) | (j << 3) | i;
  if ((flags[brick * FLAG_WORDS + (cell >> 5)]! & (1 << (cell & 31))) !== 0) return false;
  const fx = u - i;
  const fy = v - j;
  const fz = w - k;
  const o = brick * BRICK_VALUES + k * LAYER + j * ROW + i;
  const a = values[o]!;
  const b = values[o + 1]! - a;
  const c = values[o + ROW]!;
  const d = values[o + ROW + 1]! - c;
  const e = values[o + LAYER]!;
  const f = values[o + LAYER + 1]! - e;
  const g = values[o + LAYER + ROW]!;
  const h = values[o + LAYER + ROW + 1]! - g;
  const low0 = a + fx * b;
  const low1 = c + fx * d;
  const high0 = e + fx * f;
  const high1 = g + fx * h;
  const low = low0 + fy * (low1 - low0);
  const high = high0 + fy * (high1 - high0);
  out[0] = low + fz * (high - low);
  const slopeLow = b + fy * (d - b);
  out[1] = (slopeLow + fz * (f + fy * (h - f) - slopeLow)) * perCell;
  out[2] = (low1 - low0 + fz * (high1 - high0 - low1 + low0)) * perCell;
  out[3] = (high - low) * perCell;
  return true;
}
