import {
  type RefineProblem,
  type Vec,
  addScaled,
  cellCentre,
  cellOf,
  distance,
  refined,
  scale,
  tailPose,
} from '#geometry';
import { dutyNeeds } from '#standards';
import { cutLength } from '../../src/lines/make-up/cut-length.ts';
import { chooseHoses } from '../../src/lines/make-up/choose-hoses.ts';
import { clearance, corridorGrid } from '../../src/lines/ways/clearance.ts';
import { MILESTONES } from '../../src/lines/ways/curves.ts';
import { farReading } from '../../src/lines/ways/far-reading.ts';
import { ONE_BY_ONE } from '../../src/lines/ways/first-pieces.ts';
import type { HangProblem } from '../../src/lines/ways/hang-problem.ts';
import { pieceMovement } from '../../src/lines/ways/carriers.ts';
import { hangFree } from '../../src/lines/ways/hang.ts';
import { knownAt, portEnd } from '../../src/lines/ways/joints.ts';
import { type SeedKind, SeedStock } from '../../src/lines/ways/seed-stock.ts';
import type { Span } from '../../src/lines/ways/span.ts';
import { type Tail, startOfBend, tails } from '../../src/lines/ways/tails.ts';
import { type LinesWorld, conditionsOf } from '../../src/lines/world.ts';
import type { Chance } from '../../src/lines/planted/chance.ts';

/** One line of a bay laid out for a plain planner: what every planner here is handed. */
export interface Task {
  readonly world: LinesWorld;
  readonly span: Span;
  readonly clear: ReturnType<typeof clearance>;
  readonly tailsA: readonly Tail[];
  readonly tailsB: readonly Tail[];
  readonly clampSpacingMm: number;
}

export function taskOf(world: LinesWorld): Task {
  const line = world.car.lines[0]!;
  const choices = chooseHoses(
    conditionsOf(line),
    world.shelf.hoses,
    line.pieces[0]?.hose ?? (line as { hose?: string }).hose,
  );
  const { hose } = (choices.hoses[0] ?? choices.refused[0])!;
  const [a, b] = [line.from, line.to].map((ref) => {
    const answer = portEnd(world, line, ref, hose);
    if ('missing' in answer) throw new Error(answer.missing);
    return answer.end;
  });
  const span: Span = {
    a: a!,
    b: b!,
    odMm: hose.odMm,
    minBendRadiusMm: hose.minBendRadiusMm,
    far: farReading(world, line, null, []),
  };
  return {
    world,
    span,
    clear: clearance(span),
    tailsA: tails(span.a, span.odMm, span.far),
    tailsB: tails(span.b, span.odMm, span.far),
    clampSpacingMm: dutyNeeds(line.duty).clampMm,
  };
}

export interface RivalWay {
  readonly key: string;
  readonly cost: number;
}

const FIRST_MARGINS = { marginMm: 4, radiusFactor: 1.08 };

/** Rods worked out at most on one hose. */
const MOST_RODS = 1000;

