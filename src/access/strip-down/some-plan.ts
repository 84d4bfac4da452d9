import { bondsByThing } from './needed-things.ts';
import { moveOf, offAfter } from './strip-moves.ts';
import { bit, type Plan, isWithin, placesOf, type StripMove, type StripProblem, type Things } from './strip-problem.ts';

export type Wish = Pick<StripMove, 'root' | 'way'>;

/**
 * Some plan, not the least: taking something off never hinders anything else, so that whatever may come off is taken off, cheapest
 * first, until the goal is; then all that was not needed for it is left on again.
 */
export class SomePlan {
  /** Null: none yet with what may be taken off. */
  plan: Plan | null = null;
  private readonly problem: StripProblem;
  private readonly bonds: ReturnType<typeof bondsByThing>;
  private may = 0n;
  private off: Things = 0n;
  private readonly wishes: Wish[] = [];

  constructor(problem: StripProblem) {
    this.problem = problem;
    this.bonds = bondsByThing(problem);
  }

  /** All that comes off in some order when everything may be taken hold of. */
  everything(): Things {
    this.problem.things.forEach((_, place) => (this.may |= bit(place)));
    this.isGoalOff();
    return this.off;
  }

  /** Some plan that takes hold of these only; null: none was found. */
  within(places: Things): Plan | null {
    this.may = places;
    return this.isGoalOff() ? this.trimmed() : null;
  }

  /** One more thing may be taken hold of. */
  mayTakeOff(place: number): void {
    this.may |= bit(place);
    if (this.isGoalOff()) this.plan = this.trimmed();
  }

  private isGoalOff(): boolean {
    const { goal } = this.problem;
    while (!isWithin(goal, this.off)) {
      const moves = placesOf(this.may & ~this.off).flatMap((place) =>
        this.problem.waysOf(place).flatMap((way) => moveOf(this.problem, this.bonds, this.off, place, way) ?? []),
      );
      if (moves.length === 0) return false;
      const goes = moves.filter((move) => isWithin(goal, offAfter(this.off, move)));
      for (const move of (goes.length > 0 ? goes : moves).toSorted((a, b) => a.cost - b.cost)) {
        if ((this.off & bit(move.root)) !== 0n) continue;
        this.wishes.push({ root: move.root, way: move.way });
        this.off = offAfter(this.off, move);
        if (isWithin(goal, this.off)) break;
      }
    }
    return true;
  }

  private trimmed(): Plan {
    const { problem, bonds } = this;
    let kept: readonly Wish[] = this.wishes;
    for (let i = this.wishes.length - 2; i >= 0; i--) {
      const without = kept.toSpliced(i, 1);
      if (isWithin(problem.goal, replayed(problem, bonds, without).off)) kept = without;
    }
    const { moves } = replayed(problem, bonds, kept);
    return { moves, cost: moves.reduce((sum, { cost }) => sum + cost, 0) };
  }
}

/** The wishes in their order, those left out that cannot be met. */
export function replayed(
  problem: StripProblem,
  bonds: ReturnType<typeof bondsByThing>,
  wishes: readonly Wish[],
): { readonly off: Things; readonly moves: readonly StripMove[] } {
  let off: Things = 0n;
  const moves: StripMove[] = [];
  for (const { root, way } of wishes) {
    if ((off & bit(root)) !== 0n) continue;
    const move = moveOf(problem, bonds, off, root, way);
    if (move === null) continue;
    moves.push(move);
    off = offAfter(off, move);
    if (isWithin(problem.goal, off)) break;
  }
  return { off, moves };
}
