import { MessageChannel } from 'node:worker_threads';
import { plannedInTurn } from '#answers';
import type { CarsCompared } from '#answers';
import type { Line } from '#car';
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
 * All lines of a car: each alone on whichever thread is free, then all together, with a second thread to work lines out ahead. The same
 * answer on any number of threads, since what is worked out does not depend on who does it.
 */
export function crewPlan(input: CarInput, told: Told, hands: number = USUAL_HANDS): Promise<PlanAnswer> {
  const lines = longestFirst(plannedInTurn(input.car));
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
    return planTogether(crew, input, alone, (done, total) => told('together', done, total));
  });
}

/** All lines together on the first thread; the second, where there is one, works lines out ahead for it. */
function planTogether(
  [first, second]: readonly Hand[],
  input: CarInput,
  alone: ReadonlyMap<string, Way>,
  told: (done: number, total: number) => boolean,
): Promise<PlanAnswer> {
  if (second === undefined) return first!.run('plan', { input, alone, help: null }, told);
  const { port1, port2 } = new MessageChannel();
  const answered = new Int32Array(new SharedArrayBuffer(4));
  const helped = second.run('helpAhead', { input, port: { port: port2, answered } }, undefined, [port2]);
  const planned = first!.run('plan', { input, alone, help: { port: port1, answered } }, told, [port1]);
  // A helper that dies must not leave the other waiting for its answer.
  return Promise.race([planned, helped.then(() => planned)]);
}

/** Lines that are likely to take long to work out go first, so that no thread waits for another at the end. */
function longestFirst(lines: readonly Line[]): string[] {
  const effort = ({ pieces, through, fall, rises }: Line): number =>
    pieces.length + (through?.length ?? 0) + (fall !== undefined || rises === true ? 2 : 0);
  return [...lines].sort((p, q) => effort(q) - effort(p)).map((line) => line.id);
}

async function withHands<T>(count: number, work: (crew: readonly Hand[]) => Promise<T>): Promise<T> {
  const crew = Array.from({ length: Math.max(1, count) }, () => new Hand());
  try {
    return await work(crew);
  } finally {
    await Promise.all(crew.map((hand) => hand.end()));
  }
}
