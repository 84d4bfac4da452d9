import { hangsIn, moveOf, offAfter } from './strip-moves.ts';
import type { StripBound } from './strip-bound.ts';
import {
  bit,
  type Clause,
  type InTheWay,
  isMet,
  isWithin,
  placesOf,
  type StripMove,
  type StripProblem,
  type Things,
} from './strip-problem.ts';

/** A plan in the making: what is to come off, and for some of it how. */
export interface Draft {
  /** All that is to come off. */
  readonly wanted: Things;
  /** Those that leave by themselves, with their ways. */
  readonly roots: ReadonlyMap<number, string>;
  /** Those that go with another, carried by it or stood in its way. */
  readonly rides: Things;
  /** By thing: what it takes along because that stood in its way. */
  readonly taken: ReadonlyMap<number, Things>;
  /** Riders that were weighed: they go with what carries them. */
  readonly stay: Things;
}

export const emptyDraft = (goal: Things): Draft => ({
  wanted: goal,
  roots: new Map(),
  rides: 0n,
  taken: new Map(),
  stay: 0n,
});

/** The drafts that settle one thing that this one leaves open; none left: `plan`. */
export type Settling = { readonly drafts: readonly Draft[] } | { readonly plan: readonly StripMove[] };

const wanting = (draft: Draft, set: Things): Draft => ({ ...draft, wanted: draft.wanted | set });
const rooted = (draft: Draft, place: number, way: string): Draft => ({
  ...draft,
  wanted: draft.wanted | bit(place),
  rides: draft.rides & ~bit(place),
  roots: new Map([...draft.roots, [place, way]]),
});
const riding = (draft: Draft, place: number): Draft => {
  const roots = new Map(draft.roots);
  roots.delete(place);
  return { ...draft, wanted: draft.wanted | bit(place), rides: draft.rides | bit(place), roots };
};
const taking = (draft: Draft, taker: number, place: number): Draft => ({
  ...riding(draft, place),
  taken: new Map([...draft.taken, [taker, (draft.taken.get(taker) ?? 0n) | bit(place)]]),
});

/**
 * Settles one open thing of a draft in every way there is: that whose cheapest way makes the plan dearest, so that what cannot be cheap
 * shows early.
 *
 * @param least - what a draft costs at least
 */
export function settled(
  problem: StripProblem,
  bound: StripBound,
  draft: Draft,
  least: (draft: Draft) => number,
): Settling {
  const open = placesOf(draft.wanted & ~draft.rides).filter((place) => !draft.roots.has(place));
  if (open.length > 0)
    return {
      drafts: tightest(
        open.map((place) => leavings(problem, bound, draft, place)),
        least,
      ),
    };
  const riders = riderChoices(problem, bound, draft);
  if (riders.length > 0) return { drafts: tightest(riders, least) };
  const wants = [...draft.roots].flatMap(([root, way]) => unmet(problem, bound, draft, root, way, draft.wanted));
  return wants.length > 0 ? { drafts: tightest(wants, least) } : played(problem, bound, draft);
}

function tightest(choices: readonly (readonly Draft[])[], least: (draft: Draft) => number): readonly Draft[] {
  if (choices.length === 1) return choices[0]!;
  let best: readonly Draft[] = [];
  let highest = -Infinity;
  for (const drafts of choices) {
    let lowest = Infinity;
    for (const draft of drafts) lowest = Math.min(lowest, least(draft));
    if (lowest === Infinity) return [];
    if (lowest > highest) [best, highest] = [drafts, lowest];
  }
  return best;
}

/** Every way in which one thing may leave. */
function leavings(problem: StripProblem, bound: StripBound, draft: Draft, place: number): Draft[] {
  const { hangsBetween } = problem.things[place]!;
  return [
    ...problem.waysOf(place).map((way) => wanting(rooted(draft, place, way), alwaysInWay(problem, place, way))),
    ...(bound.carriers.get(place) ?? []).flatMap((carrier) =>
      bound.movable(carrier) ? [wanting(riding(draft, place), bit(carrier))] : [],
    ),
    ...bound.takersOf(place).map((taker) => wanting(taking(draft, taker, place), bit(taker))),
    ...(hangsBetween?.every((part) => bound.movable(part)) === true
      ? [
          wanting(
            riding(draft, place),
            hangsBetween.reduce((set, part) => set | bit(part), 0n),
          ),
        ]
      : []),
  ];
}

