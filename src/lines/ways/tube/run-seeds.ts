import {
  type CellGrid,
  type Vec,
  add,
  addScaled,
  cellCentre,
  cellOf,
  corridorCosts,
  corridorFrom,
  cross,
  distance,
  dot,
  isReached,
  norm,
  scale,
  sub,
} from '#geometry';
import { corridorGrid } from '../clearance.ts';
import type { Span } from '../span.ts';
import { type RunProblem, firstCorner, lastCorner } from './run-problem.ts';
import type { TubeClear } from './tube-clear.ts';

/** Two axes that pass within this cross [mm]: no pipe is bent truer. */
const CROSS_MM = 0.02;
/** Axes within this of each other's direction are parallel: sine of the angle. */
const PARALLEL = 1e-5;

/** The plain runs: one straight, or one bend where the ends' axes cross. */
export function plainRuns({ start, end }: RunProblem): Vec[][] {
  const between = sub(end.at, start.at);
  const square = cross(start.along, end.along);
  if (norm(square) < PARALLEL) {
    const off = sub(between, scale(start.along, dot(between, start.along)));
    const straight = norm(off) < CROSS_MM && dot(start.along, end.along) > 0 && dot(between, start.along) > 0;
    return straight ? [[start.at, end.at]] : [];
  }
  const n = dot(square, square);
  const t = dot(cross(between, end.along), square) / n;
  const u = dot(cross(between, start.along), square) / n;
  const p = addScaled(start.at, start.along, t);
  const q = addScaled(end.at, end.along, u);
  return t > 0 && u < 0 && distance(p, q) < CROSS_MM ? [[start.at, p, end.at]] : [];
}

/** How far the ends run on before they turn, in bend radii, for the seeds that go by the axes of the car. */
const RUN_ON = [0.6, 1.3] as const;

/** Runs by the axes of the car, straight over, and out and round: from the end of the first straight to that of the last. */
export function squareRuns(problem: RunProblem): Vec[][] {
  const runs: Vec[][] = [];
  for (const a of RUN_ON)
    for (const b of RUN_ON) {
      const p = firstCorner(problem, a);
      const q = lastCorner(problem, b);
      runs.push([problem.start.at, p, q, problem.end.at]);
      const d = sub(q, p);
      for (const first of [0, 1, 2])
        for (const second of [0, 1, 2]) {
          if (first === second) continue;
          const m1 = addScaled(p, axis(first), d[first]!);
          const m2 = addScaled(m1, axis(second), d[second]!);
          runs.push([problem.start.at, p, m1, q, problem.end.at], [problem.start.at, p, m1, m2, q, problem.end.at]);
        }
    }
  return runs;
}

const axis = (k: number): Vec => [k === 0 ? 1 : 0, k === 1 ? 1 : 0, k === 2 ? 1 : 0];

/** How coarsely each corridor is straightened [mm]. */
const STRAIGHTENED_MM = [12, 30, 70] as const;
/** The box searched round both ends, tried in turn [mm]. */
const ROUND_MM = [300, 700] as const;
/** Corners of a seed at most, the two on the ends' axes left out. */
const MOST_INNER = 4;

export interface CorridorRuns {
  readonly runs: Vec[][];
  /** No corridor at all, as far as the grid can tell. */
  readonly unreachable: boolean;
}

/** Runs along corridors through the grid, each pulled taut and straightened more and less. */
export function corridorRuns(problem: RunProblem, span: Span, corridors: number): CorridorRuns {
  const { clear } = problem;
  for (const round of ROUND_MM) {
    const grid = corridorGrid(
      span,
      {
        coarse: (x, y, z) => clear.coarse(x, y, z),
        slackAndGradient: span.far.slackAndGradient,
        closely: span.far.closely,
      },
      round,
    );
    const runs = runsThrough(problem, grid, corridors);
    if (runs.length > 0) return { runs, unreachable: false };
  }
  return { runs: [], unreachable: true };
}

