import {
  type CellGrid,
  type Vec,
  add,
  addScaled,
  cellCentre,
  cellOf,
  corridorCosts,
  corridorFrom,
  distance,
  dot,
  isReached,
  scale,
  sub,
  unit,
} from '#geometry';
import type { Clearance } from './clearance.ts';
import type { Span } from './span.ts';
import { type Tail, startOfBend } from './tails.ts';

/** A first guess for the refinement: both ends with their clocks, and a polyline from bend to bend. */
export interface Seed {
  readonly a: Tail;
  readonly phiA: number;
  readonly b: Tail;
  readonly phiB: number;
  readonly line: readonly Vec[];
  /** What this seed can be hoped to cost [mm]; only its order counts. */
  readonly hope: number;
  readonly from: 'shot' | 'corridor' | 'around' | 'detour' | 'poses' | 'near';
}

/** Length that turning by an angle costs beyond going straight, roughly, in radii. */
const turnLength = (angleRad: number): number => angleRad - Math.sin(angleRad) + 0.35 * (1 - Math.cos(angleRad));

const angleBetween = (a: Vec, b: Vec): number => Math.acos(Math.max(-1, Math.min(1, dot(a, b))));

interface Start {
  readonly tail: Tail;
  readonly phiRad: number;
  readonly point: Vec;
  readonly direction: Vec;
}

/** Every second clear clock of every tail, as a place and a direction. */
function starts(all: readonly Tail[], stride: number): Start[] {
  return all.flatMap((tail) =>
    tail.clocks
      .filter((_, i) => i % stride === 0)
      .map(({ phiRad }) => ({ tail, phiRad, ...startOfBend(tail, phiRad) })),
  );
}

const directCost = (a: Start, b: Start, radiusMm: number): number => {
  const span = sub(b.point, a.point);
  const chord = Math.max(1e-6, Math.hypot(...span));
  const along: Vec = [span[0] / chord, span[1] / chord, span[2] / chord];
  const turns = turnLength(angleBetween(a.direction, along)) + turnLength(Math.PI - angleBetween(b.direction, along));
  return chord + radiusMm * turns + a.tail.makeUp.cost + b.tail.makeUp.cost;
};

/** Direct shots: the best pair of clocks for each pair of make-ups, cheapest hope first. */
export function shots(span: Span, tailsA: readonly Tail[], tailsB: readonly Tail[]): Seed[] {
  const startsOf = (tail: Tail): Start[] => starts([tail], SHOT_STRIDE);
  const b = tailsB.map(startsOf);
  const seeds = tailsA.flatMap((tail) => {
    const from = startsOf(tail);
    return b.flatMap((to) => bestShot(from, to, span.minBendRadiusMm) ?? []);
  });
  return seeds.sort((p, q) => p.hope - q.hope);
}

/** Every so many of the clear clocks of a tail are shot from. */
const SHOT_STRIDE = 2;

function bestShot(a: readonly Start[], b: readonly Start[], radiusMm: number): Seed | null {
  let best: readonly [Start, Start] | null = null;
  let hope = Number.POSITIVE_INFINITY;
  for (const from of a)
    for (const to of b) {
      const cost = directCost(from, to, radiusMm);
      if (cost >= hope) continue;
      hope = cost;
      best = [from, to];
    }
  if (best === null) return null;
  const [from, to] = best;
  const ends = { a: from.tail, phiA: from.phiRad, b: to.tail, phiB: to.phiRad };
  return { ...ends, line: [from.point, to.point], hope, from: 'shot' };
}

/** Starts kept for the search, per tail: neighbouring clocks land in the same cells. */
const CLOCK_STRIDE = 3;
/** How far along a corridor its direction is judged, in bend radii. */
const JUDGED_RADII = 1.2;
/** Tenths of a cell per cell: the kernel's unit. */
const TENTHS = 10;

/**
 * Corridors from A to B through the grid, the cheapest first, then others: used cells take a toll. Each gives seeds
 * for the make-ups that leave and arrive along it best.
 */
export function corridorSeeds(
  span: Span,
  clear: Clearance,
  grid: CellGrid,
  tailsA: readonly Tail[],
  tailsB: readonly Tail[],
  want: { readonly corridors: number; readonly pairs: number },
): Seed[] {
  const a = starts(tailsA, CLOCK_STRIDE);
  const b = starts(tailsB, CLOCK_STRIDE);
  const seeds: Seed[] = [];
  const tolled = { ...grid, toll: Uint8Array.from(grid.toll) };
  for (let n = 0; n < want.corridors; n++) {
    const cost = corridorCosts(
      tolled,
      b.map((s) => ({ cell: cellOf(grid, ...s.point), cost: Math.round((s.tail.makeUp.cost / grid.cellMm) * TENTHS) })),
    );
    const from = cheapestStart(a, grid, cost);
    if (from === null) break;
    const cells = corridorFrom(tolled, cost, cellOf(grid, ...from.point));
    if (cells.length === 0) break;
    const line = tautened(
      cells.map((c) => cellCentre(grid, c)),
      clear,
    );
    seeds.push(...seedsAlong(span, line, a, b, want.pairs, n === 0 ? 'corridor' : 'around'));
    takeToll(tolled, cells, span);
  }
  return seeds;
}

function cheapestStart(a: readonly Start[], grid: CellGrid, cost: Int32Array): Start | null {
  let best: Start | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const start of a) {
    const cell = cellOf(grid, ...start.point);
    if (cell < 0 || !isReached(cost, cell)) continue;
    const total = cost[cell]! + (start.tail.makeUp.cost / grid.cellMm) * TENTHS;
    if (total < least) {
      least = total;
      best = start;
    }
  }
  return best;
}

