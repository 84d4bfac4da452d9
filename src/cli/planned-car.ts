import { crewPlan, type PlanAnswer } from '#crew';
import { type CarOnFile, carOnFile } from './car-on-file.ts';
import type { Asked } from './command.ts';
import { exitCode } from './exit-code.ts';
import { keptPlans, tellKept } from './kept-plans.ts';
import { progress } from './progress.ts';
import type { Terminal } from './terminal.ts';
import { wholeNumber } from './whole-number.ts';

/** A car with all its planned lines worked out. */
export interface PlannedCar extends CarOnFile, PlanAnswer {}

export interface PlanBounds {
  /** Without a terminal nothing is told of how far it is. */
  readonly isQuiet?: boolean;
  /** Time after which no further line is begun; what that cuts off is not in the plan. */
  readonly seconds?: number;
  /** Told once, as soon as it is clear that no plan is kept, how many lines are begun. */
  readonly begins?: (lines: number) => void;
}

/** Reads and plans a car, or takes the plan kept of it, telling on stderr how far it is; without a terminal only where it is not `isQuiet`. */
export async function plannedCar(
  file: string,
  asked: Asked,
  terminal: Terminal,
  { isQuiet = true, seconds = Infinity, begins }: PlanBounds = {},
): Promise<PlannedCar> {
  const hands = threads(terminal);
  const kept = keptPlans(asked, terminal);
  const onFile = await carOnFile(file);
  // Half of the time at most goes to each line alone, so that some are placed.
  const until = {
    alone: performance.now() + 500 * seconds,
    together: performance.now() + 1000 * seconds,
  };
  const told = {
    alone: progress('each line alone', terminal, isQuiet),
    together: progress('all together', terminal, isQuiet),
  };
  let isBegun = false;
  const answer = await crewPlan(
    onFile.input,
    (part, done, total) => {
      if (!isBegun) begins?.(total);
      isBegun = true;
      told[part].at(done, total);
      if (done >= total) told[part].end();
      return performance.now() < until[part];
    },
    { hands, kept },
  );
  tellKept(file, answer.keptAt, kept, terminal);
  return { ...onFile, ...answer };
}

const MOST_THREADS = 16;

/** FAIRLEAD_THREADS, where the builder wants more or fewer than usual; it changes the time, never the answer. */
export function threads(terminal: Terminal): number | undefined {
  const text = terminal.env['FAIRLEAD_THREADS'];
  return text === undefined || text === '' ? undefined : wholeNumber(text, 'FAIRLEAD_THREADS', 1, MOST_THREADS);
}

/** 1 where a line was refused or a stop is open. */
export function planExit({ planned, snags }: Pick<PlannedCar, 'planned' | 'snags'>): number {
  const isRefused = planned.lines.some((row) => row.taken === null);
  return isRefused || planned.stopped || snags.some((snag) => snag.level === 'stop') ? exitCode.stop : exitCode.done;
}
