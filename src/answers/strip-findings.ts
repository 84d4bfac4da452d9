import type { AccessFinding } from '#access';
import type { LinesWorld, PlannedLine } from '#lines';
import type { StripOf, StripWin } from './strip-answer.ts';
import { neverOffOf, stripOf } from './strip-of.ts';

/** Wins told as cures: as many as a hand has fingers to count them on. */
const MOST_WINS = 5;

/**
 * What strip-down leaves open: jobs of a break that take longer than it, with what would win; jobs for which no way out was found; parts
 * for which no order on was found.
 */
export function stripFindings(world: LinesWorld, lines: readonly PlannedLine[]): readonly AccessFinding[] {
  const { car } = world;
  const jobs = [...new Set((car.workshop?.breaks ?? []).flatMap(({ jobs: ids }) => ids ?? []))];
  const hasFasteners = car.parts.some(({ fasteners }) => fasteners !== undefined);
  return [
    ...jobs.flatMap((id) => jobFindings(world, lines, id)),
    ...(hasFasteners ? neverOffOf(world, lines).map(noOrder) : []),
  ];
}

function jobFindings(world: LinesWorld, lines: readonly PlannedLine[], id: string): AccessFinding[] {
  const answer = stripOf(world, lines, id);
  const about = world.car.parts.some((part) => part.id === id) ? { part: id } : { line: id };
  if (answer.found === 'none')
    return [
      {
        code: 'no-way-off',
        level: 'fix',
        ...about,
        text: `${answer.name}: no way was found to get it off, which does not say that there is none; pulled ${answer.blockedBy.join('; ') || 'any way, it stays held'}`,
        source: 'the ways out that were looked for',
        cures: [],
      },
    ];
  const over = answer.breaks.filter(({ fits }) => !fits);
  if (over.length === 0) return [];
  const { wins } = stripOf(world, lines, id, { wins: true });
  return over.map(({ name, minutes, jobMinutes }) => ({
    code: 'job-longer-than-break',
    level: 'fix' as const,
    ...about,
    text: `${name} there are ${whole(minutes)} min: changing ${answer.name} takes ${whole(jobMinutes)} with ${answer.crew}`,
    value: whole(jobMinutes),
    limit: minutes,
    unit: 'min',
    source: 'from-memory',
    cures: wins.slice(0, MOST_WINS).map(winText),
    inputs: inputsOf(answer),
  }));
}

const whole = (minutes: number): number => Math.round(minutes);

const winText = ({ words, crewMinutes, savedMin, minutes }: StripWin): string =>
  `${words}: ${whole(crewMinutes)} min (${whole((savedMin * crewMinutes) / minutes)} less)`;

const inputsOf = (answer: StripOf): { readonly name: string; readonly value: string }[] =>
  answer.steps.map((step) => ({
    name: `step ${step.number}`,
    value: `${step.words}, ${step.minutes.toFixed(1)} min alone`,
  }));

const noOrder = ({ id, name, behind }: ReturnType<typeof neverOffOf>[number]): AccessFinding => ({
  code: 'no-fitting-order',
  level: 'note',
  part: id,
  text: `${name}: no order was found in which it goes on or off, whatever else is off; that does not say that there is none${behind.length === 0 ? '' : `. On its straightest way: ${behind.join(', ')}`}`,
  source: 'the ways out that were looked for',
  cures: ['say under "pulls" which way it goes, or under "comesAfter" and "sitsOn" what goes with it'],
});
