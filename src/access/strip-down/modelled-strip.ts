import { cutsFor } from './strip-cuts.ts';
import type { StripBound } from './strip-bound.ts';
import { StripModel } from './strip-model.ts';
import { SomePlan } from './some-plan.ts';
import { offAfter } from './strip-moves.ts';
import { isWithin, type Plan, type StripAnswer, type StripProblem, type Things } from './strip-problem.ts';
import { offIn, played, readingOf } from './strip-reading.ts';

/** Plans that differ by less cost the same [min]: what the solver can tell apart. */
const SAME_MIN = 1e-4;
/** Where nothing need be whole, what is off by more than this is taken off. */
const GOOD_PART = 0.4;
/** Times the model is solved, and steps of the simplex method in all, before it is given up: some three seconds. */
const MOST_ROUNDS = 120;
const MOST_STEPS = 4500;

/**
 * The cheapest sequence of moves to the goal, proved least among the ways given: the least answer of an integer program that knows no order
 * is played through; while that sticks, rows are added that it breaks and no plan does, and it is solved again.
 *
 * @param plan - one that is to be bettered; null: none is known
 * @param goOn - false: no more is looked for
 */
export function modelledStrip(
  problem: StripProblem,
  bound: StripBound,
  plan: Plan | null,
  goOn: () => boolean = () => true,
): StripAnswer {
  const always = bound.alwaysWith(problem.goal);
  if (always === null) return { kind: 'none' };
  const most = problem.most ?? MOST_ROUNDS;
  let best = plan ?? { moves: [], cost: Infinity };
  const model = new StripModel(problem, bound, best.cost);
  let atLeast = bound.leastCost(always);
  // What is off for a good part where nothing need be whole makes a better plan to begin with: the proof is the shorter for it.
  const relaxed = model.program.least(best.cost - SAME_MIN, MOST_STEPS, true);
  let steps = relaxed.steps;
  if (relaxed.kind === 'none') return bestOrNone(best, true);
  if (relaxed.kind === 'found') {
    atLeast = Math.max(atLeast, relaxed.cost);
    best = cheaper(problem, best, offIn(model, relaxed.values, GOOD_PART));
  }
  for (let round = 0; round < most && steps < MOST_STEPS && goOn(); round++) {
    const answer = model.program.least(best.cost - SAME_MIN, MOST_STEPS - steps);
    steps += answer.steps;
    if (answer.kind === 'none') return bestOrNone(best, true);
    if (answer.kind === 'cut short') {
      atLeast = Math.max(atLeast, answer.atLeast);
      break;
    }
    atLeast = Math.max(atLeast, answer.cost);
    const reading = readingOf(model, answer.values);
    const { moves, off } = played(problem, bound.bonds, reading);
    if (isWithin(problem.goal, off)) {
      const cost = moves.reduce((sum, move) => sum + move.cost, 0);
      if (cost < best.cost) best = { moves, cost };
      if (cost < answer.cost + SAME_MIN) return { kind: 'found', ...best, isProved: true };
    }
    best = cheaper(problem, best, reading.off);
    if (best.cost < answer.cost + SAME_MIN) return { kind: 'found', ...best, isProved: true };
    const cuts = cutsFor(problem, bound.bonds, model, reading, off);
    if (cuts.length === 0) break;
    for (const { least, terms } of cuts) model.program.atLeast(least, terms);
  }
  return bestOrNone(best, false, atLeast);
}

const bestOrNone = (best: Plan, isProved: boolean, atLeast = best.cost): StripAnswer =>
  best.cost === Infinity
    ? { kind: 'none' }
    : { kind: 'found', ...best, isProved, ...(isProved ? {} : { atLeast: Math.min(atLeast, best.cost) }) };

/** A plan that takes off these only, or these and what the one known does, in an order that goes, where it costs less. */
function cheaper(problem: StripProblem, known: Plan, off: Things): Plan {
  let best = known;
  for (const places of [off, known.moves.reduce(offAfter, off)]) {
    const other = new SomePlan(problem).within(places);
    if (other !== null && other.cost < best.cost) best = other;
  }
  return best;
}
