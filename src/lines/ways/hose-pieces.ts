import { distance } from '#geometry';
import type { Margins } from './curves.ts';
import type { HangProblem } from './hang-problem.ts';
import { type Hung, SPARES, hangClamped, hangFree, hangLeastBad } from './hang.ts';
import { type HosePiece, type HosePieceWish, patientPiece, pieceOf } from './hose-piece.ts';
import { CLOSE, DETOURS, GENTLE, LOOKED_AT, notSeen } from './planned-runs.ts';
import { type HoseRun, RunSearch } from './run.ts';
import { type SeedKind, WIDE } from './seed-stock.ts';

export interface HosePieces {
  readonly pieces: readonly HosePiece[];
  /** The least bad where none keeps every limit. */
  readonly leastBad: HosePiece | null;
  readonly search: RunSearch;
  /** It is certain that there is no way from A to B. */
  readonly isCutOff?: boolean;
}

const IN_TURN: readonly (readonly [SeedKind, readonly Margins[]])[] = [
  ['direct', CLOSE],
  ['further', CLOSE],
  ['gentle', GENTLE],
  ...WIDE.map((kind) => [kind, DETOURS] as const),
];
/** Runs looked at for how they hang at each way of holding them, where none hangs freely. */
const HELD_TRIES = 4;
/** Curves that missed their limits and may still lead to a hose that hangs well, looked at in each batch. */
const MISSES = 12;
const FREE_TRIES = 10;
/** Ends farther apart than this many bend radii. */
const LONG_RADII = 9;
/** Rods worked out at most for each batch of runs that may hang freely, and for those that must be held. */
const BATCH_RODS = 320;
const HELD_RODS = 320;

/** The best few hoses from A to B that keep their limits as they hang. */
export function hosePieces(wish: HosePieceWish): HosePieces {
  const search = new RunSearch(wish.span, wish.stops, wish.clearOf);
  const planned: HoseRun[] = [];
  const good: HosePiece[] = [];
  const unsuited: HosePiece[] = [];
  const seen = new Set<string>();
  const budget = { rods: BATCH_RODS };
  if (search.blockedEnds.length > 0) return { pieces: [], leastBad: easedPiece(wish, search.blockedEnds), search };
  // A long run has room to give without going wide.
  const far = distance(wish.span.a.at, wish.span.b.at) > LONG_RADII * wish.hose.minBendRadiusMm;
  for (const [kind, tried] of far || wish.isLost === true ? IN_TURN.slice(0, 1) : IN_TURN) {
    budget.rods = BATCH_RODS;
    for (const margins of tried) {
      const all = search.runs(margins, LOOKED_AT, kind);
      const runs = notSeen(all, seen);
      planned.push(...runs);
      if (kind === 'direct' && margins === CLOSE[0] && all.length === 0 && wish.isCutOff?.() === true)
        return { pieces: [], leastBad: leastBad(wish, search, [], budget), search, isCutOff: true };
      hangAll(wish, runs, { good, unsuited }, budget, hangFree);
      if (good.length >= wish.count) return answer(wish, [...good, ...cheaper(wish, search, good, planned)], search);
    }
    if (good.length === 0) {
      budget.rods = BATCH_RODS;
      hangAll(wish, search.misses(MISSES), { good, unsuited }, budget, hangFree);
    }
    if (good.length > 0) break;
  }
  if (good.length > 0) return answer(wish, good, search);
  if (!far && wish.isLost !== true) patiently(wish, planned, { good, unsuited });
  if (good.length > 0) return answer(wish, good, search);
  if (unsuited.length > 0) return answer(wish, unsuited, search);
  if (wish.isLost === true) return { pieces: [], leastBad: leastBad(wish, search, planned, budget), search };
  budget.rods = HELD_RODS;
  const tries = [...planned].sort((p, q) => p.cost - q.cost);
  for (const spare of SPARES) {
    hangAll(wish, tries.slice(0, HELD_TRIES), { good, unsuited: good }, budget, (problem) =>
      hangClamped(problem, spare),
    );
    if (good.length === 0)
      hangAll(wish, tries.slice(0, FREE_TRIES), { good, unsuited: good }, budget, (problem) =>
        hangFree(problem, spare),
      );
    if (good.length > 0) return answer(wish, good, search);
  }
  return { pieces: [], leastBad: leastBad(wish, search, tries, budget), search };
}

