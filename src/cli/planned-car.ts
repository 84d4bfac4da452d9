import { planCar, snagsOf } from '#answers';
import type { Planned } from '#lines';
import type { Snag } from '#snags';
import { type CarOnFile, carOnFile } from './car-on-file.ts';
import { exitCode } from './exit-code.ts';
import { progress } from './progress.ts';
import type { Terminal } from './terminal.ts';

/** A car with all its planned lines worked out. */
export interface PlannedCar extends CarOnFile {
  readonly planned: Planned;
  readonly snags: readonly Snag[];
}

/** Reads and plans a car, telling on stderr how far it is. */
export async function plannedCar(file: string, terminal: Terminal, isQuiet = true): Promise<PlannedCar> {
  const onFile = await carOnFile(file);
  const told = progress('planning', terminal, isQuiet);
  const planned = planCar(onFile.world, (done, total) => {
    told.at(done, total);
    return true;
  });
  told.end();
  return { ...onFile, planned, snags: snagsOf(onFile.world, planned) };
}

/** 1 where a line was refused or a stop is open. */
export function planExit({ planned, snags }: Pick<PlannedCar, 'planned' | 'snags'>): number {
  const isRefused = planned.lines.some((row) => row.taken === null);
  return isRefused || snags.some((snag) => snag.level === 'stop') ? exitCode.stop : exitCode.done;
}