/** A seed refined with these margins and hung; null where it does not keep its limits, or cannot be cheaper than asked. */
export function tried(
  task: Task,
  a: Tail,
  phiA: number,
  b: Tail,
  phiB: number,
  line: readonly Vec[],
  margins = FIRST_MARGINS,
  below = Infinity,
  milestones: RefineProblem['milestones'] = [],
  rods = MOST_RODS,
): RivalWay | null {
  const { span, clear } = task;
  const curve = refined({
    a: { ...a.pose, phiRad: phiA },
    b: { ...b.pose, phiRad: phiB },
    minBendRadiusMm: margins.radiusFactor * span.minBendRadiusMm,
    seed: line.flat(),
    field: clear,
    marginMm: margins.marginMm,
    odMm: span.odMm,
    milestones,
  });
  const fixed = [a, b].reduce((sum, { makeUp }) => sum + makeUp.lengthMm + makeUp.cost, 0);
  if (!curve.ok || fixed + curve.lengthMm >= below) return null;
  const pose = (tail: Tail, phi: number) => {
    const { point, direction } = tailPose({ ...tail.pose, phiRad: phi }, phi);
    return { point: addScaled(point, direction, tail.pose.straightMm), direction };
  };
  const [start, back] = [pose(a, curve.phiA), pose(b, curve.phiB)];
  const planned = curve.points.slice(3, -3);
  planned.set(start.point, 0);
  planned.set(back.point, planned.length - 3);
  const ends = [a, b].map((tail, i) => ({ ...knownAt(task.world, i === 0 ? span.a : span.b), makeUp: tail.makeUp }));
  const { allowanceMm } = cutLength({
    flexibleMm: curve.lengthMm,
    insertAMm: a.makeUp.insertMm,
    insertBMm: b.makeUp.insertMm,
    ends,
  });
  const problem: HangProblem = {
    planned,
    held: [],
    leaves: start.direction,
    arrives: scale(back.direction, -1),
    straightsMm: [a.pose.straightMm, b.pose.straightMm],
    insertsMm: a.makeUp.insertMm + b.makeUp.insertMm,
    odMm: span.odMm,
    minBendRadiusMm: span.minBendRadiusMm,
    clear,
    allowanceMm,
    clampSpacingMm: task.clampSpacingMm,
    budget: { rods },
    movement: pieceMovement(task.world, span.a, span.b),
  };
  const hung = hangFree(problem);
  if (!hung.ok) return null;
  return {
    key: `${a.makeUp.key} ${b.makeUp.key}`,
    cost: fixed + hung.lengthMm + problem.straightsMm[0] + problem.straightsMm[1] + 30 * hung.clamps.length,
  };
}

const clockOf = (tail: Tail, draw: Chance): number => draw.oneOf(tail.clocks).phiRad;
const MOST_SHOTS = 600;

/** Shots at random: ends, clocks and a place to go by drawn until one comes to something. */
export function randomShots(task: Task, draw: Chance): RivalWay | null {
  const { span } = task;
  for (let n = 0; n < MOST_SHOTS; n++) {
    const [a, b] = [draw.oneOf(task.tailsA), draw.oneOf(task.tailsB)];
    const [phiA, phiB] = [clockOf(a, draw), clockOf(b, draw)];
    const [p, q] = [startOfBend(a, phiA).point, startOfBend(b, phiB).point];
    const reach = 0.5 * distance(span.a.at, span.b.at) + span.minBendRadiusMm;
    const middle: Vec = [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2, (p[2] + q[2]) / 2];
    const via = addScaled(middle, draw.direction(), draw.between(0, reach));
    const way = tried(task, a, phiA, b, phiB, n % 2 === 0 ? [p, q] : [p, via, q]);
    if (way !== null) return way;
  }
  return null;
}

/** Rods on one hose before the next seed is looked at: it may hang well at a few lengths, seldom at the last. */
const FIRST_RODS = 24;

/**
 * The planner's own seeds, in the order of its first look: one by one, each worked out when those before came to nothing, then all
 * there are; the first that comes to something.
 */
export function firstOfSeeds(task: Task): RivalWay | null {
  const stock = new SeedStock(task.span, task.clear, task.tailsA, task.tailsB);
  const kinds: readonly SeedKind[] = [...ONE_BY_ONE, 'round 1', 'gentle round 1', 'direct', 'further'];
  for (const kind of kinds)
    for (const seed of stock.of(kind, 1)) {
      const rods = kind === 'direct' || kind === 'further' ? MOST_RODS : FIRST_RODS;
      const way = tried(
        task,
        seed.a,
        seed.phiA,
        seed.b,
        seed.phiB,
        seed.line,
        FIRST_MARGINS,
        Infinity,
        MILESTONES,
        rods,
      );
      if (way !== null) return way;
    }
  return null;
}

const PLAIN_CLOCKS = 4;

/**
 * The plain planner: each pair of ends at a few clocks, shortest over the grid from tail to tail, corners cut straight where
 * the room allows, refined and hung; the best five with different ends.
 */
