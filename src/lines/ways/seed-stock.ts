import type { CellGrid } from '#geometry';
import { type Clearance, corridorGrid } from './clearance.ts';
import { PoseSearch, type PoseWant } from './pose-search.ts';
import { nearSeeds } from './near-seeds.ts';
import { type Seed, corridorSeeds, detourSeeds, shots } from './seeds.ts';
import type { Span } from './span.ts';
import type { Tail } from './tails.ts';

/**
 * Where seeds come from, in the order they are asked for: along the way it lay before, where it did; for a first answer one at a time, then rounds of poses, each by other ways and from other ends than those before it; the
 * likeliest; more of them, on a grid that closes walls; those that bend no tighter than is asked, as a hose with some length to spare hangs; and those that go wide, a batch at a time.
 */
export type SeedKind =
  | 'near'
  | `shot ${number}`
  | `pose ${number}`
  | `${RoundKind} ${number}`
  | 'direct'
  | 'further'
  | 'gentle'
  | (typeof WIDE)[number];
type RoundKind = 'round' | 'gentle round' | 'fine round';
export const WIDE = ['wide 1', 'wide 2', 'wide 3', 'wide 4'] as const;

export const DIRECT_POSES: readonly PoseWant[] = [
  { seeds: 12, expansions: 3000, promise: 1.2, leastRoomMm: -6, aPair: 2, aMiddle: 5 },
  { seeds: 12, expansions: 8000, promise: 0.95, leastRoomMm: -2, aPair: 2, aMiddle: 5 },
];
/** For a first answer: a search that gives up early. */
const FIRST_POSES: PoseWant = { ...DIRECT_POSES[0]!, seeds: 4, expansions: 1500 };
const FURTHER_POSES: readonly PoseWant[] = [-1, -4, 0, -3].map((leastRoomMm) => ({
  seeds: 10,
  expansions: 6000,
  promise: 1.1,
  leastRoomMm,
  aPair: 1,
  aMiddle: 5,
}));
/** The same, a round at a time, and sooner given up. */
const ROUND_POSES: readonly PoseWant[] = FURTHER_POSES.map((want) => ({ ...want, expansions: 3000 }));
/** Least bend radii that gentle rounds turn on. */
const GENTLE_ROUND = 1.4;
const GENTLE_POSES = FURTHER_POSES.slice(0, 3);
/** Direct shots, corridors and the pairs of ends along each. */
const SHOTS = 8;
const FEW = { corridors: 1, pairs: 6 } as const;
const MANY = { corridors: 6, pairs: 8 } as const;
/** Seeds that go wide, in each batch. */
const BATCH = 36;
/** The box searched round both ends, tried in turn [mm]. */
const ROUND_MM = [250, 600] as const;
/** The same for a first answer: ways that go farther round are left to later rounds. */
const FIRST_ROUND_MM = 120;
/** The same for the finer grid, and its cells: walls are closed on it. */
const FINE_ROUND_MM = 150;
const FINE_MM = 12;

/** The seeds of a hose from A to B, each kind found once. */
export class SeedStock {
  private readonly span: Span;
  private readonly clear: Clearance;
  private readonly tailsA: readonly Tail[];
  private readonly tailsB: readonly Tail[];
  /** Direct shots, cheapest hope first. */
  readonly shots: readonly Seed[];
  private readonly found = new Map<string, readonly Seed[]>();
  private wide: readonly Seed[] | null = null;
  private fine: CellGrid | null = null;
  private firstPoses: readonly Seed[] | null = null;
  /** Searches that go on from round to round. */
  private readonly searches = new Map<RoundKind, PoseSearch>();
  private readonly coarse = new Map<number, CellGrid>();
  /** Cells and poses looked at. */
  cells = 0;

  constructor(span: Span, clear: Clearance, tailsA: readonly Tail[], tailsB: readonly Tail[]) {
    this.span = span;
    this.clear = clear;
    this.tailsA = tailsA;
    this.tailsB = tailsB;
    this.shots = shots(span, tailsA, tailsB);
  }

