import { type Bounds, distanceToBounds } from '#geometry';
import type { Thing } from './things.ts';

/** Side of a cell [mm]: half a hand, so that a gap for one is never missed by more than that. */
export const HAND_CELL_MM = 25;

/** How much room there is about the middle of a cell: for no hand, a flat hand, an arm, head and shoulders. */
export const ROOM = { none: 0, flat: 1, arm: 2, shoulders: 3 } as const;

/** Cells of the space about the car, x fastest, then y, then z. */
export interface HandCells {
  readonly min: readonly [number, number, number];
  readonly counts: readonly [nx: number, ny: number, nz: number];
  readonly room: Uint8Array;
  /** The thing that is nearest to a cell without room for an arm, by its place in `things` and one more; 0: none. */
  readonly nearest: Uint16Array;
  readonly things: readonly Thing[];
}

/** Cells along a side of the first blocks looked at. */
const BLOCK = 16;

/**
 * The room about every cell, off the solids themselves: blocks of cells that one look shows to be all of one kind are done at once.
 *
 * @param limitsMm - clear of everything by these there is room for a flat hand, an arm, head and shoulders [mm], rising
 */
export function handCells(
  things: readonly Thing[],
  bounds: Bounds,
  limitsMm: readonly [flat: number, arm: number, shoulders: number],
): HandCells {
  const { min, max } = bounds;
  const counts = [0, 1, 2].map((i) => Math.max(3, Math.ceil((max[i]! - min[i]!) / HAND_CELL_MM))) as [
    number,
    number,
    number,
  ];
  const [nx, ny, nz] = counts;
  const room = new Uint8Array(nx * ny * nz);
  const nearest = new Uint16Array(nx * ny * nz);
  const most = limitsMm[2];
  const kindOf = (d: number): number => (d < limitsMm[0] ? 0 : d < limitsMm[1] ? 1 : d < most ? 2 : 3);
  const mark = (i: number, j: number, k: number, size: number, among: readonly number[]): void => {
    if (i >= nx || j >= ny || k >= nz) return;
    const x = min[0] + (i + size / 2) * HAND_CELL_MM;
    const y = min[1] + (j + size / 2) * HAND_CELL_MM;
    const z = min[2] + (k + size / 2) * HAND_CELL_MM;
    const spread = (HAND_CELL_MM * (size - 1) * Math.sqrt(3)) / 2;
    let best = most + spread;
    let found = -1;
    const near: number[] = [];
    for (const n of among) {
      const thing = things[n]!;
      if (distanceToBounds(thing.bounds, x, y, z) >= most + spread) continue;
      near.push(n);
      const d = thing.distanceWithin(x, y, z, best);
      if (d < best) [best, found] = [d, n];
    }
    const low = kindOf(best - spread);
    if (size === 1 || low === kindOf(best + spread)) {
      fill(i, j, k, size, low, low < ROOM.arm ? found + 1 : 0);
      return;
    }
    const half = size / 2;
    for (let part = 0; part < 8; part++)
      mark(i + (part & 1) * half, j + ((part >> 1) & 1) * half, k + (part >> 2) * half, half, near);
  };
  const fill = (i0: number, j0: number, k0: number, size: number, kind: number, thing: number): void => {
    const end = Math.min(nx, i0 + size);
    for (let k = k0; k < Math.min(nz, k0 + size); k++)
      for (let j = j0; j < Math.min(ny, j0 + size); j++) {
        const row = (k * ny + j) * nx;
        room.fill(kind, row + i0, row + end);
        nearest.fill(thing, row + i0, row + end);
      }
  };
  const all = things.map((_, n) => n);
  for (let k = 0; k < nz; k += BLOCK)
    for (let j = 0; j < ny; j += BLOCK) for (let i = 0; i < nx; i += BLOCK) mark(i, j, k, BLOCK, all);
  return { min, counts, room, nearest, things };
}

/** Offsets of half the neighbours of a cell: with their opposites, all 26. */
const HALF: readonly (readonly [number, number, number])[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [1, 1, 0],
  [1, -1, 0],
  [1, 0, 1],
  [1, 0, -1],
  [0, 1, 1],
  [0, 1, -1],
  [1, 1, 1],
  [1, 1, -1],
  [1, -1, 1],
  [1, -1, -1],
];

/**
 * Cells where a flat hand fits, laid some way: as thin as it is at the middle and a cell to either side, which with its own roundness
 * is as wide as it is. 1 where it does.
 */
export function flatHandCells({ counts: [nx, ny, nz], room }: HandCells): Uint8Array {
  const fits = new Uint8Array(room.length);
  const steps = HALF.map(([x, y, z]) => x + nx * (y + ny * z));
  for (let k = 1; k < nz - 1; k++)
    for (let j = 1; j < ny - 1; j++)
      for (let i = 1; i < nx - 1; i++) {
        const cell = i + nx * (j + ny * k);
        if (room[cell]! === ROOM.none) continue;
        if (room[cell]! >= ROOM.arm) {
          fits[cell] = 1;
          continue;
        }
        for (let n = 0; n < steps.length; n++)
          if (room[cell + steps[n]!]! > ROOM.none && room[cell - steps[n]!]! > ROOM.none) {
            fits[cell] = 1;
            break;
          }
      }
  return fits;
}
