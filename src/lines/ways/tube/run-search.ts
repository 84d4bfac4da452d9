import { type Vec, addScaled, distance, perpendicular, sub, unit } from '#geometry';
import type { Span } from '../span.ts';
import { runCost } from './run-cost.ts';
import { type Effort, type PolishedRun, polishedRun } from './run-polish.ts';
import type { RunProblem } from './run-problem.ts';
import { corridorRuns, plainRuns, squareRuns } from './run-seeds.ts';

export interface TubeRuns {
  /** Cheapest first, distinct; each keeps every limit by the field's reading. */
  readonly runs: readonly PolishedRun[];
  readonly leastBad: PolishedRun | null;
  readonly unreachable: boolean;
  readonly effort: Effort;
}

const ROUGH_STEPS_MM = [40, 16] as const;
const MIDDLE_STEPS_MM = [12, 4, 1] as const;
/** Runs nearer than this to each other at their corners are one [mm]. */
const SAME_MM = 25;

/** How much is tried. */
export interface RunEffort {
  readonly corridors: number;
  /** Seeds polished roughly besides the corridors', and of those how many further beyond those asked for. */
  readonly roughSeeds: number;
  readonly furtherSeeds: number;
  /** A corner is put in where a run lacks room. */
  readonly roomier: boolean;
  readonly corridorsOnlyIfNeeded: boolean;
}

export const RUN_FULL: RunEffort = {
  corridors: 3,
  roughSeeds: 10,
  furtherSeeds: 2,
  roomier: true,
  corridorsOnlyIfNeeded: false,
};
/** Enough to tell which of several places is worth more. */
export const RUN_LIGHT: RunEffort = {
  corridors: 1,
  roughSeeds: 4,
  furtherSeeds: 1,
  roomier: false,
  corridorsOnlyIfNeeded: true,
};

const NO_CORRIDORS = { runs: [], unreachable: false };

/** The best few bent tubes from pose to pose. */
export function tubeRuns(problem: RunProblem, span: Span, count: number, much: RunEffort = RUN_FULL): TubeRuns {
  const effort: Effort = { costs: 0 };
  const plain = plainRuns(problem).map((corners) => ({ corners, cost: runCost(problem, corners) }));
  const good = plain.filter((run) => run.cost.ok);
  if (good.length > 0 && count === 1) return { runs: good, leastBad: null, unreachable: false, effort };
  const square = squareRuns(problem)
    .map((corners) => ({ corners, cost: runCost(problem, corners) }))
    .sort(byCost);
  const roughly = (corners: readonly Vec[]): PolishedRun => polishedRun(problem, corners, effort, ROUGH_STEPS_MM);
  const direct = square.slice(0, much.roughSeeds).map((run) => roughly(run.corners));
  // A light look needs no corridor where a direct run does.
  const noNeed = much.corridorsOnlyIfNeeded && direct.some((run) => run.cost.ok);
  const corridors = noNeed ? NO_CORRIDORS : corridorRuns(problem, span, much.corridors);
  // Corridors are polished whatever their first reading: they go the right side of things.
  const rough = [...corridors.runs.map(roughly), ...direct].sort(byCost);
  const further = distinct(rough)
    .slice(0, much.furtherSeeds + count)
    .map((run) => simplified(problem, run, effort))
    .sort(byCost);
  const best = further[0];
  if (much.roomier && best !== undefined && !best.cost.ok) further[0] = roomier(problem, best, effort);
  const fine = distinct(further)
    .slice(0, count)
    .map((run) => polishedRun(problem, run.corners, effort, FINE_STEPS_MM));
  const all = distinct([...plain, ...fine].sort(byCost));
  const runs = all.filter((run) => run.cost.ok).slice(0, count);
  return {
    runs,
    leastBad: all.find((run) => !run.cost.ok && canBeDrawn(run)) ?? null,
    unreachable: corridors.unreachable && runs.length === 0,
    effort,
  };
}