/** Makes cells near a used corridor dear, but not those beside the ends, which every way needs. */
function takeToll(grid: CellGrid, cells: readonly number[], span: Span): void {
  const reach = Math.ceil(span.odMm / grid.cellMm) + 1;
  const spared = span.minBendRadiusMm;
  for (const cell of cells) {
    const centre = cellCentre(grid, cell);
    if (distance(centre, span.a.at) < spared || distance(centre, span.b.at) < spared) continue;
    for (let z = -reach; z <= reach; z++)
      for (let y = -reach; y <= reach; y++)
        for (let x = -reach; x <= reach; x++) {
          const other = cellOf(
            grid,
            centre[0] + x * grid.cellMm,
            centre[1] + y * grid.cellMm,
            centre[2] + z * grid.cellMm,
          );
          if (other >= 0) grid.toll[other] = Math.min(255, grid.toll[other]! + USED_TOLL);
        }
  }
}

/** Sixteenths of a step added to each cell near a corridor already tried; cells near several corridor cells add up. */
const USED_TOLL = 3;

/** Pulls a stepped corridor taut: points that the room lets one skip are skipped. */
function tautened(cells: readonly Vec[], clear: Clearance): Vec[] {
  const line: Vec[] = [];
  let at = 0;
  while (at < cells.length) {
    line.push(cells[at]!);
    if (at === cells.length - 1) break;
    let next = cells.length - 1;
    while (next > at + 1 && !isClear(cells[at]!, cells[next]!, clear))
      next = at + Math.max(1, Math.floor((next - at) / 2));
    at = next;
  }
  return line;
}

const CLEAR_STEP_MM = 12;

function isClear(p: Vec, q: Vec, clear: Clearance): boolean {
  const steps = Math.ceil(distance(p, q) / CLEAR_STEP_MM);
  for (let n = 1; n < steps; n++) {
    const at = addScaled(p, sub(q, p), n / steps);
    if (clear.coarse(at[0], at[1], at[2]) < 0) return false;
  }
  return true;
}

/** How far a detour goes off the middle between the ends, in bend radii, and in how many directions. */
const DETOUR_RADII = [0.8, 1.1, 1.5, 2.2] as const;
const DETOUR_DIRECTIONS: readonly Vec[] = [
  [0, 0, 1],
  [0, 0, -1],
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  ...([1, -1] as const).flatMap((x) =>
    ([1, -1] as const).flatMap((y) => ([0.7, -0.7] as const).map((z): Vec => unit([x, y, z]))),
  ),
];
const DETOUR_PAIRS = 3;

/** Seeds by a place well off the direct way: a hose between close fittings needs a loop to have any give. */
export function detourSeeds(span: Span, clear: Clearance, tailsA: readonly Tail[], tailsB: readonly Tail[]): Seed[] {
  const a = starts(tailsA, CLOCK_STRIDE);
  const b = starts(tailsB, CLOCK_STRIDE);
  const middle = scale(add(span.a.at, span.b.at), 0.5);
  const vias = DETOUR_RADII.flatMap((radii) =>
    DETOUR_DIRECTIONS.map((d) => addScaled(middle, d, radii * span.minBendRadiusMm)),
  );
  return vias
    .filter((via) => clear.coarse(...via) > 0)
    .flatMap((via) => seedsAlong(span, [via], a, b, DETOUR_PAIRS, 'detour'));
}

/** Seeds along one corridor: the make-ups whose tails point along it at their best clock. */
function seedsAlong(
  span: Span,
  line: readonly Vec[],
  a: readonly Start[],
  b: readonly Start[],
  pairs: number,
  from: Seed['from'],
): Seed[] {
  const judged = span.minBendRadiusMm * JUDGED_RADII;
  const tailsKept = Math.max(LEAST_TAILS, Math.ceil(pairs / 3));
  const bestA = bestStarts(a, pointAlong(line, judged), span.minBendRadiusMm, tailsKept);
  const reversed = [...line].reverse();
  const bestB = bestStarts(b, pointAlong(reversed, judged), span.minBendRadiusMm, tailsKept);
  const seeds: Seed[] = [];
  for (const p of bestA)
    for (const q of bestB) {
      const inner = line.length === 1 ? line : line.slice(1, -1);
      seeds.push({
        a: p.start.tail,
        phiA: p.start.phiRad,
        b: q.start.tail,
        phiB: q.start.phiRad,
        line: [p.start.point, ...inner, q.start.point],
        hope: p.cost + q.cost,
        from,
      });
    }
  return seeds.sort((p, q) => p.hope - q.hope).slice(0, pairs);
}

/** Tails kept at either end of a corridor, at least. */
const LEAST_TAILS = 4;

function bestStarts(
  all: readonly Start[],
  towards: Vec,
  radiusMm: number,
  most: number,
): { start: Start; cost: number }[] {
  const best = new Map<Tail, { start: Start; cost: number }>();
  for (const start of all) {
    const to = sub(towards, start.point);
    const far = Math.hypot(...to);
    const cost =
      start.tail.makeUp.cost + far + (far < 1 ? 0 : radiusMm * turnLength(angleBetween(start.direction, unit(to))));
    const kept = best.get(start.tail);
    if (kept === undefined || cost < kept.cost) best.set(start.tail, { start, cost });
  }
  return [...best.values()].sort((p, q) => p.cost - q.cost).slice(0, most);
}

function pointAlong(line: readonly Vec[], alongMm: number): Vec {
  let left = alongMm;
  for (let i = 1; i < line.length; i++) {
    const step = distance(line[i - 1]!, line[i]!);
    if (step >= left) return addScaled(line[i - 1]!, sub(line[i]!, line[i - 1]!), left / Math.max(step, 1e-9));
    left -= step;
  }
  return line.at(-1)!;
}
