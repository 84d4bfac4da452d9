import { bit, type Clause, placesOf, type StripProblem, type Things } from './strip-problem.ts';

export function bondsByThing({ bonds }: StripProblem): ReadonlyMap<number, StripProblem['bonds']> {
  const by = new Map<number, StripProblem['bonds'][number][]>();
  for (const bond of bonds)
    for (const place of [bond.a, bond.b])
      if (place >= 0) {
        const list = by.get(place);
        if (list === undefined) by.set(place, [bond]);
        else list.push(bond);
      }
  return by;
}

/** By place: the things that it sits on. */
export function carriersOf({ things }: StripProblem): ReadonlyMap<number, readonly number[]> {
  const by = new Map<number, number[]>();
  things.forEach((thing, at) => {
    for (const rider of thing.carries) by.set(rider, [...(by.get(rider) ?? []), at]);
  });
  return by;
}

/**
 * For each relevant thing, what every plan takes off that takes it off, given what is off already: the least sets that agree with
 * how things come off.
 */
export function alwaysWith(
  problem: StripProblem,
  relevant: Things,
  off: Things,
  carriers: ReadonlyMap<number, readonly number[]>,
  bonds: ReadonlyMap<number, StripProblem['bonds']>,
): ReadonlyMap<number, Things> {
  const all = (1n << BigInt(problem.things.length)) - 1n;
  const places = placesOf(relevant & ~off);
  const sets = new Map(places.map((place) => [place, bit(place)] as const));
  const ofThing = (place: number): Things => ((off & bit(place)) !== 0n ? 0n : (sets.get(place) ?? all));
  const ofClause = (clause: Clause): Things => {
    let common = all;
    for (const set of clause) {
      let together = 0n;
      for (const place of placesOf(set & ~off)) together |= ofThing(place);
      common &= together;
      if (common === 0n) break;
    }
    return common;
  };
  const worked = (at: number): Things => {
    const thing = problem.things[at]!;
    let needs = bit(at);
    for (const rider of thing.carries) needs |= ofThing(rider);
    for (const clause of thing.needs) needs |= ofClause(clause);
    for (const bond of bonds.get(at) ?? []) {
      const other = bond.a === at ? bond.b : bond.a;
      if (other >= 0 && !problem.things[other]!.staysOn) continue;
      for (const clause of bond.needs) needs |= ofClause(clause);
    }
    let byWay = all;
    for (const way of problem.waysOf(at)) {
      const list = problem.inTheWay(at, way);
      if (list === undefined) continue;
      let before = 0n;
      for (const { cleared } of list) before |= ofClause(cleared);
      byWay &= before;
      if (byWay === 0n) break;
    }
    for (const carrier of carriers.get(at) ?? []) if (!problem.things[carrier]!.staysOn) byWay &= ofThing(carrier);
    if (thing.hangsBetween !== undefined) {
      let ends = 0n;
      for (const part of thing.hangsBetween) ends |= ofThing(part);
      byWay &= ends;
    }
    return needs | byWay;
  };
  for (let isChanged = true; isChanged; ) {
    isChanged = false;
    for (const at of places) {
      const set = worked(at);
      if (set === sets.get(at)) continue;
      sets.set(at, set);
      isChanged = true;
    }
  }
  return sets;
}
