import { type CellGrid, type CorridorWave, type Vec, cellOf, corridorWave, isCorridor } from '#geometry';
import { COARSE_MM } from './bricks.ts';
import type { Clearance } from './clearance.ts';
import { LOOKS, type Move, lengthToGo, movesOf, perpendiculars } from './pose-moves.ts';
import { CellCosts, HEADING_BINS, LeastFirst, PoseStore, headingBin, placeKey } from './pose-store.ts';
import type { Seed } from './seeds.ts';
import type { Span } from './span.ts';
import { type Tail, startOfBend } from './tails.ts';

export interface PoseWant {
  readonly seeds: number;
  /** Poses gone on from, at most. */
  readonly expansions: number;
  /** What is promised of the way left against its corridor: below 1 cheap ways come first, above 1 quick answers. */
  readonly promise: number;
  /** With less room than this a place does not count as a way [mm]: less than none, as poses are few and a curve may give. */
  readonly leastRoomMm: number;
  /** Seeds for one pair of make-ups, and by one place in the middle, at most: ways that differ are wanted. */
  readonly aPair: number;
  readonly aMiddle: number;
}

/** Bend radius of the arcs over the hose's least, and the length of a piece in those radii. */
const ROOMY = 1.05;
const PIECE_RADII = 0.5;
/** Side of a pose's cell, in pieces. */
const CELL_PIECES = 0.6;
/** Each mm of room below this costs so much a mm of hose. */
const ROOM_MM = 4;
const LACK_COST = 0.1;
const CLOSE_MM = 10;
/** How far from B's pose in pieces, and how far turned from it, the search has arrived. */
const ARRIVED_PIECES = 0.9;
const ARRIVED_COS = Math.cos((32 * Math.PI) / 180);
/** What each mm aside counts on arriving [mm], and each radian off [radii]. */
const ASIDE_COST = 0.6;
const OFF_COST = 0.5;
/** Clear clocks of each tail that are tried, about. */
const TAIL_CLOCKS = 8;
/** What a pair's ends cost more for each seed that they gave before [mm], and a mm of hose near the middle of an earlier way. */
const TAIL_TOLL_MM = 12;
const WAY_TOLL = 0.35;

interface End {
  readonly tail: Tail;
  readonly tailIndex: number;
  readonly phiRad: number;
  readonly point: Vec;
  readonly direction: Vec;
  readonly cost: number;
}

interface Found {
  readonly a: number;
  readonly b: number;
  readonly seed: Seed;
}

interface Arrival {
  readonly pose: number;
  readonly end: number;
  readonly cost: number;
}

const endsOf = (all: readonly Tail[]): End[] =>
  all.flatMap((tail, tailIndex) =>
    tail.clocks
      .filter((_, i) => i % Math.max(1, Math.floor(tail.clocks.length / TAIL_CLOCKS)) === 0)
      .map(({ phiRad }) => ({
        tail,
        tailIndex,
        phiRad,
        ...startOfBend(tail, phiRad),
        cost: tail.makeUp.cost + tail.makeUp.lengthMm + tail.pose.straightMm,
      })),
  );

/**
 * Best-first search over poses, places with a heading: from every clear clock of A's make-ups by short straights and arcs to a
 * pose of B's. What it finds turns no tighter than the hose may, so that it leads a refinement to a curve far more often
 * than a corridor of cells does. Of the poses of one cell and bin of headings the cheapest goes on.
 */
export class PoseSearch {
  private readonly clear: Clearance;
  private readonly grid: CellGrid;
  private readonly a: readonly End[];
  private readonly b: readonly End[];
  private readonly radius: number;
  private readonly piece: number;
  private readonly moves: readonly Move[];
  private readonly toGo: CorridorWave;
  private readonly endsByCell = new Map<number, number[]>();
  /** Poses of B, one of those that are much alike: place, direction out of B, cost. */
  private readonly targets: Float64Array;
  private readonly here = new Float64Array(6);
  private readonly next = new Float64Array(6);
  private readonly sides = new Float64Array(6);
  private readonly reading = new Float64Array(4);
  // What follows is anew for each search.
  private promised = 1;
  private leastRoomMm = 0;
  private poses = new PoseStore();
  private best = new CellCosts();
  private open = new LeastFirst();
  private arrivals: Arrival[] = [];
  private taken = new Map<string, number>();
  /** How often each tail gave a seed, and places that earlier ways pass. */
  private readonly tails = new Map<string, number>();
  private readonly ways = new Map<number, number>();
  /** Poses gone on from, over all searches. */
  expansions = 0;

