import { alwaysWith, bondsByThing, carriersOf, relevantThings } from './needed-things.ts';
import { moveOf, offAfter } from './strip-moves.ts';
import {
  bit,
  type Bond,
  isWithin,
  placesOf,
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
 * over what is off. What is still to be paid at least (fastenings of what every plan takes off, to what stays) is its bound; what every
 * plan takes off, and nothing could save by taking it with something else, is taken off as soon as it can be, without a branch.
 */
export function exactStrip(problem: StripProblem, mostLooked: number): StripAnswer | null {
  return new Search(problem).run(mostLooked);
}

class Search {
  private readonly carriers: ReadonlyMap<number, readonly number[]>;
  private readonly bonds: ReadonlyMap<number, readonly Bond[]>;
  private readonly relevant: Things;
  private readonly best = new Map<Things, number>();
  private readonly heap: State[] = [];
  private made = 0;
  private readonly problem: StripProblem;

  constructor(problem: StripProblem) {
    this.problem = problem;
    this.carriers = carriersOf(problem);
    this.bonds = bondsByThing(problem);
    this.relevant = relevantThings(problem, this.carriers);
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
    return { kind: 'none', looked };
  }

  /** A state with all that is taken off without a choice; left out where it is known as cheap, or never leads to the goal. */
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
    const bound = paid + this.stillToPay(at, always);
    putIn(this.heap, { off: at, cost: paid, bound, from, moves: list, number: this.made++ }, isBefore);
  }

  private pop(): State | undefined {
    return takeFirst(this.heap, isBefore);
  }

  /** What every plan from here takes off; null where there is none. */
  private always(off: Things): Things | null {
    const open = placesOf(this.problem.goal & ~off);
    if (open.length === 0) return 0n;
    const sets = alwaysWith(this.problem, this.relevant, off, this.carriers, this.bonds);
    let together = 0n;
    for (const place of open) together |= sets.get(place) ?? ~0n;
    return isWithin(together, this.relevant | off) ? together : null;
  }

  /** True where it may save a fastening to take this along with something else. */
  private mayGoAlong(place: number, off: Things): boolean {
    const movable = (other: number): boolean =>
      other >= 0 && (this.relevant & ~off & bit(other)) !== 0n && !this.problem.things[other]!.staysOn;
    const { hangsBetween } = this.problem.things[place]!;
    if (hangsBetween !== undefined && hangsBetween.every(movable)) return true;
    return (this.bonds.get(place) ?? []).some(({ a, b }) => movable(a === place ? b : a));
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
        const move = moveOf(this.problem, this.bonds, off, place, way);
        if (move !== null && move.group.length === 1) return move;
      }
    }
    return undefined;
  }

  /** The least that any plan from here has still to pay. */
  private stillToPay(off: Things, always: Things): number {
    const { things } = this.problem;
    let least = 0;
    const open = always & ~off;
    const counted = new Set<Bond>();
    for (const place of placesOf(open)) {
      const { hangsBetween } = things[place]!;
      if (hangsBetween !== undefined || !this.endMayStay(place, off)) least += things[place]!.cost;
      for (const bond of this.bonds.get(place) ?? []) {
        const other = bond.a === place ? bond.b : bond.a;
        if (counted.has(bond) || (other >= 0 && (off & bit(other)) !== 0n)) continue;
        if (other >= 0 && (this.relevant & bit(other)) !== 0n) continue;
        counted.add(bond);
        least += bond.cost;
      }
    }
    return least;
  }

  private movesFrom(off: Things): StripMove[] {
    const seen = new Map<string, StripMove>();
    for (const place of placesOf(this.relevant & ~off))
      for (const way of this.problem.waysOf(place)) {
        const move = moveOf(this.problem, this.bonds, off, place, way);
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
