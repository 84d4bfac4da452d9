import type { StripBound } from './strip-bound.ts';
import { moveOf, offAfter } from './strip-moves.ts';
import { bit, isWithin, placesOf, type StripMove, type StripProblem, type Things } from './strip-problem.ts';

type Wish = Pick<StripMove, 'root' | 'way'>;

/**
 * Some plan, not the least, or null where there is none: taking something off never hinders anything else, so that whatever can come off
 * is taken off, cheapest first, until the goal is; then all that was not needed for it is left on again.
 */
export function somePlan(
  problem: StripProblem,
  bound: StripBound,
): { readonly moves: readonly StripMove[]; readonly cost: number } | null {
  const all = everything(problem, bound);
  if (all === null) return null;
  let kept = all;
  for (let i = all.length - 2; i >= 0; i--) {
    const without = kept.toSpliced(i, 1);
    if (isWithin(problem.goal, replayed(problem, bound, without).off)) kept = without;
  }
  const { moves } = replayed(problem, bound, kept);
  return { moves, cost: moves.reduce((sum, { cost }) => sum + cost, 0) };
}

function everything(problem: StripProblem, bound: StripBound): Wish[] | null {
  let off: Things = 0n;
  const wishes: Wish[] = [];
  while (!isWithin(problem.goal, off)) {
    const moves = placesOf(bound.relevant & ~off).flatMap((place) =>
      problem.waysOf(place).flatMap((way) => moveOf(problem, bound.bonds, off, place, way) ?? []),
    );
    if (moves.length === 0) return null;
    const goes = moves.filter((move) => isWithin(problem.goal, offAfter(off, move)));
    for (const move of (goes.length > 0 ? goes : moves).toSorted((a, b) => a.cost - b.cost)) {
      if ((off & bit(move.root)) !== 0n) continue;
      wishes.push({ root: move.root, way: move.way });
      off = offAfter(off, move);
      if (isWithin(problem.goal, off)) break;
    }
  }
  return wishes;
}

/** The wishes in their order, those left out that cannot be met. */
function replayed(
  problem: StripProblem,
  bound: StripBound,
  wishes: readonly Wish[],
): { readonly off: Things; readonly moves: readonly StripMove[] } {
  let off: Things = 0n;
  const moves: StripMove[] = [];
  for (const { root, way } of wishes) {
    if ((off & bit(root)) !== 0n) continue;
    const move = moveOf(problem, bound.bonds, off, root, way);
    if (move === null) continue;
    moves.push(move);
    off = offAfter(off, move);
    if (isWithin(problem.goal, off)) break;
  }
  return { off, moves };
}