/** What is off by the time a thing has gone this way, before it or with it. */
function alwaysInWay({ inTheWay }: StripProblem, place: number, way: string): Things {
  let set = 0n;
  for (const { cleared } of inTheWay(place, way) ?? []) if (cleared.length === 1) set |= cleared[0]!;
  return set;
}

/**
 * What rides on something may go with something else that it stands in the way of, for less: what ties it to that need not be undone. Each
 * such rider with the drafts for it.
 */
function riderChoices(problem: StripProblem, bound: StripBound, draft: Draft): (readonly Draft[])[] {
  return [...draft.roots.keys()].flatMap((root) => {
    const { set, by } = goesWith(problem, draft, root);
    return [...by.keys()].flatMap((rider) => {
      if (((draft.stay | draft.rides) & bit(rider)) !== 0n || !isTiedBeyond(problem, bound, rider, set)) return [];
      const takers = bound.takersOf(rider).filter((taker) => (set & bit(taker)) === 0n);
      if (takers.length === 0) return [];
      return [
        [
          { ...draft, stay: draft.stay | bit(rider) },
          ...takers.map((taker) => wanting(taking(draft, taker, rider), bit(taker))),
        ],
      ];
    });
  });
}

/** True where a fastening or line joins a thing, or what rides on it, to something that may come off and is not in the load. */
function isTiedBeyond(problem: StripProblem, bound: StripBound, place: number, load: Things): boolean {
  const { things } = problem;
  for (const { a, b } of bound.bonds.get(place) ?? []) if (isBeyond(bound, load, a === place ? b : a)) return true;
  for (const { hangsBetween } of things)
    if (hangsBetween?.includes(place) === true && hangsBetween.some((other) => isBeyond(bound, load, other)))
      return true;
  return things[place]!.carries.some((rider) => isTiedBeyond(problem, bound, rider, load));
}

const isBeyond = (bound: StripBound, load: Things, other: number): boolean =>
  bound.movable(other) && (load & bit(other)) === 0n;

/** What goes with a root as the draft stands: what it carries and what it takes along, less what leaves by itself. */
function goesWith(
  { things }: StripProblem,
  draft: Draft,
  root: number,
): { readonly set: Things; readonly by: ReadonlyMap<number, number> } {
  const by = new Map<number, number>();
  let set = bit(root);
  const list = [root];
  let elsewhere = 0n;
  for (const places of draft.taken.values()) elsewhere |= places;
  const add = (place: number, carrier: number): void => {
    if ((set & bit(place)) !== 0n || draft.roots.has(place)) return;
    if ((elsewhere & ~(draft.taken.get(carrier) ?? 0n) & bit(place)) !== 0n) return;
    set |= bit(place);
    by.set(place, carrier);
    list.push(place);
  };
  for (let i = 0; i < list.length; i++) {
    const at = list[i]!;
    for (const place of placesOf(draft.taken.get(at) ?? 0n)) add(place, at);
    for (const rider of things[at]!.carries) add(rider, at);
  }
  return { set, by };
}

/**
 * For each thing that a root's move still wants, given what is off by then, the drafts that give it: what is in the way off first, or
 * taken along, or what of the load is hindered by it off first by itself.
 */
function unmet(
  problem: StripProblem,
  bound: StripBound,
  draft: Draft,
  root: number,
  way: string,
  off: Things,
): (readonly Draft[])[] {
  const { things } = problem;
  const { set, by } = goesWith(problem, draft, root);
  const members = placesOf(set);
  let ends = 0n;
  for (const place of members) for (const end of things[place]!.undoes) ends |= bit(end);
  const load: Load = { bound, draft, root, set, by, things, off, ends };
  const found: (readonly Draft[])[] = [];
  for (const place of members) {
    const list = problem.inTheWay(place, way);
    if (list === undefined) wantIn(load, found, [], place);
    for (const one of list ?? []) wantIn(load, found, one.cleared, place, one);
    for (const clause of things[place]!.needs) wantIn(load, found, clause, place);
    for (const end of things[place]!.undoes)
      if ((off & bit(end)) === 0n && !hangsEnd(load, end))
        for (const clause of things[end]!.needs) wantIn(load, found, clause, place);
    for (const bond of bound.bonds.get(place) ?? []) {
      const other = bond.a === place ? bond.b : bond.a;
      if (other >= 0 && (set & bit(other)) !== 0n) continue;
      for (const clause of bond.needs) wantIn(load, found, clause, place);
    }
  }
  return found;
}

