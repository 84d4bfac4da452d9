/**
 * Shortest corridors through a grid of cells, 26 neighbours, whole-number costs (10, 14, 17 a step), so that ties
 * and sums come out the same every time. Cells are numbered x + nx*(y + ny*z).
 */
export interface CellGrid {
  readonly min: readonly [number, number, number];
  readonly cellMm: number;
  readonly nx: number;
  readonly ny: number;
  readonly nz: number;
  /** 1 where nothing may pass. */
  readonly blocked: Uint8Array;
  /** Extra cost of a step into the cell, in sixteenths of the step. */
  readonly toll: Uint8Array;
}

const UNREACHED = 0x7fffffff;
/** Steps cost at most 17 * (16 + 255) / 16; one more bucket than that and a ring of buckets never overtakes itself. */
const BUCKETS = 512;

export function cellOf(grid: CellGrid, x: number, y: number, z: number): number {
  const i = Math.floor((x - grid.min[0]) / grid.cellMm);
  const j = Math.floor((y - grid.min[1]) / grid.cellMm);
  const k = Math.floor((z - grid.min[2]) / grid.cellMm);
  if (i < 0 || j < 0 || k < 0 || i >= grid.nx || j >= grid.ny || k >= grid.nz) return -1;
  return i + grid.nx * (j + grid.ny * k);
}

export function cellCentre(grid: CellGrid, cell: number): [number, number, number] {
  const i = cell % grid.nx;
  const j = Math.floor(cell / grid.nx) % grid.ny;
  const k = Math.floor(cell / (grid.nx * grid.ny));
  return [
    grid.min[0] + (i + 0.5) * grid.cellMm,
    grid.min[1] + (j + 0.5) * grid.cellMm,
    grid.min[2] + (k + 0.5) * grid.cellMm,
  ];
}

interface Neighbours {
  readonly step: Int32Array;
  readonly dx: Int8Array;
  readonly dy: Int8Array;
  readonly dz: Int8Array;
  readonly cost: Int32Array;
}

function neighbours(grid: CellGrid): Neighbours {
  const step: number[] = [];
  const d: [number, number, number][] = [];
  const cost: number[] = [];
  for (let z = -1; z <= 1; z++)
    for (let y = -1; y <= 1; y++)
      for (let x = -1; x <= 1; x++) {
        const axes = Math.abs(x) + Math.abs(y) + Math.abs(z);
        if (axes === 0) continue;
        step.push(x + grid.nx * (y + grid.ny * z));
        d.push([x, y, z]);
        cost.push(axes === 1 ? 10 : axes === 2 ? 14 : 17);
      }
  return {
    step: Int32Array.from(step),
    dx: Int8Array.from(d, (v) => v[0]),
    dy: Int8Array.from(d, (v) => v[1]),
    dz: Int8Array.from(d, (v) => v[2]),
    cost: Int32Array.from(cost),
  };
}

/** A wave of cheapest corridors from all sources, run no further than is asked for. */
export interface CorridorWave {
  /** Tenths of a cell, as far as the wave has come; not final ahead of it. */
  readonly cost: Int32Array;
  /** Runs until the cost of this cell is final, and gives it: `unreached` where there is no corridor. */
  costOf(cell: number): number;
  /** Runs to the end. */
  finish(): void;
}

/**
 * Cost of the cheapest corridor from any source to every cell (tenths of a cell; `unreached` where there is none).
 * Blocked sources count: a port's own cell is usually inside its own part's keep-off.
 */
export function corridorCosts(grid: CellGrid, sources: readonly CorridorSource[]): Int32Array {
  const wave = corridorWave(grid, sources);
  wave.finish();
  return wave.cost;
}

export interface CorridorSource {
  readonly cell: number;
  readonly cost: number;
}

