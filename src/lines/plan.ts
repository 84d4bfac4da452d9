import type { Car, Duty, Line } from '#car';
import { type Body, LineObstacles, pathsGap, type Vec } from '#geometry';
import type { Way } from './way.ts';

/** What the planner made of one line. */
export interface PlannedLine {
  readonly line: string;
  readonly taken: Way | null;
  /** The way taken, or the least bad one. */
  readonly best: Way;
}

export interface LineGap {
  readonly a: string;
  readonly b: string;
  readonly gapMm: number;
  readonly keepOffMm: number;
  readonly atMm: Vec;
}

export interface Planned {
  readonly lines: readonly PlannedLine[];
  /** Gaps between lines nearer than 150 mm to each other. */
  readonly lineGaps: readonly LineGap[];
  /** Lines taken up again to make room for others. */
  readonly takenUp: number;
  /** Set where the work was stopped: the answer is not the whole one. */
  readonly stopped: boolean;
}

/** Works out the ways of one line among placed ones: feasible first, cheapest first; never empty. */
export type LineSolver = (line: Line, placed: LineObstacles, count: number) => readonly Way[];

export interface PlanWants {
  readonly solve: LineSolver;
  /** Bodies of a way as solids, for obstacles. */
  readonly bodies: (way: Way) => readonly Body[];
  /** Bodies of lines that are bought, made or fitted: obstacles that are never moved. */
  readonly made: ReadonlyMap<string, readonly Body[]>;
  readonly lineKeepOffMm: number;
  /** The best way of a line among placed ones, begun now and asked for later. */
  readonly ahead?: Ahead;
  /** Will placing the line among these take a search of its own? Only such lines are worked out ahead of their turn. */
  readonly isHeavy?: (line: Line, placed: LineObstacles) => boolean;
  readonly watch?: (done: number, total: number) => boolean;
}

/**
 * Begins to work a line out among placed ones as they stand now; the answer is had by the call that comes back. `isIdle` tells that the
 * caller would only wait otherwise, for another that was begun before.
 */
export type Ahead = (line: Line, placed: LineObstacles, isIdle: boolean) => () => Way;

/**
 * Which lines go first: what must fall or is stiff, then what is thick, then what is dangerous to move. Common practice, no
 * source: drain, scavenge, pressure, water, fuel, vents, brake and clutch.
 */
const TURN: Readonly<Record<Duty, number>> = {
  'oil-drain': 0,
  'charge-air': 1,
  water: 2,
  'oil-suction': 3,
  'oil-scavenge': 4,
  'oil-return': 5,
  'oil-pressure': 6,
  fuel: 7,
  'fuel-return': 8,
  brake: 9,
  clutch: 9,
  'oil-vent': 10,
  'water-bleed': 11,
  'fuel-vent': 12,
  air: 13,
};

export function inTurn(lines: readonly Line[]): Line[] {
  const size = (line: Line) => line.boreMm ?? (line.dash ?? 0) * 1.5875;
  return [...lines].sort((p, q) => TURN[p.duty] - TURN[q.duty] || size(q) - size(p) || (p.id < q.id ? -1 : 1));
}

/** Lines in the queue that are looked at for one to work out ahead. */
const LOOK_AHEAD = 8;
/** Takings-up allowed, per planned line. */
const TAKE_UPS_PER_LINE = 2;
const LISTED_MM = 150;
/** Ways looked at where a line must push others aside. */
const CHOICES = 3;

/** All planned lines together: each in turn round those placed; one that finds no room pushes the cheapest to move aside. */
export function plan(car: Car, wants: PlanWants): Planned {
  const planned = inTurn(car.lines.filter((line) => line.state === 'planned'));
  const bench = new Bench(wants);
  const queue = [...planned];
  const most = TAKE_UPS_PER_LINE * planned.length;
  let stopped = false;
  while (queue.length > 0) {
    if (wants.watch?.(bench.placed.size + bench.refused.size, planned.length) === false) {
      stopped = true;
      break;
    }
    const line = queue.shift()!;
    bench.workAhead(line, queue);
    const pushed = bench.place(line, bench.takenUp < most);
    for (const id of pushed) queue.unshift(planned.find((l) => l.id === id)!);
  }
  if (!stopped) bench.retryRefused(planned);
  wants.watch?.(planned.length, planned.length);
  const lines = planned
    .map((line) => bench.answer(line))
    .filter((answer) => answer !== null)
    .sort((p, q) => order(car, p.line) - order(car, q.line));
  return { lines, lineGaps: lineGaps(car, bench.solids, wants.lineKeepOffMm), takenUp: bench.takenUp, stopped };
}

const order = (car: Car, id: string): number => car.lines.findIndex((line) => line.id === id);

class Bench {
  readonly obstacles = new LineObstacles();
  readonly placed = new Map<string, Way>();
  /** Bodies of all that stands: made lines and placed ones. */
  readonly solids = new Map<string, readonly Body[]>();
  readonly refused = new Map<string, Way>();
  takenUp = 0;
  /** Lines without a way even by themselves. */
  private readonly hopeless = new Set<string>();
  private readonly begun = new Map<string, { readonly way: () => Way; readonly takenUp: number }>();
  private readonly pushes = new Map<string, number>();
  private readonly onlyMade = new LineObstacles();
  private readonly wants: PlanWants;

