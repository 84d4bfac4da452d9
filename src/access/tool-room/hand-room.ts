import {
  type Bounds,
  type CellGrid,
  cellCentre,
  cellOf,
  corridorCosts,
  corridorFrom,
  distanceToBounds,
  grown,
  isReached,
  joined,
  type Vec,
} from '#geometry';
import { flatHandCells, HAND_CELL_MM, type HandCells, handCells, ROOM } from './hand-cells.kernel.ts';
import type { Thing } from './things.ts';
import type { Hand } from './workshop.ts';

/** Where a hand gets to from outside the car. */
export interface HandRoom {
  readonly cells: HandCells;
  /** A hand comes to this place, or next to it. */
  reaches(at: Vec): boolean;
  /** Someone can have their eyes here. */
  isOpen(at: Vec): boolean;
  /** Middles of the cells from a place that is reached out to where the arm begins. */
  wayOut(at: Vec): readonly Vec[];
  /**
   * What would have to be off for a hand to come to a place: the things along the way that meets fewest of them, null where what
   * never comes off shuts it in.
   */
  shutBy(at: Vec, staysOn: ReadonlySet<string>): readonly string[] | null;
}

/** Room that head and shoulders want all round [mm]; an arm goes on from there. Source: from-memory. */
const SHOULDERS_MM = 150;
/** Open air about the car that is looked at [mm]. */
const ABOUT_MM = 2 * SHOULDERS_MM + 2 * HAND_CELL_MM;

/**
 * Where a hand gets to, among these things. Head and shoulders move about outside; an arm goes in from there, no farther than it is
 * long; a flat hand goes on, no farther than it is long.
 */
export function handRoom(things: readonly Thing[], hand: Hand): HandRoom {
  const bounds = grown(things.map((thing) => thing.bounds).reduce(joined, noBounds(things)), ABOUT_MM);
  const cells = handCells(things, bounds, [hand.thickMm / 2, hand.armMm / 2, SHOULDERS_MM]);
  const [nx, ny, nz] = cells.counts;
  const grid = (passes: (cell: number) => boolean, toll?: Uint8Array): CellGrid => ({
    min: cells.min,
    cellMm: HAND_CELL_MM,
    nx,
    ny,
    nz,
    blocked: Uint8Array.from(cells.room, (_, cell) => (passes(cell) ? 0 : 1)),
    toll: toll ?? new Uint8Array(cells.room.length),
  });
  const { room } = cells;
  const far = (mm: number): number => (10 * mm) / HAND_CELL_MM;
  const open = openCells(cells);
  const isOpenCell = (cell: number): boolean => open[cell] === 1;
  const armGrid = grid((cell) => room[cell]! >= ROOM.arm && !isOpenCell(cell));
  const arm = corridorCosts(armGrid, rimOf(cells, isOpenCell));
  const isArm = (cell: number): boolean => isOpenCell(cell) || arm[cell]! <= far(hand.reachMm);
  const fits = flatHandCells(cells);
  const handGrid = grid((cell) => fits[cell] === 1 && !isArm(cell));
  const reached = corridorCosts(handGrid, rimOf(cells, isArm));
  const isHand = (cell: number): boolean => isArm(cell) || reached[cell]! <= far(hand.longMm);
  const where = (at: Vec): number => cellOf(armGrid, ...at);
  const nextTo = (at: Vec): number | undefined => around(cells, where(at)).find(isHand);
  let tolls: { readonly grid: CellGrid; readonly cost: Int32Array; readonly staysOn: ReadonlySet<string> } | null =
    null;
  return {
    cells,
    reaches: (at) => nextTo(at) !== undefined,
    isOpen: (at) => {
      const cell = where(at);
      return cell < 0 || isOpenCell(cell);
    },
    wayOut: (at) => {
      const cell = nextTo(at);
      if (cell === undefined) return [];
      const last = isArm(cell) ? [cell] : corridorFrom(handGrid, reached, cell);
      const first = last.at(-1) ?? cell;
      const rest = isOpenCell(first) ? [] : corridorFrom(armGrid, arm, first);
      return [...last, ...rest].map((c) => cellCentre(armGrid, c));
    },
    shutBy: (at, staysOn) => {
      if (tolls?.staysOn !== staysOn)
        tolls = { ...tollFlood(cells, grid, fits, staysOn, rimOf(cells, isOpenCell)), staysOn };
      const cell = where(at);
      const start = around(cells, cell).find((c) => isReached(tolls!.cost, c));
      if (start === undefined) return null;
      const along = corridorFrom(tolls.grid, tolls.cost, start);
      const tight = along.filter((c, n) => (n * HAND_CELL_MM > hand.longMm ? room[c]! < ROOM.arm : fits[c] !== 1));
      const ids = tight.flatMap((c) => (cells.nearest[c]! > 0 ? [things[cells.nearest[c]! - 1]!.id] : []));
      return clearedAlong(
        tight.map((c) => cellCentre(armGrid, c)),
        things,
        new Set(ids.filter((id) => !staysOn.has(id))),
        staysOn,
        hand.thickMm / 2 - HAND_CELL_MM / 2,
      );
    },
  };
}

