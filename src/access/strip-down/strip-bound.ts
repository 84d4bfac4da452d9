import { alwaysWith, bondsByThing, carriersOf } from './needed-things.ts';
import {
  bit,
  type Bond,
  type Clause,
  isWithin,
  placesOf,
  SAME_COST,
  type StripProblem,
  type Things,
} from './strip-problem.ts';

/** What is known of a problem before it is searched, of what may come off: what every plan takes off, and what that costs at least. */
export class StripBound {
  readonly bonds: ReadonlyMap<number, readonly Bond[]>;
  readonly carriers: ReadonlyMap<number, readonly number[]>;
  readonly relevant: Things;
  private readonly problem: StripProblem;
  private readonly sets: ReadonlyMap<number, Things>;
  readonly lineOfEnd: ReadonlyMap<number, number>;
  private readonly partsOfEnd: ReadonlyMap<number, number>;

  /** @param relevant - what may come off at all; a fastening to anything else is always paid for */
  constructor(problem: StripProblem, relevant: Things) {
    this.problem = problem;
    this.relevant = relevant;
    this.bonds = bondsByThing(problem);
    this.carriers = carriersOf(problem);
    this.sets = alwaysWith(problem, relevant, 0n, this.carriers, this.bonds);
    this.lineOfEnd = new Map(
      problem.things.flatMap(({ hangsBetween, undoes }, line) =>
        hangsBetween === undefined ? [] : undoes.map((end) => [end, line] as const),
      ),
    );
    this.partsOfEnd = new Map(
      problem.things.flatMap(({ hangsBetween, undoes }, part) =>
        hangsBetween === undefined ? undoes.map((end) => [end, part] as const) : [],
      ),
    );
  }

  movable(place: number): boolean {
    return place >= 0 && (this.relevant & bit(place)) !== 0n && !this.problem.things[place]!.staysOn;
  }

  /** Off by the time that a thing has left, before it or with it, in every plan. */
  byThen(place: number): Things {
    return this.sets.get(place) ?? bit(place);
  }

  /** Off before a thing leaves, in every plan: what the fastenings and needs of all that is off by then want first. */
  earlier(place: number): Things {
    let known = this.earlierBy.get(place);
    if (known === undefined) this.earlierBy.set(place, (known = this.foundEarlier(place)));
    return known;
  }
  private readonly earlierBy = new Map<number, Things>();

  private foundEarlier(place: number): Things {
    let all: Things = 0n;
    for (const one of placesOf(this.byThen(place) & this.relevant)) {
      const held = (this.bonds.get(one) ?? []).filter(({ a, b }) => !this.movable(a === one ? b : a));
      for (const clause of [...this.problem.things[one]!.needs, ...held.flatMap(({ needs }) => needs)]) {
        const sets = clause.map((set) => placesOf(set).reduce((off, need) => off | this.byThen(need), 0n));
        all |= sets.reduce((common, set) => common & set, sets[0] ?? 0n);
      }
    }
    return all & ~bit(place);
  }

  /** Of what has to be off before any of these the sets that can be: what never leaves but after or with one of them cannot. */
  before(clause: Clause, any: readonly number[]): Clause {
    return clause.filter((set) =>
      placesOf(set).every((place) => any.every((one) => (this.byThen(place) & bit(one)) === 0n)),
    );
  }

  /** Of what has to be off before the first of these the sets that can be. */
  beforeFirst(clause: Clause, all: readonly number[]): Clause {
    return clause.filter((set) =>
      placesOf(set).every((place) => !all.every((one) => (this.byThen(place) & bit(one)) !== 0n)),
    );
  }

  /** Off in every plan that takes these off; null: no plan does. */
  alwaysWith(places: Things, off: Things = 0n): Things | null {
    const sets = off === 0n ? this.sets : alwaysWith(this.problem, this.relevant, off, this.carriers, this.bonds);
    let all = places;
    for (const place of placesOf(places & ~off)) all |= sets.get(place) ?? ~0n;
    return isWithin(all, this.relevant | off) ? all : null;
  }

