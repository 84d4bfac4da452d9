import { MessageChannel } from 'node:worker_threads';
import { type bookNuts, type CarsCompared, plannedInTurn, planKey, takenAsMade, wayAloneKey } from '#answers';
import { findLine, type Line } from '#car';
import type { Planned, Way } from '#lines';
import { fewerRefused, type KeptLines, makingWay, type WayMade, withKept } from '#stock';
import { type CarInput, withLines } from './car-input.ts';
import { Hand } from './hand.ts';
import type { KeptAnswers } from './kept-answers.ts';
import { keyInputs } from './key-inputs.ts';
import type { PlanAnswer } from './tasks.ts';

/** How the work stands: which part of it, and how much of that part is done; false ends it. */
export type Told = (part: 'alone' | 'together', done: number, total: number) => boolean;
/** As `Told`, for two cars planned one after the other. */
export type ToldOfTwo = (car: 'first' | 'second', ...told: Parameters<Told>) => boolean;

export interface CrewWish {
  /** Threads; the answer is the same for any number. */
  readonly hands?: number | undefined;
  /** Where answers are kept from one run of the program to the next. */
  readonly kept?: KeptAnswers | undefined;
}

/** A plan, and when it was worked out if that was not now. */
export interface CrewPlan extends PlanAnswer {
  readonly keptAt?: Date;
}

/** Two cars compared, and when their plans were worked out if that was not now. */
export interface CrewCompared extends CarsCompared {
  /** The first car as planned: what the second was held against. */
  readonly first: Planned;
  readonly keptAt: { readonly first?: Date; readonly second?: Date };
}

/** Threads used where nothing is said: more cost more memory than they save time on a small machine. */
const USUAL_HANDS = 2;

/** The ways of one line, worked out on another thread. */
export const crewWays = (input: CarInput, line: string, count: number): Promise<Way[]> =>
  withHands(1, ([hand]) => hand!.run('ways', { input, line, count }));

/**
 * All lines of a car: each alone on whichever thread is free, then all together, with a second thread to work lines out ahead. The same
 * answer on any number of threads, since what is worked out does not depend on who does it; and the same again from what was kept.
 */
export const crewPlan = (input: CarInput, told: Told, wish: CrewWish = {}): Promise<CrewPlan> => {
  const before = keptPlan(input, wish.kept);
  if (before !== undefined) return Promise.resolve(before);
  const most = Math.min(wish.hands ?? USUAL_HANDS, plannedInTurn(input.car).length);
  return withHands(most, (crew) => planned(crew, input, told, wish.kept));
};

/** From one car to the other, as `compareCars`, both planned by all threads; null where it was called off. */
export function crewCompared(
  from: CarInput,
  to: CarInput,
  told: ToldOfTwo,
  { hands = USUAL_HANDS, kept }: CrewWish = {},
): Promise<CrewCompared | null> {
  return withHands(hands, async (crew) => {
    const planOf = async (input: CarInput, car: 'first' | 'second'): Promise<CrewPlan> =>
      keptPlan(input, kept) ?? planned(crew, input, (...how) => told(car, ...how), kept);
    const first = await planOf(withLines(from, takenAsMade(from.car)), 'first');
    if (first.planned.stopped) return null;
    const stay = await crew[0]!.run('kept', { from, plannedFrom: first.planned, to });
    const planRound = (lines: KeptLines): Promise<CrewPlan> => planOf(withLines(to, withKept(to.car, lines)), 'second');
    const round = await planRound(stay);
    const fewer = makingWay(stay, round.planned, to.car);
    const isHelped = fewer !== null && !round.planned.stopped && (await helpsAny(crew[0]!, to, fewer, kept));
    const again = isHelped ? await planRound(fewer) : null;
    if (round.planned.stopped || again?.planned.stopped === true) return null;
    const isBetter = again !== null && fewerRefused(again.planned, round.planned);
    const [lines, second] = isBetter ? [fewer!, again] : [stay, round];
    const comparison = await crew[0]!.run('compare', {
      from,
      plannedFrom: first.planned,
      to,
      planned: second.planned,
      kept: lines,
    });
    return {
      comparison,
      first: first.planned,
      planned: second.planned,
      snags: second.snags,
      keptAt: {
        ...(first.keptAt === undefined ? {} : { first: first.keptAt }),
        ...(second.keptAt === undefined ? {} : { second: second.keptAt }),
      },
    };
  });
}