/** The wave of `corridorCosts`, to be run as far as it is needed: the costs are the same. */
export function corridorWave(grid: CellGrid, sources: readonly CorridorSource[]): CorridorWave {
  const { nx, ny, nz, blocked, toll } = grid;
  const near = neighbours(grid);
  const cost = new Int32Array(nx * ny * nz).fill(UNREACHED);
  const ring: number[][] = Array.from({ length: BUCKETS }, () => []);
  const late = sources.filter((s) => s.cell >= 0).sort((p, q) => p.cost - q.cost || p.cell - q.cell);
  const sourceCells = new Set(late.map((s) => s.cell));
  let nextLate = 0;
  let waiting = 0;
  /** Costs below this are final. */
  let at = late[0]?.cost ?? 0;

  const goOnFrom = (cell: number): void => {
    const row = (cell / nx) | 0;
    const x = cell - row * nx;
    const z = (row / ny) | 0;
    const y = row - z * ny;
    const inside = x > 0 && y > 0 && z > 0 && x < nx - 1 && y < ny - 1 && z < nz - 1;
    for (let m = 0; m < 26; m++) {
      if (!inside) {
        const ax = x + near.dx[m]!;
        const ay = y + near.dy[m]!;
        const az = z + near.dz[m]!;
        if (ax < 0 || ay < 0 || az < 0 || ax >= nx || ay >= ny || az >= nz) continue;
      }
      const other = cell + near.step[m]!;
      const step = near.cost[m]!;
      const kept = cost[other]!;
      if (kept <= at + step || blocked[other] === 1) continue;
      const reached = at + ((step * (16 + toll[other]!)) >> 4);
      if (reached >= kept) continue;
      cost[other] = reached;
      ring[reached & (BUCKETS - 1)]!.push(other);
      waiting++;
    }
  };
  /** Makes the costs of one more tenth final; false at the end. */
  const advance = (): boolean => {
    if (waiting === 0 && nextLate >= late.length) return false;
    while (nextLate < late.length && late[nextLate]!.cost === at) {
      const { cell } = late[nextLate++]!;
      if (at >= cost[cell]!) continue;
      cost[cell] = at;
      ring[at & (BUCKETS - 1)]!.push(cell);
      waiting++;
    }
    const bucket = ring[at & (BUCKETS - 1)]!;
    for (let n = 0; n < bucket.length; n++) {
      waiting--;
      if (cost[bucket[n]!] === at) goOnFrom(bucket[n]!);
    }
    bucket.length = 0;
    at++;
    return true;
  };
  return {
    cost,
    costOf: (cell) => {
      // Nothing goes into a blocked cell, so that the wave need not come by to tell.
      if (blocked[cell] === 1 && !sourceCells.has(cell)) return UNREACHED;
      while (cost[cell]! >= at && advance());
      return cost[cell]!;
    },
    finish: () => {
      while (advance());
    },
  };
}

/** The cells from `from` down to a source; empty if the cell was not reached. */
export function corridorFrom(grid: CellGrid, cost: Int32Array, from: number): number[] {
  const { nx, ny, nz } = grid;
  const near = neighbours(grid);
  let cell = from;
  let here = cost[from] ?? UNREACHED;
  const cells: number[] = [];
  if (here === UNREACHED) {
    // A port's own cell is often blocked; leave it by its cheapest neighbour.
    here = UNREACHED - 1;
  }
  for (;;) {
    cells.push(cell);
    const x = cell % nx;
    const y = Math.floor(cell / nx) % ny;
    const z = Math.floor(cell / (nx * ny));
    let best = -1;
    let bestCost = here;
    for (let m = 0; m < 26; m++) {
      const ax = x + near.dx[m]!;
      const ay = y + near.dy[m]!;
      const az = z + near.dz[m]!;
      if (ax < 0 || ay < 0 || az < 0 || ax >= nx || ay >= ny || az >= nz) continue;
      const other = cell + near.step[m]!;
      const c = cost[other]!;
      if (c < bestCost) {
        bestCost = c;
        best = other;
      }
    }
    if (best < 0) return cost[cell] === UNREACHED ? [] : cells;
    cell = best;
    here = bestCost;
  }
}

export const isReached = (cost: Int32Array, cell: number): boolean => cost[cell] !== UNREACHED;
export const isCorridor = (cost: number): boolean => cost !== UNREACHED;
