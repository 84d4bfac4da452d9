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

/** Grids and floods from outside: head and shoulders, then the arm, then the hand. */
interface Floods {
  readonly cells: HandCells;
  readonly fits: Uint8Array;
  readonly armGrid: CellGrid;
  readonly arm: Int32Array;
  readonly handGrid: CellGrid;
  readonly reached: Int32Array;
  isOpen(cell: number): boolean;
  isArm(cell: number): boolean;
  isHand(cell: number): boolean;
}

const tenths = (mm: number): number => (10 * mm) / HAND_CELL_MM;

function floods(cells: HandCells, hand: Hand): Floods {
  const { room } = cells;
  const open = openCells(cells);
  const isOpen = (cell: number): boolean => open[cell] === 1;
  const armGrid = gridOf(cells, (cell) => room[cell]! >= ROOM.arm && !isOpen(cell));
  const arm = corridorCosts(armGrid, rimOf(cells, isOpen));
  const isArm = (cell: number): boolean => isOpen(cell) || arm[cell]! <= tenths(hand.reachMm);
  const fits = flatHandCells(cells);
  const handGrid = gridOf(cells, (cell) => fits[cell] === 1 && !isArm(cell));
  const reached = corridorCosts(handGrid, rimOf(cells, isArm));
  const isHand = (cell: number): boolean => isArm(cell) || reached[cell]! <= tenths(hand.longMm);
  return { cells, fits, armGrid, arm, handGrid, reached, isOpen, isArm, isHand };
}

function gridOf(cells: HandCells, passes: (cell: number) => boolean, toll?: Uint8Array): CellGrid {
  const [nx, ny, nz] = cells.counts;
  const blocked = new Uint8Array(cells.room.length);
  for (let cell = 0; cell < blocked.length; cell++) if (!passes(cell)) blocked[cell] = 1;
  return { min: cells.min, cellMm: HAND_CELL_MM, nx, ny, nz, blocked, toll: toll ?? new Uint8Array(blocked.length) };
}

/**
 * Where a hand gets to, among these things. Head and shoulders move about outside; an arm goes in from there, no farther than it is
 * long; a flat hand goes on, no farther than it is long.
 */
export function handRoom(things: readonly Thing[], hand: Hand): HandRoom {
  const bounds = grown(things.map((thing) => thing.bounds).reduce(joined, noBounds(things)), ABOUT_MM);
  const cells = handCells(things, bounds, [hand.thickMm / 2, hand.armMm / 2, SHOULDERS_MM]);
  const flood = floods(cells, hand);
  const where = (at: Vec): number => cellOf(flood.armGrid, ...at);
  const nextTo = (at: Vec): number | undefined => around(cells, where(at)).find((cell) => flood.isHand(cell));
  let tolls: Tolls | null = null;
  return {
    cells,
    reaches: (at) => nextTo(at) !== undefined,
    isOpen: (at) => {
      const cell = where(at);
      return cell < 0 || flood.isOpen(cell);
    },
    wayOut: (at) => {
      const cell = nextTo(at);
      if (cell === undefined) return [];
      const last = flood.isArm(cell) ? [cell] : corridorFrom(flood.handGrid, flood.reached, cell);
      const first = last.at(-1) ?? cell;
      const rest = flood.isOpen(first) ? [] : corridorFrom(flood.armGrid, flood.arm, first);
      return [...last, ...rest].map((c) => cellCentre(flood.armGrid, c));
    },
    shutBy: (at, staysOn) => {
      if (tolls?.staysOn !== staysOn) tolls = tollFlood(flood, staysOn);
      return shutBy(flood, tolls, around(cells, where(at)), hand);
    },
  };
}

/** What the way of fewest tolls from one of these cells goes through. */
function shutBy({ cells, fits }: Floods, tolls: Tolls, from: readonly number[], hand: Hand): readonly string[] | null {
  const start = from.find((cell) => isReached(tolls.cost, cell));
  if (start === undefined) return null;
  const along = tracedBack(cells, tolls, start);
  const tight = along.filter((cell, n) =>
    n * HAND_CELL_MM > hand.longMm ? cells.room[cell]! < ROOM.arm : fits[cell] !== 1,
  );
  const ids = tight.flatMap((cell) => (cells.nearest[cell]! > 0 ? [cells.things[cells.nearest[cell]! - 1]!.id] : []));
  return clearedAlong(
    tight.map((cell) => cellCentre(tolls.grid, cell)),
    cells.things,
    new Set(ids.filter((id) => !tolls.staysOn.has(id))),
    tolls.staysOn,
    hand.thickMm / 2 - HAND_CELL_MM / 2,
  );
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

/** A flood through what is in the way, at a toll. */
interface Tolls {
  readonly grid: CellGrid;
  readonly cost: Int32Array;
  readonly staysOn: ReadonlySet<string>;
}

/** Through what is in the way at a toll, never through what stays. */
function tollFlood({ cells, fits, isOpen }: Floods, staysOn: ReadonlySet<string>): Tolls {
  const stays = cells.things.map(({ id }) => staysOn.has(id));
  // In sixteenths of a step. Where only a flat hand fits, the arm that follows would not: dear, but far less than taking something off.
  const toll = Uint8Array.from(fits, (fit, cell) => (fit !== 1 ? 255 : cells.room[cell]! < ROOM.arm ? 100 : 0));
  const passes = (cell: number): boolean =>
    !isOpen(cell) && (fits[cell] === 1 || (cells.nearest[cell]! > 0 && stays[cells.nearest[cell]! - 1] !== true));
  const grid = gridOf(cells, passes, toll);
  return { grid, cost: corridorCosts(grid, rimOf(cells, isOpen)), staysOn };
}

/** The cells of the cheapest way from a source, last first: each is reached from the next at just its step and toll. */
function tracedBack(cells: HandCells, { grid, cost }: Tolls, from: number): number[] {
  const STEPS = [0, 10, 14, 17] as const;
  const placeOf = (cell: number): Vec => cellCentre(grid, cell);
  const along = [from];
  for (let cell = from; cost[cell]! > 0; cell = along.at(-1)!) {
    const at = placeOf(cell);
    const before = around(cells, cell).find((other) => {
      if (other === cell || !isReached(cost, other)) return false;
      const to = placeOf(other);
      const axes = [0, 1, 2].filter((n) => Math.abs(at[n]! - to[n]!) > HAND_CELL_MM / 2).length;
      return cost[other]! + ((STEPS[axes]! * (16 + grid.toll[cell]!)) >> 4) === cost[cell]!;
    });
    if (before === undefined) break;
    along.push(before);
  }
  return along;
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