const noBounds = (things: readonly Thing[]): Bounds => things[0]?.bounds ?? { min: [0, 0, 0], max: [0, 0, 0] };

/** The set with whatever else comes too near those places once it is off; null where that never comes off. */
function clearedAlong(
  places: readonly Vec[],
  things: readonly Thing[],
  off: ReadonlySet<string>,
  staysOn: ReadonlySet<string>,
  needMm: number,
): readonly string[] | null {
  const set = new Set(off);
  for (const [x, y, z] of places)
    for (const { id, bounds, distanceWithin } of things) {
      if (set.has(id) || distanceToBounds(bounds, x, y, z) >= needMm || distanceWithin(x, y, z, needMm) >= needMm)
        continue;
      if (staysOn.has(id)) return null;
      set.add(id);
    }
  return [...set].sort();
}

/** Cells that head and shoulders come to from the far corner of the space. 1 where they do. */
function openCells({ counts: [nx, ny, nz], room }: HandCells): Uint8Array {
  const open = new Uint8Array(room.length);
  const waiting = new Int32Array(room.length);
  let count = 1;
  open[0] = 1;
  const go = (cell: number): void => {
    if (open[cell] === 1 || room[cell] !== ROOM.shoulders) return;
    open[cell] = 1;
    waiting[count++] = cell;
  };
  for (let n = 0; n < count; n++) {
    const cell = waiting[n]!;
    const x = cell % nx;
    const row = (cell - x) / nx;
    const y = row % ny;
    const z = (row - y) / ny;
    if (x > 0) go(cell - 1);
    if (x < nx - 1) go(cell + 1);
    if (y > 0) go(cell - nx);
    if (y < ny - 1) go(cell + nx);
    if (z > 0) go(cell - nx * ny);
    if (z < nz - 1) go(cell + nx * ny);
  }
  return open;
}

/** Through what is in the way at a toll, never through what stays. */
function tollFlood(
  cells: HandCells,
  grid: (passes: (cell: number) => boolean, toll?: Uint8Array) => CellGrid,
  fits: Uint8Array,
  staysOn: ReadonlySet<string>,
  sources: readonly { readonly cell: number; readonly cost: number }[],
): { readonly grid: CellGrid; readonly cost: Int32Array } {
  const stays = cells.things.map(({ id }) => staysOn.has(id));
  const MOST_TOLL = 255;
  const toll = Uint8Array.from(fits, (fit) => (fit === 1 ? 0 : MOST_TOLL));
  const passes = (cell: number): boolean =>
    fits[cell] === 1 || (cells.nearest[cell]! > 0 && stays[cells.nearest[cell]! - 1] !== true);
  const made = grid(passes, toll);
  return { grid: made, cost: corridorCosts(made, sources) };
}

/** Cells of a kind that have a neighbour of another: a flood from these is one from all of them. */
function rimOf({ counts: [nx, ny, nz] }: HandCells, isIn: (cell: number) => boolean): { cell: number; cost: number }[] {
  const rim: { cell: number; cost: number }[] = [];
  const row = nx;
  const layer = nx * ny;
  for (let k = 1; k < nz - 1; k++)
    for (let j = 1; j < ny - 1; j++)
      for (let i = 1; i < nx - 1; i++) {
        const cell = i + row * j + layer * k;
        if (!isIn(cell)) continue;
        if (
          !isIn(cell - 1) ||
          !isIn(cell + 1) ||
          !isIn(cell - row) ||
          !isIn(cell + row) ||
          !isIn(cell - layer) ||
          !isIn(cell + layer)
        )
          rim.push({ cell, cost: 0 });
      }
  return rim;
}

/** A cell and its 26 neighbours, itself first. */
function around({ counts: [nx, ny, nz] }: HandCells, cell: number): number[] {
  if (cell < 0) return [];
  const [x, y, z] = [cell % nx, Math.floor(cell / nx) % ny, Math.floor(cell / (nx * ny))];
  const found = [cell];
  for (let k = z - 1; k <= z + 1; k++)
    for (let j = y - 1; j <= y + 1; j++)
      for (let i = x - 1; i <= x + 1; i++)
        if (i >= 0 && j >= 0 && k >= 0 && i < nx && j < ny && k < nz) {
          const n = i + nx * (j + ny * k);
          if (n !== cell) found.push(n);
        }
  return found;
}
