import { modelledStrip } from './modelled-strip.ts';
import { StripBound } from './strip-bound.ts';
import type { StripAnswer, StripProblem } from './strip-problem.ts';
import { scopeOf, type StripWatch } from './strip-scope.ts';

/**
 * The cheapest sequence of moves to the goal among the ways given: some plan first, what may come off in a cheaper one, then the least.
 * `isProved` says whether a cheaper one may be left.
 */
export function leastStrip(problem: StripProblem, watch: StripWatch = () => true): StripAnswer {
  const total = problem.things.length;
  const { matters, plan } = scopeOf(problem, watch);
  const goOn = (): boolean => watch(total, total);
  // What is taken off singly may be missed by what only goes with it: none found so is not yet none.
  if (plan === null) return modelledStrip(problem, new StripBound(problem, matters), null, goOn);
  const bound = new StripBound(problem, matters).narrowedTo(plan.cost);
  if (bound === null) return { kind: 'found', ...plan, isProved: true };
  return modelledStrip(problem, bound, plan, goOn);
}
