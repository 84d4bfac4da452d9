import { hangFree } from './hang.ts';
import { type HosePiece, type HosePieceWish, pieceOf } from './hose-piece.ts';
import type { HosePieces } from './hose-pieces.ts';
import type { Margins } from './curves.ts';
import { CLOSE, DETOURS, GENTLE, LOOKED_AT, notSeen } from './planned-runs.ts';
import { type HoseRun, RunSearch } from './run.ts';
import type { SeedKind } from './seed-stock.ts';

/** Seeds of these kinds in turn at these margins, and rods worked out at most on them. */
interface Step {
  readonly kinds: readonly SeedKind[];
  readonly margins: readonly Margins[];
  readonly rods: number;
  /** What nearly hangs well is settled before the next is looked at, not after all of them: where the seeds are few and likely. */
  readonly isPatient?: boolean;
}

const numbered = <T extends string>(kind: T, from: number, to: number): `${T} ${number}`[] =>
  Array.from({ length: to - from + 1 }, (_, n): `${T} ${number}` => `${kind} ${from + n}`);

const [CLOSEST, ROOMIER, TIGHTEST] = CLOSE as [Margins, Margins, Margins];
const [GENTLER, GENTLEST] = GENTLE as [Margins, Margins];
/** Rods worked out at most in each step; what nearly hung well is settled with as many again. */
const RODS = 80;

/** Along where it lay before; it may have been one of the wide ones. */
const NEAR: readonly Step[] = [CLOSE, [...DETOURS, ...GENTLE]].map((margins) => ({
  kinds: ['near'],
  margins,
  rods: 3 * RODS,
  isPatient: true,
}));
/** The likeliest, the cheapest to find first. */
export const ONE_BY_ONE: readonly SeedKind[] = [
  ...numbered('shot', 1, 3),
  ...numbered('pose', 1, 4),
  ...numbered('shot', 4, 9),
];
/** What is found in a moment where there is room: one seed after the other. */
const QUICK: readonly Step[] = [
  { kinds: ONE_BY_ONE, margins: [CLOSEST], rods: 2 * RODS },
  { kinds: ONE_BY_ONE, margins: [ROOMIER, TIGHTEST], rods: RODS },
];
/** Where there is little: rounds of poses, those on gentle bends first, since a hose hangs rounder than it was planned. */
const IN_ROUNDS: readonly Step[] = [
  gentleRound(1),
  round(1),
  gentleRound(2),
  round(2),
  round(3),
  gentleRound(3),
  round(4),
  ...[1, 2, 3, 4].map((n): Step => ({ kinds: [`fine round ${n}`], margins: [CLOSEST, ROOMIER], rods: RODS })),
];

function round(n: number): Step {
  return { kinds: [`round ${n}`], margins: [CLOSEST, GENTLER, ROOMIER], rods: RODS };
}

function gentleRound(n: number): Step {
  return { kinds: [`gentle round ${n}`], margins: [GENTLEST, GENTLER], rods: RODS };
}

/** Curves that missed their limits and may still lead to a hose that hangs well, looked at after each step. */
const MISSES = 12;

/** The first hose that keeps its limits as it hangs: only near where it lay before, if it did; else from a few seeds, else from rounds of them. */
export function firstPieces(wish: HosePieceWish): HosePieces {
  const search = new RunSearch(wish.span, wish.stops, wish.clearOf);
  if (search.blockedEnds.length > 0) return { pieces: [], leastBad: null, search };
  const look = new FirstLook(wish, search);
  const isNear = wish.span.near !== undefined;
  const steps = isNear ? NEAR : [...QUICK, ...IN_ROUNDS];
  for (const step of steps) {
    const piece = look.at(step);
    if (piece !== null) return { pieces: [piece], leastBad: null, search };
  }
  return { pieces: [], leastBad: null, search };
}

class FirstLook {
  private readonly wish: HosePieceWish;
  private readonly search: RunSearch;
  private readonly seen = new Set<string>();

  constructor(wish: HosePieceWish, search: RunSearch) {
    this.wish = wish;
    this.search = search;
  }

  /** The first hose of a step that does: those that hang well by themselves before those that must be settled first. */
  at({ kinds, margins, rods, isPatient = false }: Step): HosePiece | null {
    const missed: HoseRun[] = [];
    const budget = { rods };
    for (const margin of margins)
      for (const kind of kinds)
        for (const run of notSeen(this.search.runs(margin, LOOKED_AT, kind), this.seen)) {
          const piece = this.hung(run, budget, isPatient);
          if (piece !== null) return piece;
          if (!isPatient) missed.push(run);
          // The cheapest of each kind is looked at in any case.
          if (budget.rods <= 0) break;
        }
    budget.rods = RODS;
    for (const run of [...missed, ...this.search.misses(MISSES)]) {
      const piece = this.hung(run, budget, true);
      if (piece !== null) return piece;
      if (budget.rods <= 0) return null;
    }
    return null;
  }

  private hung(run: HoseRun, budget: { rods: number }, isSettled: boolean): HosePiece | null {
    const piece = pieceOf(this.wish, run, budget, hangFree, isSettled);
    return piece.ok && this.wish.suits?.(piece) !== false ? piece : null;
  }
}