  constructor(
    span: Span,
    clear: Clearance,
    grid: CellGrid,
    tailsA: readonly Tail[],
    tailsB: readonly Tail[],
    radiusFactor = ROOMY,
  ) {
    this.clear = clear;
    this.grid = grid;
    this.a = endsOf(tailsA);
    this.b = endsOf(tailsB);
    this.radius = span.minBendRadiusMm * radiusFactor;
    this.piece = this.radius * PIECE_RADII;
    this.moves = movesOf(this.piece, this.radius);
    const cells = this.b.map((end) => ({
      cell: cellOf(grid, ...end.point),
      cost: Math.round((TENTHS * end.cost) / grid.cellMm),
    }));
    this.toGo = corridorWave(grid, cells);
    const seen = new Set<number>();
    const targets: number[] = [];
    for (const [n, end] of this.b.entries()) {
      const like = placeKey(...end.point, this.piece) * HEADING_BINS + headingBin(...end.direction);
      if (!seen.has(like)) targets.push(...end.point, ...end.direction, end.cost);
      seen.add(like);
      const key = placeKey(...end.point, this.piece);
      const kept = this.endsByCell.get(key);
      if (kept === undefined) this.endsByCell.set(key, [n]);
      else kept.push(n);
    }
    this.targets = Float64Array.from(targets);
  }

  /** Seeds in the order they are found. */
  seeds(want: PoseWant): Seed[] {
    this.begin(want);
    const found: Found[] = [];
    const last = this.expansions + want.expansions;
    while (found.length < want.seeds && this.expansions < last) {
      const n = this.open.pop();
      if (n === null) break;
      if (n < 0) {
        const seed = this.seedOf(this.arrivals[-n - 1]!, want);
        if (seed !== null) found.push(seed);
        continue;
      }
      this.poses.read(n, this.here);
      const key = this.keyOf(this.here);
      if (!this.best.close(key)) continue;
      this.expansions++;
      this.arrive(n);
      this.goOn(n);
    }
    this.remember(found);
    return found.map(({ seed }) => seed);
  }

  private begin({ promise, leastRoomMm }: PoseWant): void {
    this.promised = promise;
    this.leastRoomMm = leastRoomMm;
    this.poses = new PoseStore();
    this.best = new CellCosts();
    this.open = new LeastFirst();
    this.arrivals = [];
    this.taken = new Map();
    for (const [n, end] of this.a.entries()) {
      this.next.set(end.point);
      this.next.set(end.direction, 3);
      this.offer(this.keyOf(this.next), end.cost + this.tailToll(`a ${end.tailIndex}`), -1, n);
    }
  }

  private tailToll(key: string): number {
    return TAIL_TOLL_MM * (this.tails.get(key) ?? 0);
  }

  /** Later searches go elsewhere, or from other ends. */
  private remember(found: readonly Found[]): void {
    const once = (counts: Map<string, number>, key: string): void => void counts.set(key, (counts.get(key) ?? 0) + 1);
    for (const { a, b } of found) {
      once(this.tails, `a ${a}`);
      once(this.tails, `b ${b}`);
    }
    const passed = new Set<number>();
    for (const { seed } of found)
      for (const at of seed.line.slice(seed.line.length >> 2, -(seed.line.length >> 2) || undefined))
        passed.add(placeKey(...at, this.piece));
    for (const key of passed) this.ways.set(key, (this.ways.get(key) ?? 0) + 1);
  }

  private keyOf(pose: Float64Array): number {
    return (
      placeKey(pose[0]!, pose[1]!, pose[2]!, this.piece * CELL_PIECES) * HEADING_BINS +
      headingBin(pose[3]!, pose[4]!, pose[5]!)
    );
  }

  /** Puts the next pose in the queue, if none as cheap has its cell and a corridor leads on from it. */
  private offer(key: number, cost: number, from: number, start: number): void {
    if (this.best.costOf(key) <= cost) return;
    const corridor = this.toGoFrom(this.next[0]!, this.next[1]!, this.next[2]!);
    if (corridor === Infinity) return;
    this.best.set(key, cost);
    this.open.push(
      cost + this.promised * lengthToGo(this.next, this.targets, this.radius, corridor),
      this.poses.add(this.next, cost, from, start),
    );
  }

  /** Length of the corridor that leads on, and what B's end costs [mm]. */
  private toGoFrom(x: number, y: number, z: number): number {
    const { grid, toGo } = this;
    const cell = cellOf(grid, x, y, z);
    if (cell < 0) return Infinity;
    const own = toGo.costOf(cell);
    if (isCorridor(own)) return (own * grid.cellMm) / TENTHS;
    // A hose may pass beside the centre of a cell that is taken.
    let least = Infinity;
    for (const dz of AROUND)
      for (const dy of AROUND)
        for (const dx of AROUND) {
          const other = cellOf(grid, x + dx * grid.cellMm, y + dy * grid.cellMm, z + dz * grid.cellMm);
          const cost = other < 0 ? Infinity : toGo.costOf(other);
          if (isCorridor(cost) && cost < least) least = cost;
        }
    return (least / TENTHS + 1) * grid.cellMm;
  }

  private goOn(n: number): void {
    perpendiculars(this.here, this.sides);
    const cost = this.poses.costOf(n);
    const start = this.poses.startOf(n);
    for (const move of this.moves) this.goAlong(n, move, cost, start);
  }

