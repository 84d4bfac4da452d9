import { alwaysWith, bondsByThing, carriersOf, relevantThings } from './needed-things.ts';
import { bit, type Bond, isWithin, placesOf, type StripProblem, type Things } from './strip-problem.ts';

/** What is known of a problem before it is searched: what matters, what every plan takes off, and what that costs at least. */
export class StripBound {
  readonly bonds: ReadonlyMap<number, readonly Bond[]>;
  readonly carriers: ReadonlyMap<number, readonly number[]>;
  readonly relevant: Things;
  private readonly problem: StripProblem;
  private readonly sets: ReadonlyMap<number, Things>;
  private readonly lineOfEnd: ReadonlyMap<number, number>;
  private readonly partsOfEnd: ReadonlyMap<number, number>;

  constructor(problem: StripProblem) {
    this.problem = problem;
    this.bonds = bondsByThing(problem);
    this.carriers = carriersOf(problem);
    this.relevant = relevantThings(problem, this.carriers);
    this.sets = alwaysWith(problem, this.relevant, 0n, this.carriers, this.bonds);
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

  /** Off in every plan that takes these off; null: no plan does. */
  alwaysWith(places: Things): Things | null {
    let all = places;
    for (const place of placesOf(places)) all |= this.sets.get(place) ?? ~0n;
    return isWithin(all, this.relevant) ? all : null;
  }

  /**
   * The least that any plan costs that takes all of these off. Each is paid for with its fastenings to what never comes off; a fastening
   * to something else is paid for, or that comes off too, at no less than its own price.
   */
  leastCost(set: Things): number {
    const { things } = this.problem;
    let sum = 0;
    const between = new Map<number, number>();
    const tie = (other: number, cost: number): void => {
      if (!this.movable(other)) sum += cost;
      else if ((set & bit(other)) === 0n) between.set(other, (between.get(other) ?? 0) + cost);
    };
    const counted = new Set<Bond>();
    for (const place of placesOf(set)) {
      const { cost, undoes, hangsBetween } = things[place]!;
      if (!this.lineOfEnd.has(place)) sum += cost;
      else if ((set & bit(this.partsOfEnd.get(place) ?? place)) === 0n || this.partsOfEnd.get(place) === undefined)
        this.tieEnd(place, set, tie);
      for (const bond of this.bonds.get(place) ?? []) {
        if (counted.has(bond)) continue;
        counted.add(bond);
        tie(bond.a === place ? bond.b : bond.a, bond.cost);
      }
      if (hangsBetween === undefined) for (const end of undoes) this.tieEnd(end, set, tie);
    }
    for (const [other, cost] of between) sum += Math.min(cost, this.price(other));
    return sum;
  }

  /** An end is undone, or its line goes along because the part at its other end does. */
  private tieEnd(end: number, set: Things, tie: (other: number, cost: number) => void): void {
    const line = this.lineOfEnd.get(end);
    const { cost } = this.problem.things[end]!;
    if (line === undefined) return tie(-1, cost);
    const parts = this.problem.things[line]!.hangsBetween!;
    // Either part may be what goes along; one that never comes off decides.
    if (!parts.every((part) => this.movable(part))) return tie(-1, cost);
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
}
