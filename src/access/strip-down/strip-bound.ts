import { COMMON } from './strip-moves.ts';
import { alwaysWith, bondsByThing, carriersOf } from './needed-things.ts';
import {
  bit,
  type Bond,
  type Clause,
  isMet,
  isWithin,
  placesOf,
  SAME_COST,
  type StripProblem,
  type Things,
} from './strip-problem.ts';

/** Clauses that share things, by the sets of things that meet all of them. */
interface Bundle {
  readonly things: Things;
  readonly ways: readonly Things[];
}

/** A clause that would make a bundle of more ways is left out of it. */
const MOST_IN_BUNDLE = 16;

/** What is known of a problem before it is searched, of what may come off: what every plan takes off, and what that costs at least. */
export class StripBound {
  readonly bonds: ReadonlyMap<number, readonly Bond[]>;
  readonly carriers: ReadonlyMap<number, readonly number[]>;
  readonly relevant: Things;
  private readonly problem: StripProblem;
  private readonly sets: ReadonlyMap<number, Things>;
  private takers: ReadonlyMap<number, readonly number[]> | undefined;
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

  /** What could take a thing along because it stands in its way. */
  takersOf(place: number): readonly number[] {
    this.takers ??= this.worked();
    return this.takers.get(place) ?? [];
  }

  private worked(): ReadonlyMap<number, readonly number[]> {
    const { waysOf, inTheWay } = this.problem;
    const by = new Map<number, number[]>();
    for (const taker of placesOf(this.relevant)) {
      if (!this.movable(taker)) continue;
      const taken = new Set(
        waysOf(taker)
          .filter((way) => way.startsWith(COMMON))
          .flatMap((way) => (inTheWay(taker, way) ?? []).flatMap(({ along }) => along ?? [])),
      );
      for (const place of taken) by.set(place, [...(by.get(place) ?? []), taker]);
    }
    return by;
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
   * @param wanted - of each of these one set must be off too: what that costs at least is added where it is surely not paid for already
   */
  leastCost(all: Things, off: Things = 0n, apart: Things = 0n, wanted: readonly Clause[] = []): number {
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
    return sum + this.leastOfClauses(wanted, all | off, between);
  }

  /**
   * What clauses cost at least besides what is paid for: those whose sets share something are met together, of each such bundle the
   * cheapest way.
   */
  private leastOfClauses(clauses: readonly Clause[], all: Things, between: ReadonlyMap<number, number>): number {
    let bundles: Bundle[] = [];
    for (const clause of clauses) {
      if (isMet(clause, all)) continue;
      const sets = [...new Set(clause.flatMap((set) => this.closed(set, all) ?? []))];
      const own = sets.reduce((union, set) => union | set, 0n);
      const touched = bundles.filter(({ things }) => (things & own) !== 0n);
      const met = touched.reduce<readonly Things[]>(
        (ways, bundle) => ways.flatMap((way) => bundle.ways.map((other) => way | other)),
        sets,
      );
      if (met.length > MOST_IN_BUNDLE) continue;
      const things = touched.reduce((union, bundle) => union | bundle.things, own);
      bundles = [...bundles.filter((bundle) => !touched.includes(bundle)), { things, ways: [...new Set(met)] }];
    }
    const cost = (set: Things): number =>
      placesOf(set).reduce((sum, place) => sum + (between.has(place) ? 0 : this.price(place)), 0);
    return bundles.reduce((sum, { ways }) => sum + Math.min(...ways.map(cost)), 0);
  }

  /** What surely comes off with a set, besides what does anyway; undefined: it never does. */
  private closed(set: Things, all: Things): Things | undefined {
    let whole = set;
    for (const place of placesOf(set & ~all)) whole |= this.sets.get(place) ?? ~0n;
    return isWithin(whole, this.relevant | all) ? whole & ~all : undefined;
  }

  /**
   * What a thing still wants on its way, whatever else is done: of each of these one set must be off, before it or with it. Lines that hang
   * on what comes off too are left out: they may go along.
   *
   * @param all - what surely comes off
   */
  wantsOnWay(place: number, way: string, all: Things): Clause[] {
    const { things, inTheWay } = this.problem;
    return (inTheWay(place, way) ?? []).flatMap(({ cleared, line }): Clause[] => {
      if (cleared.length < 2 || isMet(cleared, all)) return [];
      if (line === undefined) return [cleared];
      const { undoes, hangsBetween = [] } = things[line]!;
      if (hangsBetween.some((part) => part >= 0 && (all & bit(part)) !== 0n)) return [];
      // Loosened at either end, off, or along with what it hangs on: at either the line itself is paid for.
      return [[bit(line), ...undoes.map(bit)]];
    });
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
