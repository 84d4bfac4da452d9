import type { StripBound } from './strip-bound.ts';
import { moveOf, offAfter } from './strip-moves.ts';
import {
  bit,
  isWithin,
  placesOf,
  type Plan,
  SAME_COST,
  type StripAnswer,
  type StripMove,
  type StripProblem,
  type Things,
} from './strip-problem.ts';
import { putIn, takeFirst } from './heap.ts';

interface State {
  readonly off: Things;
  readonly cost: number;
  readonly bound: number;
  readonly from: State | null;
  readonly moves: readonly StripMove[];
  readonly number: number;
}

/**
 * The cheapest sequence of moves to the goal, proved least among the ways given, or null where that takes more looks: a best-first search
 * over what is off. What is still to be paid at least is its bound; what every plan takes off, and nothing could save by taking it with
 * something else, is taken off as soon as it can be, without a branch.
 *
 * @param plan - one that is to be bettered
 */
export function exactStrip(
  problem: StripProblem,
  bound: StripBound,
  plan: Plan,
  mostLooked: number,
): StripAnswer | null {
  return new Search(problem, bound, plan).run(mostLooked);
}

class Search {
  private readonly best = new Map<Things, number>();
  private readonly heap: State[] = [];
  private made = 0;
  private readonly problem: StripProblem;
  private readonly bound: StripBound;
  private readonly plan: Plan;

  constructor(problem: StripProblem, bound: StripBound, plan: Plan) {
    this.problem = problem;
    this.bound = bound;
    this.plan = plan;
  }

  run(most: number): StripAnswer | null {
    const { goal } = this.problem;
    let looked = 0;
    this.push(0n, 0, null, []);
    for (let state = this.pop(); state !== undefined; state = this.pop()) {
      if ((this.best.get(state.off) ?? Infinity) < state.cost) continue;
      if (isWithin(goal, state.off))
        return { kind: 'found', moves: wayTo(state), cost: state.cost, looked, isProved: true };
      if (++looked > most) return null;
      for (const move of this.movesFrom(state.off))
        this.push(offAfter(state.off, move), state.cost + move.cost, state, [move]);
    }
    return { kind: 'found', ...this.plan, looked, isProved: true };
  }

  /** A state with all that is taken off without a choice; left out where it is known as cheap, or leads to nothing cheaper. */
  private push(off: Things, cost: number, from: State | null, moves: readonly StripMove[]): void {
    let always = this.always(off);
    let [at, paid, list] = [off, cost, moves];
    for (;;) {
      if (always === null) return;
      const forced = this.forced(at, always);
      if (forced === undefined) break;
      list = [...list, forced];
      at = offAfter(at, forced);
      paid += forced.cost;
      always = this.always(at);
    }
    if ((this.best.get(at) ?? Infinity) <= paid) return;
    this.best.set(at, paid);
    const least = paid + this.bound.leastCost(always, at);
    if (least >= this.plan.cost - SAME_COST) return;
    putIn(this.heap, { off: at, cost: paid, bound: least, from, moves: list, number: this.made++ }, isBefore);
  }

  private pop(): State | undefined {
    return takeFirst(this.heap, isBefore);
  }

  /** What every plan from here takes off; null where there is none. */
  private always(off: Things): Things | null {
    const open = this.problem.goal & ~off;
    return open === 0n ? 0n : this.bound.alwaysWith(open, off);
  }

  /** True where it may save a fastening to take this along with something else. */
  private mayGoAlong(place: number, off: Things): boolean {
    const movable = (other: number): boolean => this.bound.movable(other) && (off & bit(other)) === 0n;
    const { hangsBetween } = this.problem.things[place]!;
    if (hangsBetween !== undefined && hangsBetween.every(movable)) return true;
    return (this.bound.bonds.get(place) ?? []).some(({ a, b }) => movable(a === place ? b : a));
  }

  /** Of an end of a line: its line may go along, so that the end need not be undone. */
  private endMayStay(place: number, off: Things): boolean {
    const line = this.problem.things.findIndex(
      ({ hangsBetween, undoes }) => hangsBetween !== undefined && undoes.includes(place),
    );
    return line >= 0 && this.mayGoAlong(line, off);
  }

  /** A thing that every plan takes off, that can come off alone now, and never for less. */
  private forced(off: Things, always: Things): StripMove | undefined {
    const { things, waysOf, alone = 0n } = this.problem;
    for (const place of placesOf(always & ~off)) {
      const { carries, undoes } = things[place]!;
      if (carries.some((rider) => (off & bit(rider)) === 0n) || (alone & bit(place)) !== 0n) continue;
      if (this.mayGoAlong(place, off) || this.endMayStay(place, off)) continue;
      // An end that is undone with it may have stayed shut, had its line gone along with something.
      if (undoes.some((end) => (off & bit(end)) === 0n && this.endMayStay(end, off))) continue;
      for (const way of waysOf(place)) {
        const move = moveOf(this.problem, this.bound.bonds, off, place, way);
        if (move !== null && move.group.length === 1) return move;
      }
    }
    return undefined;
  }

  private movesFrom(off: Things): StripMove[] {
    const seen = new Map<string, StripMove>();
    for (const place of placesOf(this.bound.relevant & ~off))
      for (const way of this.problem.waysOf(place)) {
        const move = moveOf(this.problem, this.bound.bonds, off, place, way);
        if (move === null) continue;
        const key = [...move.group].toSorted((a, b) => a - b).join(' ');
        const had = seen.get(key);
        if (had === undefined || move.cost < had.cost) seen.set(key, move);
      }
    return [...seen.values()];
  }
}

function wayTo(state: State): StripMove[] {
  const moves: StripMove[] = [];
  for (let at: State | null = state; at !== null; at = at.from) moves.unshift(...at.moves);
  return moves;
}

const isBefore = (a: State, b: State): boolean => a.bound < b.bound || (a.bound === b.bound && a.number < b.number);