  /** A piece on from here: its end is offered if there is room along it. */
  private goAlong(n: number, move: Move, before: number, start: number): void {
    const { here, next, sides, piece } = this;
    const sx = move.u * sides[0]! + move.v * sides[3]!;
    const sy = move.u * sides[1]! + move.v * sides[4]!;
    const sz = move.u * sides[2]! + move.v * sides[5]!;
    next[0] = here[0]! + move.on[0]! * here[3]! + move.off[0]! * sx;
    next[1] = here[1]! + move.on[0]! * here[4]! + move.off[0]! * sy;
    next[2] = here[2]! + move.on[0]! * here[5]! + move.off[0]! * sz;
    next[3] = move.cos * here[3]! + move.sin * sx;
    next[4] = move.cos * here[4]! + move.sin * sy;
    next[5] = move.cos * here[5]! + move.sin * sz;
    const passes = this.ways.size === 0 ? 0 : (this.ways.get(placeKey(next[0], next[1], next[2], piece)) ?? 0);
    const toll = WAY_TOLL * passes;
    const least = before + piece * (1 + toll);
    const key = this.keyOf(next);
    if (this.best.costOf(key) <= least) return;
    let lack = 0;
    let closest = Infinity;
    // The end, the middle; and between them where something is close: walls are thin.
    for (let look = 0; look < LOOKS.length; look++) {
      if (look > 1 && closest > CLOSE_MM) break;
      const on = move.on[look]!;
      const off = move.off[look]!;
      const room = this.roomAt(
        here[0]! + on * here[3]! + off * sx,
        here[1]! + on * here[4]! + off * sy,
        here[2]! + on * here[5]! + off * sz,
      );
      if (room < this.leastRoomMm) return;
      if (room < closest) closest = room;
      if (ROOM_MM - room > lack) lack = ROOM_MM - room;
    }
    this.offer(key, least + piece * LACK_COST * lack, n, start);
  }

  /** Room at a place [mm], no more than matters. */
  private roomAt(x: number, y: number, z: number): number {
    const about = this.clear.coarse(x, y, z);
    if (about > CLOSE_MM + COARSE_OFF_MM) return about - COARSE_OFF_MM;
    if (about < this.leastRoomMm - COARSE_OFF_MM) return about + COARSE_OFF_MM;
    this.clear.slackAndGradient(x, y, z, this.reading);
    return this.reading[0]!;
  }

  /** Poses of B that this one has come to, about. */
  private arrive(n: number): void {
    const { here, piece } = this;
    for (const dz of AROUND)
      for (const dy of AROUND)
        for (const dx of AROUND) {
          const key = placeKey(here[0]! + dx * piece, here[1]! + dy * piece, here[2]! + dz * piece, piece);
          for (const end of this.endsByCell.get(key) ?? []) this.arriveAt(n, end);
        }
  }

  private arriveAt(n: number, index: number): void {
    const { here, piece } = this;
    const { point, direction, tailIndex, cost: endCost } = this.b[index]!;
    const dx = point[0] - here[0]!;
    const dy = point[1] - here[1]!;
    const dz = point[2] - here[2]!;
    const square = dx * dx + dy * dy + dz * dz;
    if (square > (piece * ARRIVED_PIECES) ** 2) return;
    const same = -(here[3]! * direction[0] + here[4]! * direction[1] + here[5]! * direction[2]);
    if (same < ARRIVED_COS) return;
    const on = dx * here[3]! + dy * here[4]! + dz * here[5]!;
    const aside = Math.sqrt(Math.max(0, square - on * on));
    const cost =
      this.poses.costOf(n) +
      endCost +
      this.tailToll(`b ${tailIndex}`) +
      Math.abs(on) +
      ASIDE_COST * aside +
      OFF_COST * this.radius * Math.acos(Math.min(1, same));
    this.arrivals.push({ pose: n, end: index, cost });
    this.open.push(cost, -this.arrivals.length);
  }

  private seedOf({ pose, end, cost }: Arrival, { aPair, aMiddle }: PoseWant): Found | null {
    const { poses } = this;
    const line: Vec[] = [];
    const at = new Float64Array(6);
    for (let n = pose; n >= 0; n = poses.from(n)) {
      poses.read(n, at);
      line.unshift([at[0]!, at[1]!, at[2]!]);
    }
    const a = this.a[poses.startOf(pose)]!;
    const b = this.b[end]!;
    const middle = line[line.length >> 1]!;
    const isOneMore = (key: string, most: number): boolean => {
      const before = this.taken.get(key) ?? 0;
      this.taken.set(key, before + 1);
      return before < most;
    };
    if (!isOneMore(`by ${placeKey(...middle, 2 * this.piece)}`, aMiddle)) return null;
    if (!isOneMore(`${a.tailIndex} to ${b.tailIndex}`, aPair)) return null;
    // The last pose lies about where B's begins.
    const knots = [a.point, ...line.slice(1, -1), b.point];
    const ends = { a: a.tail, phiA: a.phiRad, b: b.tail, phiB: b.phiRad };
    return { a: a.tailIndex, b: b.tailIndex, seed: { ...ends, line: knots, hope: cost, from: 'poses' } };
  }
}

/** How far a place of a coarse cell is from its centre at most [mm]. */
const COARSE_OFF_MM = (COARSE_MM * Math.sqrt(3)) / 2;

const TENTHS = 10;
const AROUND = [-1, 0, 1] as const;