/** Would a line that found no way have one, were those in its way not there? Else nothing is planned again. */
async function helpsAny(hand: Hand, to: CarInput, fewer: WayMade, kept: KeptAnswers | undefined): Promise<boolean> {
  const input = withLines(to, withKept(to.car, fewer));
  for (const id of fewer.wanting) if ((await aloneWay(hand, input, findLine(to.car, id)!, kept)).feasible) return true;
  return false;
}

async function aloneWay(hand: Hand, input: CarInput, line: Line, kept: KeptAnswers | undefined): Promise<Way> {
  const way = await hand.run('alone', { input, line: line.id });
  kept?.keep(wayAloneKey(keyInputs(input), line), way);
  return way;
}

function keptPlan(input: CarInput, kept: KeptAnswers | undefined): CrewPlan | undefined {
  const before = kept?.find<PlanAnswer>(planKey(keyInputs(input)));
  return before === undefined ? undefined : { ...before.value, keptAt: before.madeAt };
}

async function planned(
  crew: readonly Hand[],
  input: CarInput,
  told: Told,
  kept: KeptAnswers | undefined,
): Promise<PlanAnswer> {
  const lines = longestFirst(plannedInTurn(input.car));
  const alone = new Map<string, Way>();
  if (kept !== undefined)
    for (const line of lines) {
      const before = kept.find<Way>(wayAloneKey(keyInputs(input), line));
      if (before !== undefined) alone.set(line.id, before.value);
    }
  const left = lines.filter((line) => !alone.has(line.id));
  let next = 0;
  let isWanted = told('alone', alone.size, lines.length);
  const work = async (hand: Hand): Promise<void> => {
    while (isWanted && next < left.length) {
      const line = left[next++]!;
      alone.set(line.id, await aloneWay(hand, input, line, kept));
      isWanted = told('alone', alone.size, lines.length) && isWanted;
    }
  };
  await Promise.all(crew.map(work));
  if (!told('together', 0, lines.length)) crew[0]!.callOff();
  const answer = await planTogether(crew, input, alone, (done, total) => told('together', done, total));
  // What was cut off is not the answer.
  if (!answer.planned.stopped) kept?.keep(planKey(keyInputs(input)), answer);
  return answer;
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
  const plan = first!.run('plan', { input, alone, help: { port: port1, answered } }, told, [port1]);
  // A helper that dies must not leave the other waiting for its answer; one that is done is free for the next plan.
  return Promise.race([plan, helped.then(() => plan)]).then(async (answer) => {
    await helped;
    return answer;
  });
}

/** Lines that are likely to take long to work out go first, so that no thread waits for another at the end. */
function longestFirst(lines: readonly Line[]): Line[] {
  const effort = ({ pieces, through, fall, rises }: Line): number =>
    pieces.length + (through?.length ?? 0) + (fall !== undefined || rises === true ? 2 : 0);
  return [...lines].sort((p, q) => effort(q) - effort(p));
}

/** Nuts that no tool goes on well, for the book, on another thread. */
export const crewBookNuts = (input: CarInput): Promise<ReturnType<typeof bookNuts>> =>
  withHands(1, ([hand]) => hand!.run('bookNuts', { input }));

async function withHands<T>(count: number, work: (crew: readonly Hand[]) => Promise<T>): Promise<T> {
  const crew = Array.from({ length: Math.max(1, count) }, () => new Hand());
  try {
    return await work(crew);
  } finally {
    await Promise.all(crew.map((hand) => hand.end()));
  }
}