function runsThrough(problem: RunProblem, grid: CellGrid, corridors: number): Vec[][] {
  const tolled = { ...grid, toll: Uint8Array.from(grid.toll) };
  const p = firstCorner(problem, 0.5);
  const q = lastCorner(problem, 0.5);
  const from = openCell(grid, p);
  const to = openCell(grid, q);
  if (from < 0 || to < 0) return [];
  const runs: Vec[][] = [];
  for (let n = 0; n < corridors; n++) {
    const cost = corridorCosts(tolled, [{ cell: to, cost: 0 }]);
    if (!isReached(cost, from)) break;
    const cells = corridorFrom(tolled, cost, from);
    const line = [
      p,
      ...tautened(
        cells.map((c) => cellCentre(grid, c)),
        problem.clear,
      ),
      q,
    ];
    for (const offMm of STRAIGHTENED_MM) {
      const corners = straightened(line, offMm);
      if (corners.length - 2 <= MOST_INNER) runs.push([problem.start.at, ...corners, problem.end.at]);
    }
    takeToll(tolled, cells);
  }
  return runs;
}

/** The cell of a place, or the nearest open one beside it. */
function openCell(grid: CellGrid, at: Vec): number {
  let best = -1;
  let least = Number.POSITIVE_INFINITY;
  for (const x of NEIGHBOURS)
    for (const y of NEIGHBOURS)
      for (const z of NEIGHBOURS) {
        const cell = cellOf(grid, at[0] + x * grid.cellMm, at[1] + y * grid.cellMm, at[2] + z * grid.cellMm);
        const far = Math.abs(x) + Math.abs(y) + Math.abs(z);
        if (cell < 0 || grid.blocked[cell] === 1 || far >= least) continue;
        best = cell;
        least = far;
      }
  return best;
}

const NEIGHBOURS = [0, -1, 1, -2, 2] as const;
/** Sixteenths of a step added near a corridor already found. */
const TOLL = 12;
const TOLL_CELLS = [-3, -2, -1, 0, 1, 2, 3] as const;

function takeToll(grid: CellGrid, cells: ArrayLike<number>): void {
  const tolled = new Set<number>();
  for (let n = 0; n < cells.length; n += 2) {
    const c = cellCentre(grid, cells[n]!);
    for (const x of TOLL_CELLS)
      for (const y of TOLL_CELLS)
        for (const z of TOLL_CELLS) {
          const cell = cellOf(grid, c[0] + x * grid.cellMm, c[1] + y * grid.cellMm, c[2] + z * grid.cellMm);
          if (cell < 0 || tolled.has(cell)) continue;
          tolled.add(cell);
          grid.toll[cell] = Math.min(255, grid.toll[cell]! + TOLL);
        }
  }
}

/** Points that the room lets one skip are skipped. */
function tautened(cells: readonly Vec[], clear: TubeClear): Vec[] {
  const line: Vec[] = [];
  let at = 0;
  while (at < cells.length) {
    line.push(cells[at]!);
    if (at === cells.length - 1) break;
    let next = cells.length - 1;
    while (next > at + 1 && !isClear(cells[at]!, cells[next]!, clear))
      next = at + Math.max(1, Math.floor((next - at) * 0.7));
    at = next;
  }
  return line;
}

const CLEAR_STEP_MM = 12;

function isClear(p: Vec, q: Vec, clear: TubeClear): boolean {
  const steps = Math.ceil(distance(p, q) / CLEAR_STEP_MM);
  for (let n = 1; n < steps; n++) {
    const at = addScaled(p, sub(q, p), n / steps);
    if (clear.coarse(at[0], at[1], at[2]) < 0) return false;
  }
  return true;
}

/** The fewest of a line's points that stay within `offMm` of the others: split at the farthest. */
function straightened(line: readonly Vec[], offMm: number): Vec[] {
  const first = line[0]!;
  const last = line.at(-1)!;
  let far = 0;
  let where = 0;
  for (let i = 1; i < line.length - 1; i++) {
    const d = offSegment(line[i]!, first, last);
    if (d > far) {
      far = d;
      where = i;
    }
  }
  if (far <= offMm) return [first, last];
  return [...straightened(line.slice(0, where + 1), offMm).slice(0, -1), ...straightened(line.slice(where), offMm)];
}

function offSegment(p: Vec, a: Vec, b: Vec): number {
  const ab = sub(b, a);
  const t = Math.max(0, Math.min(1, dot(sub(p, a), ab) / Math.max(1e-9, dot(ab, ab))));
  return distance(p, add(a, scale(ab, t)));
}