  constructor(wants: PlanWants) {
    this.wants = wants;
    for (const [id, bodies] of wants.made) {
      this.solids.set(id, bodies);
      this.obstacles.add(id, bodies);
      this.onlyMade.add(id, bodies);
    }
  }

  /**
   * While a heavy line is worked out, the next heavy one is too, among the lines placed so far. Which are worked out ahead
   * depends on the lines only, never on who has time: the plan is the same on any number of threads.
   */
  workAhead(line: Line, queue: readonly Line[]): void {
    const { ahead, isHeavy } = this.wants;
    if (ahead === undefined || isHeavy === undefined || !isHeavy(line, this.obstacles)) return;
    const next = queue.slice(0, LOOK_AHEAD).find((other) => isHeavy(other, this.obstacles));
    if (next !== undefined && !this.begun.has(next.id))
      this.begun.set(next.id, {
        way: ahead(next, this.obstacles, this.begun.has(line.id)),
        takenUp: this.takenUp,
      });
  }

  /**
   * The way worked out ahead, where it still tells: one that is clear of what has been placed since, or none found while lines have
   * only been added since, which make no room.
   */
  private begunWay(line: Line): Way | null {
    const begun = this.begun.get(line.id);
    const way = begun?.way();
    this.begun.delete(line.id);
    if (way === undefined) return null;
    if (!way.feasible) return begun!.takenUp === this.takenUp ? way : null;
    return this.obstacles.gaps(this.wants.bodies(way), this.wants.lineKeepOffMm).length === 0 ? way : null;
  }

  /** Places the line; returns the lines it pushed aside. */
  place(line: Line, mayPush: boolean): readonly string[] {
    const best = this.begunWay(line) ?? this.wants.solve(line, this.obstacles, 1)[0]!;
    if (best.feasible) {
      this.put(line.id, best);
      return [];
    }
    // What has no way even among made lines only will not get one by pushing others aside.
    const push = mayPush && !this.hopeless.has(line.id) ? this.cheapestPush(line) : null;
    if (push === null) {
      this.refused.set(line.id, best);
      return [];
    }
    for (const id of push.aside) {
      this.takeUp(id);
      this.pushes.set(id, (this.pushes.get(id) ?? 0) + 1);
    }
    this.put(line.id, push.way);
    return push.aside;
  }

  /** Of the line's ways with only made lines standing, the one that pushes the least often pushed lines aside. */
  private cheapestPush(line: Line): { way: Way; aside: string[] } | null {
    let best: { way: Way; aside: string[]; price: number } | null = null;
    const alone = this.wants.solve(line, this.onlyMade, CHOICES);
    if (!alone[0]!.feasible) this.hopeless.add(line.id);
    for (const way of alone) {
      if (!way.feasible) continue;
      const bodies = this.wants.bodies(way);
      const aside = this.obstacles
        .gaps(bodies, this.wants.lineKeepOffMm)
        .map((gap) => gap.id)
        .filter((id) => !this.wants.made.has(id));
      if (aside.some((id) => (this.pushes.get(id) ?? 0) >= MOST_PUSHES)) continue;
      const price = aside.reduce((sum, id) => sum + PUSH_PRICE_MM * 2 ** (this.pushes.get(id) ?? 0), way.cost);
      if (best === null || price < best.price) best = { way, aside, price };
    }
    return best;
  }

  private put(id: string, way: Way): void {
    this.placed.set(id, way);
    this.refused.delete(id);
    const bodies = this.wants.bodies(way);
    this.solids.set(id, bodies);
    this.obstacles.add(id, bodies);
  }

  private takeUp(id: string): void {
    this.placed.delete(id);
    this.solids.delete(id);
    this.obstacles.remove(id);
    this.takenUp++;
  }

  /** Lines refused early may fit now that others have moved. */
  retryRefused(lines: readonly Line[]): void {
    for (const line of lines) {
      if (!this.refused.has(line.id) || this.hopeless.has(line.id)) continue;
      const [way] = this.wants.solve(line, this.obstacles, 1);
      if (way!.feasible) this.put(line.id, way!);
    }
  }

  answer(line: Line): PlannedLine | null {
    const taken = this.placed.get(line.id) ?? null;
    const best = taken ?? this.refused.get(line.id);
    return best === undefined ? null : { line: line.id, taken, best };
  }
}

/** A line pushed aside this often stays where it is: two lines that want one place would push each other for ever. */
const MOST_PUSHES = 2;

/** What pushing a line aside counts against a longer way [mm]; doubled each time the same line is pushed. */
const PUSH_PRICE_MM = 150;

/** Gaps of all placed and made lines to each other, on their true bodies. */
export function lineGaps(car: Car, solids: ReadonlyMap<string, readonly Body[]>, lineKeepOffMm: number): LineGap[] {
  const ids = [...solids.keys()].sort((p, q) => order(car, p) - order(car, q));
  const gaps: LineGap[] = [];
  for (const [i, a] of ids.entries())
    for (const b of ids.slice(i + 1)) {
      const gap = pathsGap(solids.get(a)!, solids.get(b)!, LISTED_MM);
      if (gap.gapMm >= LISTED_MM) continue;
      gaps.push({ a, b, gapMm: gap.gapMm, keepOffMm: lineKeepOffMm, atMm: gap.at });
    }
  return gaps;
}
