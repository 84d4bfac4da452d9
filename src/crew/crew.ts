import { plannedInTurn } from '#answers';
import type { CarsCompared } from '#answers';
import type { Way } from '#lines';
import type { CarInput } from './car-input.ts';
import { Hand } from './hand.ts';
import type { PlanAnswer } from './tasks.ts';

/** How the work stands: which part of it, and how much of that part is done; false ends it. */
export type Told = (part: 'alone' | 'together', done: number, total: number) => boolean;

/** Threads used where nothing is said: more cost more memory than they save time on a small machine. */
const USUAL_HANDS = 2;

/** The ways of one line, worked out on another thread. */
export const crewWays = (input: CarInput, line: string, count: number): Promise<Way[]> =>
  withHands(1, ([hand]) => hand!.run('ways', { input, line, count }));

/** Two cars compared, on another thread. */
export const crewCompared = (from: CarInput, to: CarInput, told: Told): Promise<CarsCompared> =>
  withHands(1, ([hand]) => hand!.run('compare', { from, to }, (done, total) => told('together', done, total)));

/**
 * All lines of a car: each alone on whichever thread is free, then all together on one. The same answer on any number of threads, since what
 * a line takes alone does not depend on who works it out.
 */
export function crewPlan(input: CarInput, told: Told, hands: number = USUAL_HANDS): Promise<PlanAnswer> {
  const lines = plannedInTurn(input.car).map((line) => line.id);
  return withHands(Math.min(hands, lines.length), async (crew) => {
    const alone = new Map<string, Way>();
    let next = 0;
    let isWanted = told('alone', 0, lines.length);
    const work = async (hand: Hand): Promise<void> => {
      while (isWanted && next < lines.length) {
        const line = lines[next++]!;
        alone.set(line, await hand.run('alone', { input, line }));
        isWanted = told('alone', alone.size, lines.length) && isWanted;
      }
    };
    await Promise.all(crew.map(work));
    return crew[0]!.run('plan', { input, alone }, (done, total) => told('together', done, total));
  });
}

async function withHands<T>(count: number, work: (crew: readonly Hand[]) => Promise<T>): Promise<T> {
  const crew = Array.from({ length: Math.max(1, count) }, () => new Hand());
  try {
    return await work(crew);
  } finally {
    await Promise.all(crew.map((hand) => hand.end()));
  }
}