/** What a root takes with it in a draft, and what is off by the time it goes. */
interface Load {
  readonly bound: StripBound;
  readonly draft: Draft;
  readonly root: number;
  readonly set: Things;
  readonly by: ReadonlyMap<number, number>;
  readonly things: StripProblem['things'];
  readonly off: Things;
  /** Ends of lines on what is in it. */
  readonly ends: Things;
}

/** Adds the drafts that meet one clause of a member of a load, where it is not met. */
function wantIn(
  { bound, draft, root, set, by, things, off, ends }: Load,
  found: (readonly Draft[])[],
  clause: Clause,
  member: number,
  way?: InTheWay,
): void {
  const line = way?.line;
  if (isMet(clause, line === undefined ? off : off | ends) || (way !== undefined && isMet(clause, set))) return;
  if (line !== undefined && hangsIn(things[line]!, set)) return;
  const drafts: Draft[] = [];
  for (const first of clause) {
    // Either end swings a line aside for less than all of it costs; where it is off anyway, its ends are.
    if (line !== undefined && clause.length > 1 && first === bit(line)) continue;
    if (!isWithin(first, bound.relevant) || (first & bit(root)) !== 0n) continue;
    if (!isWithin(first, draft.wanted)) drafts.push(byItself(draft, first, way === undefined ? first & set : 0n));
    // Wanted already, but with something that goes later: it has to leave before that.
    else if (way === undefined && (first & (set | draft.rides)) !== 0n)
      drafts.push(byItself(draft, first, first & (set | draft.rides)));
  }
  const along = way?.along;
  if (along !== undefined && bound.movable(along)) drafts.push(taking(draft, member, along));
  // A line that is in the way may hang between the load and what is taken along.
  for (let at: number | undefined = member; at !== undefined && at !== root; at = by.get(at))
    drafts.push({
      ...wanting(draft, bit(at)),
      rides: draft.rides & ~bit(at),
      roots: draft.roots,
      taken: without(draft, root, at),
    });
  found.push(drafts);
}

/** With more wanted off, some of it by itself: neither carried nor taken along by anything. */
const byItself = (draft: Draft, more: Things, alone: Things): Draft => ({
  ...wanting(draft, more),
  rides: draft.rides & ~alone,
  taken: new Map([...draft.taken].map(([taker, places]) => [taker, places & ~alone])),
});

/** True where a thing is to go with something that is not in this load. */
const isTakenByOther = ({ taken }: Draft, place: number, load: Things): boolean =>
  (load & bit(place)) === 0n && [...taken.values()].some((places) => (places & bit(place)) !== 0n);

const without = (draft: Draft, taker: number, place: number): Draft['taken'] =>
  new Map([...draft.taken, [taker, (draft.taken.get(taker) ?? 0n) & ~bit(place)]]);

/** An end of a line that hangs within the load stays shut. */
const hangsEnd = ({ bound, things, set }: Load, end: number): boolean => {
  const line = bound.lineOfEnd.get(end);
  return line !== undefined && hangsIn(things[line]!, set);
};

/** The draft played through: each root leaves as soon as it can with nothing that leaves by itself; where it sticks, what would help. */
function played(problem: StripProblem, bound: StripBound, draft: Draft): Settling {
  const moves: StripMove[] = [];
  let off: Things = 0n;
  const left = new Set(draft.roots.keys());
  for (let isStuck = false; !isStuck; ) {
    isStuck = true;
    for (const root of [...left]) {
      if ((off & bit(root)) !== 0n) {
        left.delete(root);
        continue;
      }
      const move = moveOf(problem, bound.bonds, off, root, draft.roots.get(root)!);
      if (move === null) continue;
      const { set } = goesWith(problem, draft, root);
      if (move.group.some((place) => place !== root && (left.has(place) || isTakenByOther(draft, place, set))))
        continue;
      moves.push(move);
      off = offAfter(off, move);
      left.delete(root);
      isStuck = false;
    }
  }
  if (isWithin(draft.wanted, off)) return { plan: moves };
  return {
    drafts: [...left].flatMap((root) => unmet(problem, bound, draft, root, draft.roots.get(root)!, off).flat()),
  };
}