  /** Seeds of a kind; gentle ones turn on this many of the least bend radii. */
  of(kind: SeedKind, radiusFactor: number): readonly Seed[] {
    const key = kind === 'gentle' ? `${kind} ${radiusFactor}` : kind;
    const kept = this.found.get(key);
    if (kept !== undefined) return kept;
    const seeds = this.seedsOf(kind, radiusFactor);
    this.found.set(key, seeds);
    return seeds;
  }

  private seedsOf(kind: SeedKind, radiusFactor: number): readonly Seed[] {
    switch (kind) {
      case 'near': {
        const { near } = this.span;
        return near === undefined ? [] : nearSeeds(this.span, near, this.tailsA, this.tailsB);
      }
      case 'direct':
        return [
          ...this.poses(DIRECT_POSES, this.coarseGrid(ROUND_MM[0])),
          ...this.shots.slice(0, SHOTS),
          ...this.corridors(FEW),
        ];
      case 'further':
        return [...this.poses(FURTHER_POSES, this.fineGrid()), ...this.corridors(MANY)];
      case 'gentle':
        return this.poses(GENTLE_POSES, this.fineGrid(), radiusFactor);
      default:
        return kind.startsWith('wide') ? this.wideSeeds(kind) : this.seedsInTurn(kind);
    }
  }

  private wideSeeds(kind: SeedKind): readonly Seed[] {
    this.wide ??= [
      ...detourSeeds(this.span, this.clear, this.tailsA, this.tailsB),
      ...this.shots.slice(SHOTS, 2 * SHOTS),
    ].sort((p, q) => p.hope - q.hope);
    const batch = WIDE.findIndex((name) => name === kind);
    return this.wide.slice(batch * BATCH, (batch + 1) * BATCH);
  }

  /** Kinds with a number: the seed of that number, or the round. */
  private seedsInTurn(kind: SeedKind): readonly Seed[] {
    const at = kind.lastIndexOf(' ');
    const n = Number(kind.slice(at)) - 1;
    const name = kind.slice(0, at);
    if (name === 'shot') return this.shots.slice(n, n + 1);
    if (name === 'pose') {
      this.firstPoses ??= this.poses([FIRST_POSES], this.coarseGrid(FIRST_ROUND_MM));
      return this.firstPoses.slice(n, n + 1);
    }
    return this.posesOf(this.searchOf(name as RoundKind), ROUND_POSES[n]!);
  }

  private searchOf(kind: RoundKind): PoseSearch {
    const grid = kind === 'fine round' ? this.fineGrid() : this.coarseGrid(ROUND_MM[0]);
    const search = this.searches.get(kind) ?? this.poseSearch(grid, kind === 'gentle round' ? GENTLE_ROUND : undefined);
    this.searches.set(kind, search);
    return search;
  }

  private coarseGrid(roundMm: number): CellGrid {
    const kept = this.coarse.get(roundMm) ?? corridorGrid(this.span, this.clear, roundMm);
    this.coarse.set(roundMm, kept);
    return kept;
  }

  private fineGrid(): CellGrid {
    this.fine ??= corridorGrid(this.span, this.clear, FINE_ROUND_MM, FINE_MM);
    return this.fine;
  }

  private poses(wants: readonly PoseWant[], grid: CellGrid, radiusFactor?: number): Seed[] {
    const search = this.poseSearch(grid, radiusFactor);
    return wants.flatMap((want) => this.posesOf(search, want));
  }

  private poseSearch(grid: CellGrid, radiusFactor?: number): PoseSearch {
    this.cells += grid.blocked.length;
    return new PoseSearch(this.span, this.clear, grid, this.tailsA, this.tailsB, radiusFactor);
  }

  private posesOf(search: PoseSearch, want: PoseWant): Seed[] {
    const before = search.expansions;
    const seeds = search.seeds(want);
    this.cells += search.expansions - before;
    return seeds;
  }

  private corridors(want: { readonly corridors: number; readonly pairs: number }): readonly Seed[] {
    for (const round of ROUND_MM) {
      const grid = this.coarseGrid(round);
      this.cells += grid.blocked.length;
      const seeds = corridorSeeds(this.span, this.clear, grid, this.tailsA, this.tailsB, want);
      if (seeds.length > 0) return seeds;
    }
    return [];
  }
}
