import type { LinesWorld, PlannedLine } from '#lines';
import type { StripOf } from './strip-answer.ts';
import { stripOf } from './strip-of.ts';

/** One job of a break: how long it takes with the crew, and whether that is within the break. */
export interface BreakJob extends Pick<StripOf, 'target' | 'name' | 'found' | 'isProved' | 'minutes' | 'litres'> {
  /** Off and on again with that crew [min]. */
  readonly crewMinutes: number;
  readonly steps: number;
  readonly fits: boolean;
}

/** A break that the car file names, with the jobs that are to be done in it, the longest first. */
export interface BreakJobs {
  readonly name: string;
  readonly minutes: number;
  readonly crew: number;
  readonly jobs: readonly BreakJob[];
}

/**
 * The jobs of every break, each as a change of the part, panel or line.
 *
 * @param wish - `crew`: how many work on the car, as the workshop says if absent; `watch`: told how many jobs are done, of how many;
 * `false` stops, and what is left is "stopped"
 */
export function breakJobs(
  world: LinesWorld,
  lines: readonly PlannedLine[],
  { crew, watch = () => true }: { crew?: number; watch?: (done: number, total: number) => boolean } = {},
): BreakJobs[] {
  const breaks = world.car.workshop?.breaks ?? [];
  const ids = [...new Set(breaks.flatMap(({ jobs }) => jobs ?? []))];
  const answers = new Map(
    ids.map((id, n) => [
      id,
      stripOf(world, lines, id, { watch: () => watch(n, ids.length), ...(crew === undefined ? {} : { crew }) }),
    ]),
  );
  return breaks.map(({ name, minutes, jobs = [] }) => ({
    name,
    minutes,
    crew: crew ?? world.car.workshop?.crew ?? 1,
    jobs: jobs.map((id) => jobOf(answers.get(id)!, minutes)).toSorted((a, b) => b.crewMinutes - a.crewMinutes),
  }));
}

const jobOf = (answer: StripOf, breakMinutes: number): BreakJob => ({
  target: answer.target,
  name: answer.name,
  found: answer.found,
  isProved: answer.isProved,
  minutes: answer.minutes,
  crewMinutes: answer.crewMinutes,
  litres: answer.litres,
  steps: answer.steps.length,
  fits: answer.found === 'found' && answer.crewMinutes <= breakMinutes,
});
