import { putIn, takeFirst } from './heap.ts';
import { bondsByThing, carriersOf } from './needed-things.ts';
import { SomePlan } from './some-plan.ts';
import { bit, placesOf, type Plan, SAME_COST, type StripProblem, type Things } from './strip-problem.ts';

/** Told how much of what there is has been looked at; false: stop. */
export type StripWatch = (done: number, total: number) => boolean;

interface Reached {
  readonly place: number;
  readonly cost: number;
}

/**
 * What may have to do with a plan cheaper than one found on the way: things are reached backwards from the goal, from each to whatever
 * may have to come off first, may carry it away or may save a fastening by going along, the cheapest chain first. A plan that takes
 * something off and could not do without it takes off all of some chain to it, and pays at least for that; once the next chain costs as
 * much as the plan found, nothing further matters. Ways out are asked only of what is reached.
 */
export function scopeOf(
  problem: StripProblem,
  watch: StripWatch = () => true,
): { readonly matters: Things; readonly plan: Plan } | { readonly matters: Things; readonly plan: null } {
  const chains = new Chains(problem);
  const some = new SomePlan(problem);
  let matters = 0n;
  for (let next = chains.next(); next !== undefined; next = chains.next()) {
    if (some.plan !== null && next.cost >= some.plan.cost - SAME_COST) break;
    matters |= bit(next.place);
    if (!watch(placesOf(matters).length, problem.things.length)) return { matters, plan: some.plan };
    chains.goOn(next);
    if (some.plan === null) some.mayTakeOff(next.place);
  }
  return { matters, plan: some.plan };
}

/** Chains from the goal to what matters for it, by what they cost at least. */
class Chains {
  private readonly problem: StripProblem;
  private readonly bonds: ReturnType<typeof bondsByThing>;
  private readonly carriers: ReturnType<typeof carriersOf>;
  private readonly linesOf = new Map<number, number[]>();
  private readonly least = new Map<number, number>();
  private readonly open: Reached[] = [];
  private settled = 0n;

  constructor(problem: StripProblem) {
    this.problem = problem;
    this.bonds = bondsByThing(problem);
    this.carriers = carriersOf(problem);
    problem.things.forEach(({ hangsBetween }, line) => {
      for (const part of hangsBetween ?? []) this.linesOf.set(part, [...(this.linesOf.get(part) ?? []), line]);
    });
    const places = placesOf(problem.goal);
    const cost = places.reduce((sum, place) => sum + this.own(place), 0);
    for (const place of places) this.reach(place, cost);
  }

  next(): Reached | undefined {
    let row = takeFirst(this.open, isBefore);
    while (row !== undefined && (this.settled & bit(row.place)) !== 0n) row = takeFirst(this.open, isBefore);
    if (row !== undefined) this.settled |= bit(row.place);
    return row;
  }

  private reach(place: number, cost: number): void {
    if (cost >= (this.least.get(place) ?? Infinity)) return;
    this.least.set(place, cost);
    putIn(this.open, { place, cost }, isBefore);
  }

  /** To all that one thing may have to do with. */
  goOn({ place, cost }: Reached): void {
    const { things } = this.problem;
    for (const other of this.neighbours(place))
      if (!things[other]!.staysOn && (this.settled & bit(other)) === 0n) this.reach(other, cost + this.own(other));
  }

  private neighbours(at: number): Set<number> {
    const { things, waysOf, inTheWay, takersOf } = this.problem;
    const { carries, undoes, needs } = things[at]!;
    const found = new Set([...carries, ...undoes, ...(this.carriers.get(at) ?? []), ...takersOf(at)]);
    const bonds = this.bonds.get(at) ?? [];
    const clauses = [...needs, ...bonds.flatMap((bond) => bond.needs)];
    for (const way of waysOf(at)) {
      const list = inTheWay(at, way);
      if (list === undefined || list.some(({ cleared }) => cleared.length === 0)) continue;
      clauses.push(...list.map(({ cleared }) => cleared));
    }
    for (const clause of clauses) for (const set of clause) for (const place of placesOf(set)) found.add(place);
    const tied = [
      ...bonds.map(({ a, b }) => (a === at ? b : a)),
      ...(this.linesOf.get(at) ?? []).flatMap((line) => [line, ...things[line]!.hangsBetween!]),
    ];
    for (const other of tied) if (other >= 0 && other !== at && this.maySave(other)) found.add(other);
    return found;
  }

  /** What a thing costs at least wherever it comes off: itself, and its fastenings to what never does. */
  private own(place: number): number {
    let sum = this.problem.things[place]!.cost;
    for (const bond of this.bonds.get(place) ?? []) if (this.other(bond, place) === undefined) sum += bond.cost;
    return sum;
  }

  /** Whether more may be saved by a thing's going along with others than it costs. */
  private maySave(place: number): boolean {
    const { things } = this.problem;
    const { hangsBetween, undoes } = things[place]!;
    if (hangsBetween !== undefined) return true;
    let saved = undoes.reduce((sum, end) => sum + things[end]!.cost, 0);
    for (const line of this.linesOf.get(place) ?? [])
      for (const end of things[line]!.undoes) saved += things[end]!.cost;
    for (const bond of this.bonds.get(place) ?? []) if (this.other(bond, place) !== undefined) saved += bond.cost;
    return this.own(place) < saved;
  }

  /** At the other end of a fastening: what may come off. */
  private other({ a, b }: { readonly a: number; readonly b: number }, place: number): number | undefined {
    const other = a === place ? b : a;
    return other < 0 || this.problem.things[other]!.staysOn ? undefined : other;
  }
}

const isBefore = (a: Reached, b: Reached): boolean => a.cost < b.cost || (a.cost === b.cost && a.place < b.place);