export function plainWays(task: Task, count: number): RivalWay[] {
  const grid = corridorGrid(task.span, task.clear, 250);
  const found = new Map<string, RivalWay>();
  for (const a of task.tailsA)
    for (const b of task.tailsB) {
      const every = (tail: Tail) =>
        tail.clocks.filter((_, i) => i % Math.max(1, Math.floor(tail.clocks.length / PLAIN_CLOCKS)) === 0);
      const pairs = every(a).flatMap((p) =>
        every(b).map((q) => ({
          p: p.phiRad,
          q: q.phiRad,
          far: distance(startOfBend(a, p.phiRad).point, startOfBend(b, q.phiRad).point),
        })),
      );
      pairs.sort((s, t) => s.far - t.far);
      for (const { p, q } of pairs.slice(0, PLAIN_CLOCKS)) {
        const [from, to] = [startOfBend(a, p).point, startOfBend(b, q).point];
        const cells = starPath(grid, cellOf(grid, ...from), cellOf(grid, ...to));
        if (cells === null) continue;
        const line = smoothed([from, ...cells.slice(1, -1).map((cell) => cellCentre(grid, cell)), to], task);
        const way = tried(task, a, p, b, q, line);
        if (way === null) continue;
        const kept = found.get(way.key);
        if (kept === undefined || way.cost < kept.cost) found.set(way.key, way);
        break;
      }
    }
  return [...found.values()].sort((s, t) => s.cost - t.cost).slice(0, count);
}

/** A star over the open cells, 26 neighbours, straight distance as the hope. */
function starPath(grid: ReturnType<typeof corridorGrid>, from: number, to: number): number[] | null {
  if (from < 0 || to < 0) return null;
  const goal = cellCentre(grid, to);
  const best = new Map<number, number>([[from, 0]]);
  const before = new Map<number, number>();
  const heap: [number, number][] = [[0, from]];
  while (heap.length > 0) {
    const [, cell] = popped(heap);
    if (cell === to) {
      const path = [to];
      while (path[0] !== from) path.unshift(before.get(path[0]!)!);
      return path;
    }
    const at = cellCentre(grid, cell);
    for (let k = 0; k < 27; k++) {
      if (k === 13) continue;
      const step: Vec = [
        ((k % 3) - 1) * grid.cellMm,
        ((Math.floor(k / 3) % 3) - 1) * grid.cellMm,
        (Math.floor(k / 9) - 1) * grid.cellMm,
      ];
      const next = cellOf(grid, at[0] + step[0], at[1] + step[1], at[2] + step[2]);
      if (next < 0 || grid.blocked[next] === 1) continue;
      const cost = best.get(cell)! + Math.hypot(...step);
      if (cost >= (best.get(next) ?? Infinity)) continue;
      best.set(next, cost);
      before.set(next, cell);
      pushed(heap, [cost + distance(cellCentre(grid, next), goal), next]);
    }
  }
  return null;
}

function pushed(heap: [number, number][], item: [number, number]): void {
  heap.push(item);
  for (let i = heap.length - 1; i > 0; ) {
    const up = (i - 1) >> 1;
    if (heap[up]![0] <= heap[i]![0]) break;
    [heap[up], heap[i]] = [heap[i]!, heap[up]!];
    i = up;
  }
}

function popped(heap: [number, number][]): [number, number] {
  const top = heap[0]!;
  const last = heap.pop()!;
  if (heap.length === 0) return top;
  heap[0] = last;
  for (let i = 0; ; ) {
    const [l, r] = [2 * i + 1, 2 * i + 2];
    let least = i;
    if (l < heap.length && heap[l]![0] < heap[least]![0]) least = l;
    if (r < heap.length && heap[r]![0] < heap[least]![0]) least = r;
    if (least === i) return top;
    [heap[i], heap[least]] = [heap[least]!, heap[i]!];
    i = least;
  }
}

/** Corners are left out where the straight line past them is clear. */
function smoothed(line: readonly Vec[], { clear }: Task): Vec[] {
  const out = [line[0]!];
  for (let i = 0; i < line.length - 1; ) {
    let next = line.length - 1;
    while (next > i + 1 && !isClear(line[i]!, line[next]!, clear)) next--;
    out.push(line[next]!);
    i = next;
  }
  return out;
}

function isClear(p: Vec, q: Vec, clear: Task['clear']): boolean {
  const steps = Math.ceil(distance(p, q) / 12);
  for (let n = 1; n < steps; n++) {
    const at = (k: 0 | 1 | 2) => p[k] + ((q[k] - p[k]) * n) / steps;
    if (clear.coarse(at(0), at(1), at(2)) < 0) return false;
  }
  return true;
}
