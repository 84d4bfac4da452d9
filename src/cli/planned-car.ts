import { crewPlan, type PlanAnswer } from '#crew';
import { type CarOnFile, carOnFile } from './car-on-file.ts';
import { exitCode } from './exit-code.ts';
import { progress } from './progress.ts';
import type { Terminal } from './terminal.ts';
import { wholeNumber } from './whole-number.ts';

/** A car with all its planned lines worked out. */
export interface PlannedCar extends CarOnFile, PlanAnswer {}

/** Reads and plans a car, telling on stderr how far it is; without a terminal only where it is not `isQuiet`. */
export async function plannedCar(file: string, terminal: Terminal, isQuiet = true): Promise<PlannedCar> {
  const hands = threads(terminal);
  const onFile = await carOnFile(file);
  const told = {
    alone: progress('each line alone', terminal, isQuiet),
    together: progress('all together', terminal, isQuiet),
  };
  const answer = await crewPlan(
    onFile.input,
    (part, done, total) => {
      told[part].at(done, total);
      if (done >= total) told[part].end();
      return true;
    },
    hands,
  );
  return { ...onFile, ...answer };
}

const MOST_THREADS = 16;

/** FAIRLEAD_THREADS, where the builder wants more or fewer than usual; it changes the time, never the answer. */
function threads(terminal: Terminal): number | undefined {
  const text = terminal.env['FAIRLEAD_THREADS'];
  return text === undefined || text === '' ? undefined : wholeNumber(text, 'FAIRLEAD_THREADS', 1, MOST_THREADS);
}

/** 1 where a line was refused or a stop is open. */
export function planExit({ planned, snags }: Pick<PlannedCar, 'planned' | 'snags'>): number {
  const isRefused = planned.lines.some((row) => row.taken === null);
  return isRefused || snags.some((snag) => snag.level === 'stop') ? exitCode.stop : exitCode.done;
}
