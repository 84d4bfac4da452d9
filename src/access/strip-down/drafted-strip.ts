import type { StripBound } from './strip-bound.ts';
import { type Draft, emptyDraft, settled } from './strip-draft.ts';
import { bit, placesOf, type Plan, SAME_COST, type StripAnswer, type StripProblem } from './strip-problem.ts';
import { putIn, takeFirst } from './heap.ts';

interface Row {
  readonly draft: Draft;
  readonly bound: number;
  readonly number: number;
}

/**
 * The cheapest sequence of moves to the goal, proved least among the ways given. Drafts of a plan are settled one open choice at a time:
 * how a thing leaves, what in its way is taken off first or taken along. The draft that costs least at least comes first, so that the
 * first whole plan that costs no more than any draft left is the least.
 *
 * @param plan - one that is to be bettered
 */
export function draftedStrip(problem: StripProblem, bound: StripBound, plan: Plan, most: number): StripAnswer {
  const heap: Row[] = [];
  const seen = new Set<string>();
  let made = 0;
  let best = plan;
  const known = new Map<string, number>();
  const least = (draft: Draft): number => {
    const { wanted, roots, taken } = draft;
    let apart = 0n;
    let key = wanted.toString(32);
    for (const [root, way] of roots) {
      apart |= bit(root);
      key += ` ${root} ${way}`;
    }
    for (const [taker, places] of taken) if (places !== 0n) key += ` ${taker}>${places.toString(32)}`;
    let cost = known.get(key);
    if (cost === undefined) {
      const always = bound.alwaysWith(wanted);
      if (always === null || isRound(taken)) cost = Infinity;
      else {
        const onWay = [...roots].flatMap(([root, way]) =>
          takenWith(draft, root).flatMap((place) => bound.wantsOnWay(place, way, always)),
        );
        cost = bound.leastCost(always, 0n, apart, onWay);
      }
      known.set(key, cost);
    }
    return cost < best.cost - SAME_COST ? cost : Infinity;
  };
  const push = (draft: Draft): void => {
    const key = keyOf(draft);
    if (seen.has(key)) return;
    seen.add(key);
    const cost = least(draft);
    if (cost < Infinity) putIn(heap, { draft, bound: cost, number: made++ }, isBefore);
  };
  push(emptyDraft(problem.goal));
  let looked = 0;
  for (let row = takeFirst(heap, isBefore); row !== undefined; row = takeFirst(heap, isBefore)) {
    if (row.bound >= best.cost - SAME_COST) break;
    if (++looked > most) return { kind: 'found', ...best, looked, isProved: false, atLeast: row.bound };
    const next = settled(problem, bound, row.draft, least);
    if ('drafts' in next) {
      next.drafts.forEach(push);
      continue;
    }
    const cost = next.plan.reduce((sum, move) => sum + move.cost, 0);
    if (cost < best.cost) best = { moves: next.plan, cost };
  }
  return { kind: 'found', ...best, looked, isProved: true };
}

function keyOf({ wanted, roots, rides, taken, stay }: Draft): string {
  const ways = [...roots].toSorted(([a], [b]) => a - b).map(([place, way]) => `${place} ${way}`);
  const with_ = [...taken].toSorted(([a], [b]) => a - b).map(([root, set]) => `${root} ${set.toString(32)}`);
  return `${wanted.toString(32)}|${ways.join()}|${rides.toString(32)}|${with_.join()}|${stay.toString(32)}`;
}

/** The lesser bound first; of equal ones the more settled, then what was found first. */
const isBefore = (a: Row, b: Row): boolean =>
  a.bound !== b.bound
    ? a.bound < b.bound
    : a.draft.roots.size !== b.draft.roots.size
      ? a.draft.roots.size > b.draft.roots.size
      : a.number < b.number;

/** A root and what it takes along by choice, all the way up: these leave its way. */
function takenWith({ taken, roots }: Draft, root: number): readonly number[] {
  const list = [root];
  for (let i = 0; i < list.length; i++)
    for (const place of placesOf(taken.get(list[i]!) ?? 0n))
      if (!list.includes(place) && !roots.has(place)) list.push(place);
  return list;
}

/** True where things are to be taken along by each other all round: no plan is left in it. */
function isRound(taken: Draft['taken']): boolean {
  const takes = (from: number, place: number, depth: number): boolean =>
    depth < 8 && placesOf(taken.get(place) ?? 0n).some((next) => next === from || takes(from, next, depth + 1));
  return [...taken.keys()].some((taker) => takes(taker, taker, 0));
}