/** Where nothing hangs well from the planned clocks: each pair of ends once, from other clocks and with patience. */
function patiently(
  wish: HosePieceWish,
  planned: readonly HoseRun[],
  into: { readonly good: HosePiece[]; readonly unsuited: HosePiece[] },
): void {
  const budget = { rods: PATIENT_RODS };
  const pairs = new Set<string>();
  for (const run of [...planned].sort((p, q) => p.cost - q.cost)) {
    const pair = `${run.a.makeUp.key} ${run.a.adapterClockRad} ${run.b.makeUp.key} ${run.b.adapterClockRad}`;
    if (pairs.has(pair)) continue;
    pairs.add(pair);
    const piece = patientPiece(wish, run, budget);
    if (piece !== null) (wish.suits?.(piece) !== false ? into.good : into.unsuited).push(piece);
    if (into.good.length >= wish.count || budget.rods <= 0) return;
  }
}

/** Rods worked out at most for that. */
const PATIENT_RODS = 900;

/** Where an end is blocked: the hose as it would be if nothing beside that end had to be kept off, only not touched. */
function easedPiece(wish: HosePieceWish, blocked: readonly string[]): HosePiece | null {
  const [a, b] = [wish.span.a, wish.span.b].map((end) => (blocked.includes(end.label) ? end.eased?.() : end));
  if (a === undefined || b === undefined) return null;
  const found = hosePieces({ ...wish, span: { ...wish.span, a, b }, count: 1 });
  return found.pieces[0] ?? found.leastBad;
}

function leastBad(
  wish: HosePieceWish,
  search: RunSearch,
  tries: readonly HoseRun[],
  budget: { rods: number },
): HosePiece | null {
  const run = search.leastBad() ?? tries[0];
  return run === undefined ? null : pieceOf(wish, run, budget, hangLeastBad);
}

/** Dearer than the cheapest that was planned by this share: there may be something between that has not been tried. */
const DEAR = 1.15;
/** A curve that missed by more than this tells nothing of what a way costs. */
const TELLING_RESIDUAL = 12;

/** Where the hoses found are dear: cheaper ones among the curves that missed, and along more of the corridors. */
function cheaper(
  wish: HosePieceWish,
  search: RunSearch,
  good: readonly HosePiece[],
  planned: readonly HoseRun[],
): HosePiece[] {
  const cost = Math.min(...good.map((piece) => piece.cost));
  const missed = search.misses(2 * MISSES).filter((run) => run.cost < cost);
  const telling = [...planned, ...missed.filter((run) => run.residual < TELLING_RESIDUAL)];
  if (cost < DEAR * Math.min(...telling.map((run) => run.cost))) return [];
  const found: HosePiece[] = [];
  const into = { good: found, unsuited: [] };
  hangAll(wish, missed, into, { rods: BATCH_RODS }, hangFree);
  if (found.length > 0) return found;
  for (const runs of [() => search.runs(CLOSE.at(-1)!, LOOKED_AT, 'further'), () => search.misses(MISSES)]) {
    const tries = runs().filter((run) => run.cost < cost);
    hangAll(wish, tries, into, { rods: BATCH_RODS }, hangFree);
    if (found.length > 0) break;
  }
  return found;
}

/** Hangs runs, cheapest first, until there are as many as wanted. */
function hangAll(
  wish: HosePieceWish,
  runs: readonly HoseRun[],
  into: { readonly good: HosePiece[]; readonly unsuited: HosePiece[] },
  budget: { rods: number },
  how: (problem: HangProblem) => Hung,
): void {
  for (const run of runs) {
    if (into.good.length >= wish.count || budget.rods <= 0) return;
    const piece = pieceOf(wish, run, budget, how);
    if (piece.ok) (wish.suits?.(piece) !== false ? into.good : into.unsuited).push(piece);
  }
}

const answer = (wish: HosePieceWish, good: readonly HosePiece[], search: RunSearch): HosePieces => ({
  pieces: [...good].sort((p, q) => p.cost - q.cost).slice(0, wish.count),
  leastBad: null,
  search,
});