/** Short straights up to this still give a shape that can be drawn and judged [mm]. */
const DRAWN_LACK_MM = 60;
const canBeDrawn = ({ cost: { lacks } }: PolishedRun): boolean =>
  lacks.angleRad === 0 && lacks.straightMm < DRAWN_LACK_MM;

const byCost = (p: PolishedRun, q: PolishedRun): number =>
  Number(q.cost.ok) - Number(p.cost.ok) || p.cost.total - q.cost.total;

/** Corners taken out while that makes the run cheaper. */
function simplified(problem: RunProblem, run: PolishedRun, effort: Effort): PolishedRun {
  let best = polishedRun(problem, run.corners, effort, MIDDLE_STEPS_MM);
  for (let i = 2; i < best.corners.length - 2; i++) {
    const tried = polishedRun(
      problem,
      best.corners.filter((_, k) => k !== i),
      effort,
      MIDDLE_STEPS_MM,
    );
    if (byCost(tried, best) >= 0) continue;
    best = tried;
    i = 1;
  }
  return best;
}

/** A corner put in where a run still lacks room, if that helps. */
function roomier(problem: RunProblem, run: PolishedRun, effort: Effort): PolishedRun {
  let best = run;
  for (let round = 0; round < ROUNDS && !best.cost.ok && best.corners.length < MOST_POINTS; round++) {
    const before = best;
    for (const corners of withOneMore(before)) {
      const tried = polishedRun(problem, corners, effort, ROUNDABOUT_STEPS_MM);
      if (byCost(tried, best) < 0) best = tried;
      if (best.cost.ok) break;
    }
    if (best === before) break;
  }
  return best;
}

const ROUNDABOUT_STEPS_MM = [40, 12, 4] as const;
const FINE_STEPS_MM = [4, 1, 0.3, 0.1] as const;
const ROUNDS = 2;
const MOST_POINTS = 8;
/** A corner more is put beside the place that lacks room [mm]. */
const ASIDE_MM = 50;

function* withOneMore(run: PolishedRun): Generator<Vec[]> {
  const { leastAt } = run.cost.lacks;
  const i = nearestLeg(run.corners, leastAt);
  const along = unit(sub(run.corners[i + 1]!, run.corners[i]!));
  const u = perpendicular(along);
  const v: Vec = [
    along[1] * u[2] - along[2] * u[1],
    along[2] * u[0] - along[0] * u[2],
    along[0] * u[1] - along[1] * u[0],
  ];
  for (const [a, b] of [
    [1, 0],
    [-1, 0],
    [0, 1],
    [0, -1],
  ] as const) {
    const corner = addScaled(addScaled(leastAt, u, a * ASIDE_MM), v, b * ASIDE_MM);
    const at = Math.max(1, Math.min(run.corners.length - 3, i));
    yield [...run.corners.slice(0, at + 1), corner, ...run.corners.slice(at + 1)];
  }
}

function nearestLeg(corners: readonly Vec[], at: Vec): number {
  let best = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < corners.length; i++) {
    const a = corners[i]!;
    const ab = sub(corners[i + 1]!, a);
    const n = ab[0] ** 2 + ab[1] ** 2 + ab[2] ** 2;
    const ap = sub(at, a);
    const t = Math.max(0, Math.min(1, (ap[0] * ab[0] + ap[1] * ab[1] + ap[2] * ab[2]) / Math.max(1e-9, n)));
    const d = distance(at, addScaled(a, ab, t));
    if (d < least) {
      least = d;
      best = i;
    }
  }
  return best;
}

/** Runs that differ in how many corners they have or where these are. */
function distinct(runs: readonly PolishedRun[]): PolishedRun[] {
  const kept: PolishedRun[] = [];
  for (const run of runs) if (!kept.some((other) => isSame(run, other))) kept.push(run);
  return kept;
}

const isSame = (p: PolishedRun, q: PolishedRun): boolean =>
  p.corners.length === q.corners.length && p.corners.every((c, i) => distance(c, q.corners[i]!) < SAME_MM);
