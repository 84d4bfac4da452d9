import { draftedStrip } from './drafted-strip.ts';
import { exactStrip } from './exact-strip.ts';
import { StripBound } from './strip-bound.ts';
import { placesOf, type StripAnswer, type StripProblem } from './strip-problem.ts';
import { scopeOf, type StripWatch } from './strip-scope.ts';

/** Up to this many things that matter, what is off is searched whole. */
const WHOLE_SEARCH = 26;
/** States and drafts looked at before a search gives up. */
const MOST_STATES = 20_000;
export const MOST_DRAFTS = 6000;

/**
 * The cheapest sequence of moves to the goal among the ways given. Where few things matter it is proved least by a whole search over what
 * is off; where many do, by drafts of plans, as far as they are looked at: `isProved` says whether a cheaper one may be left.
 */
export function leastStrip(problem: StripProblem, watch?: StripWatch): StripAnswer {
  const { matters, plan } = scopeOf(problem, watch);
  if (plan === null) return { kind: 'none', looked: 0 };
  const bound = new StripBound(problem, matters).narrowedTo(plan.cost);
  if (bound === null) return { kind: 'found', ...plan, looked: 0, isProved: true };
  if (placesOf(bound.relevant).length <= WHOLE_SEARCH) {
    const exact = exactStrip(problem, bound, plan, problem.most ?? MOST_STATES);
    if (exact !== null) return exact;
  }
  return draftedStrip(problem, bound, plan, problem.most ?? MOST_DRAFTS);
}
