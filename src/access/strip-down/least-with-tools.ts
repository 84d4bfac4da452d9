import type { CarProblem } from './car-problem.ts';
import { leastStrip } from './least-strip.ts';
import type { StripAnswer, StripProblem } from './strip-problem.ts';
import type { StripWatch } from './strip-scope.ts';
import { lookAtTools, type ToolsMet, withTools } from './tools-in-plan.ts';

/**
 * The cheapest plan with what tools meet at the nuts that it undoes. A nut that is barred only ever makes a plan dearer: so only those are
 * looked at that the cheapest plan undoes, until it holds none that was not; then no plan with other nuts is cheaper either.
 */
export function leastWithTools(
  car: CarProblem,
  bare: StripProblem,
  watch: StripWatch,
): { readonly problem: StripProblem; readonly answer: StripAnswer; readonly met: ToolsMet } {
  const met: ToolsMet = new Map();
  for (;;) {
    const problem = withTools(car, bare, met);
    const answer = leastStrip(problem, watch);
    if (answer.kind !== 'found' || !lookAtTools(car, answer.moves, met)) return { problem, answer, met };
  }
}