  /**
   * The least that any plan costs that takes all of these off, given what is off already. Each is paid for with its fastenings to what
   * never comes off; a fastening to something else is paid for, or that comes off too, at no less than its own price.
   *
   * @param apart - these leave each by itself: what holds them to each other is paid for
   */
  leastCost(all: Things, off: Things = 0n, apart: Things = 0n): number {
    const { things, alone = 0n } = this.problem;
    const set = all & ~off;
    let sum = 0;
    const between = new Map<number, number>();
    const isOff = (place: number): boolean => place >= 0 && (off & bit(place)) !== 0n;
    const tie = (other: number, cost: number): void => {
      if (isOff(other)) return;
      if (!this.movable(other)) sum += cost;
      else if ((set & bit(other)) === 0n) between.set(other, (between.get(other) ?? 0) + cost);
    };
    const counted = new Set<Bond>();
    for (const place of placesOf(set)) {
      const { cost, undoes, hangsBetween } = things[place]!;
      const part = this.partsOfEnd.get(place);
      if (!this.lineOfEnd.has(place)) sum += cost;
      else if (part === undefined || (set & bit(part)) === 0n) this.tieEnd(place, set, off, tie);
      for (const bond of this.bonds.get(place) ?? []) {
        if (counted.has(bond)) continue;
        counted.add(bond);
        const other = bond.a === place ? bond.b : bond.a;
        // Undone before, on the car, or on the bench.
        if ((alone & bit(place)) !== 0n || (other >= 0 && (alone & bit(other)) !== 0n))
          sum += isOff(other) ? 0 : bond.cost;
        else if (other >= 0 && (apart & bit(place)) !== 0n && (apart & bit(other)) !== 0n) sum += bond.cost;
        else tie(other, bond.cost);
      }
      if (hangsBetween === undefined) for (const end of undoes) this.tieEnd(end, set, off, tie);
    }
    for (const [other, cost] of between) sum += Math.min(cost, this.price(other));
    return sum;
  }

  /** An end is undone, or its line goes along because the part at its other end does. */
  private tieEnd(end: number, set: Things, off: Things, tie: (other: number, cost: number) => void): void {
    if ((off & bit(end)) !== 0n) return;
    const line = this.lineOfEnd.get(end);
    const { cost } = this.problem.things[end]!;
    if (line === undefined) return tie(-1, cost);
    const parts = this.problem.things[line]!.hangsBetween!;
    // Either part may be what goes along; one that never comes off, or is off without it, decides.
    if (!parts.every((part) => this.movable(part) && (off & bit(part)) === 0n)) return tie(-1, cost);
    const own = this.partsOfEnd.get(end);
    const other = parts.find((part) => part !== own);
    if (own !== undefined && other !== undefined && (set & bit(own)) !== 0n) tie(other, cost);
  }

  /** What one thing costs by itself, with the fastenings to what never comes off. */
  private price(place: number): number {
    let sum = this.problem.things[place]!.cost;
    for (const bond of this.bonds.get(place) ?? [])
      if (!this.movable(bond.a === place ? bond.b : bond.a)) sum += bond.cost;
    return sum;
  }

  /** Less all that no plan takes off that costs less than this; null: no plan does at all. */
  narrowedTo(cost: number): StripBound | null {
    const { goal } = this.problem;
    if (!this.isCheaper(goal, cost)) return null;
    let kept = 0n;
    for (const place of placesOf(this.relevant)) if (this.isCheaper(goal | bit(place), cost)) kept |= bit(place);
    return kept === this.relevant ? this : new StripBound(this.problem, kept).narrowedTo(cost);
  }

  private isCheaper(set: Things, cost: number): boolean {
    const all = this.alwaysWith(set);
    return all !== null && this.leastCost(all) < cost - SAME_COST;
  }
}
