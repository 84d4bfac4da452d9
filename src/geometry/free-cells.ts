import type { Bounds } from './bounds.ts';
import { GeometryError } from './geometry-error.ts';
import type { GridSlackField } from './slack-field.ts';

/** Which cells of a coarse grid have room: one byte a cell, x fastest, then y, then z. */
export interface FreeCells {
  readonly min: Bounds['min'];
  readonly cellMm: number;
  readonly counts: readonly [number, number, number];
  /** 2: room at the middle. 1: none there, but perhaps elsewhere in the cell. 0: no room anywhere in it. */
  readonly room: Uint8Array;
}

/**
 * Cells for a search through the bay. A cell is free (2) where the slack at its middle is at least `needMm`; it may be free
 * (1 or 2) where that and half its diagonal is: no point of a cell marked 0 has the slack, so that what cannot be reached
 * through cells marked 1 and 2 cannot be reached at all.
 *
 * Off the solids themselves, not off the field's grid: blocks of cells that one look shows to be wholly free or wholly not are done at once.
 *
 * @param field - its bounds and reach; `needMm` must be below the reach
 * @throws GeometryError for cells that are no length, or a need that the field cannot tell
 */
export function freeCells(field: GridSlackField, needMm: number, cellMm: number): FreeCells {
  if (!(cellMm > 0 && Number.isFinite(cellMm))) throw new GeometryError('cell', cellMm, 'a length above 0 mm');
  if (!(needMm <= field.reachMm)) throw new GeometryError('needMm', needMm, `at most the reach, ${field.reachMm} mm`);
  const { min, max } = field.bounds;
  const counts = [0, 1, 2].map((i) => Math.max(1, Math.ceil((max[i]! - min[i]!) / cellMm - 1e-9))) as [
    number,
    number,
    number,
  ];
  const [nx, ny, nz] = counts;
  const room = new Uint8Array(nx * ny * nz);
  const halfDiagonal = (cellMm * Math.sqrt(3)) / 2;
  /** Marks the block of `size` cells a side from i, j, k: at once if its middle tells, else by its eight parts. */
  const mark = (i: number, j: number, k: number, size: number): void => {
    if (i >= nx || j >= ny || k >= nz) return;
    const middle = (n: number, axis: 0 | 1 | 2): number => min[axis] + (n + size / 2) * cellMm;
    const slack = field.exactSlack(middle(i, 0), middle(j, 1), middle(k, 2));
    const spread = halfDiagonal * (size - 1);
    const all = slack - spread >= needMm ? 2 : slack + spread + halfDiagonal < needMm ? 0 : -1;
    if (size === 1 || all >= 0) {
      const value = size > 1 ? all : slack >= needMm ? 2 : slack + halfDiagonal >= needMm ? 1 : 0;
      fillBlock(room, counts, [i, j, k], size, value);
      return;
    }
    const half = size / 2;
    for (let part = 0; part < 8; part++) {
      mark(i + (part & 1) * half, j + ((part >> 1) & 1) * half, k + (part >> 2) * half, half);
    }
  };
  for (let k = 0; k < nz; k += BLOCK)
    for (let j = 0; j < ny; j += BLOCK) for (let i = 0; i < nx; i += BLOCK) mark(i, j, k, BLOCK);
  return { min, cellMm, counts, room };
}

/** Cells along a side of the first blocks looked at. */
const BLOCK = 4;

function fillBlock(
  room: Uint8Array,
  [nx, ny, nz]: readonly [number, number, number],
  [i0, j0, k0]: readonly [number, number, number],
  size: number,
  value: number,
): void {
  for (let k = k0; k < Math.min(nz, k0 + size); k++) {
    for (let j = j0; j < Math.min(ny, j0 + size); j++) {
      const row = (k * ny + j) * nx;
      room.fill(value, row + i0, row + Math.min(nx, i0 + size));
    }
  }
}
