import { type Vec, add, addScaled, dot, scale, sub } from '#geometry';
import { type RunCost, runCost } from './run-cost.ts';
import type { RunProblem } from './run-problem.ts';

/** A run with its cost. */
export interface PolishedRun {
  readonly corners: readonly Vec[];
  readonly cost: RunCost;
}

/** Counted, never timed: costs worked out. */
export interface Effort {
  costs: number;
}

const AXES: readonly Vec[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
/** How often all moves are tried at each step. */
const SWEEPS = 10;
/** A move counts if it gains this [mm]. */
const GAIN_MM = 1e-4;

/**
 * The run made as cheap as moving its corners can: the first and last corner slide on the ends' axes, those between go anywhere,
 * alone or with the next. Coordinate steps with the last sweep's total move tried again, halted by count, the same every time.
 */
export function polishedRun(
  problem: RunProblem,
  seed: readonly Vec[],
  effort: Effort,
  stepsMm: readonly number[],
): PolishedRun {
  let corners = onAxes(problem, seed);
  let cost = costed(problem, corners, effort);
  for (const step of stepsMm) {
    for (let sweep = 0; sweep < SWEEPS; sweep++) {
      const before = corners;
      const old = cost.total;
      for (const move of moves(corners.length)) {
        for (const sign of [1, -1]) {
          const tried = moved(problem, corners, move, sign * step);
          const next = costed(problem, tried, effort);
          if (next.total >= cost.total - GAIN_MM) continue;
          corners = tried;
          cost = next;
          break;
        }
      }
      if (old - cost.total < GAIN_MM) break;
      const further = onAxes(
        problem,
        corners.map((p, i) => addScaled(p, sub(p, before[i]!), 1)),
      );
      const next = costed(problem, further, effort);
      if (next.total < cost.total - GAIN_MM) {
        corners = further;
        cost = next;
      }
    }
  }
  return { corners, cost };
}

function costed(problem: RunProblem, corners: readonly Vec[], effort: Effort): RunCost {
  effort.costs++;
  return runCost(problem, corners);
}

interface Move {
  readonly first: number;
  readonly last: number;
  readonly direction: Vec;
}

/** Corners 1..n-2 of n points move: each by itself along each axis, then neighbours together. */
function moves(count: number): Move[] {
  const all: Move[] = [];
  for (const span of [0, 1])
    for (let first = 1; first + span <= count - 2; first++)
      for (const direction of AXES) all.push({ first, last: first + span, direction });
  return all;
}

function moved(problem: RunProblem, corners: readonly Vec[], move: Move, stepMm: number): Vec[] {
  const last = corners.length - 2;
  return corners.map((p, i): Vec => {
    if (i < move.first || i > move.last) return p;
    if (i === 1) return addScaled(p, problem.start.along, stepMm * signOf(problem.start.along, move.direction));
    if (i === last) return addScaled(p, problem.end.along, stepMm * signOf(problem.end.along, move.direction));
    return addScaled(p, move.direction, stepMm);
  });
}

/** Corners on an axis slide along it whichever way the move goes most. */
const signOf = (along: Vec, direction: Vec): number =>
  Math.abs(dot(along, direction)) < 0.3 ? 0 : Math.sign(dot(along, direction));

/** First and last corners dropped onto the ends' axes, not behind the ends. */
function onAxes(problem: RunProblem, corners: readonly Vec[]): Vec[] {
  const last = corners.length - 2;
  if (last < 2) return [...corners];
  return corners.map((p, i): Vec => {
    if (i === 1)
      return add(
        problem.start.at,
        scale(problem.start.along, Math.max(1, dot(sub(p, problem.start.at), problem.start.along))),
      );
    if (i === last)
      return sub(problem.end.at, scale(problem.end.along, Math.max(1, dot(sub(problem.end.at, p), problem.end.along))));
    return p;
  });
}
