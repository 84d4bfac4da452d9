import type { Car } from '#car';
import type { Finding } from '#sources';
import { type DueItem, stopsTheCar } from './due-list.ts';

/** A finding about something with a life. */
export interface DueFinding extends Finding {
  readonly line?: string;
  readonly part?: string;
  readonly cures: readonly string[];
}

/** From this share of its life on something is told. */
const SOON_SHARE = 0.85;

/** What is due, or nearly: a fix where it stops the car, else a note. */
export const dueFindings = (car: Car, items: readonly DueItem[]): readonly DueFinding[] =>
  items.flatMap((item) => ((item.usedShare ?? 0) >= SOON_SHARE ? [findingOf(car, item)] : []));

function findingOf(car: Car, item: DueItem): DueFinding {
  const line = item.kind === 'part' ? undefined : item.lines[0];
  const served = car.lines.filter(({ id }) => item.lines.includes(id));
  const isGrave = item.isDue && (item.kind === 'part' || served.some(stopsTheCar));
  return {
    code: item.kind === 'seals' ? 'seals-due' : 'life-due',
    level: isGrave ? 'fix' : 'note',
    ...(line === undefined ? {} : { line }),
    ...(item.kind === 'part' ? { part: item.id } : {}),
    text: `${item.id}: ${item.isDue ? 'due' : 'nearly due'}: ${standsWords(item)}`,
    value: Math.round(100 * (item.usedShare ?? 0)),
    limit: 100,
    unit: '% of its life',
    source: item.source,
    cures: [
      item.kind === 'part' ? 'renew or overhaul it, and enter the day' : 'make it anew, and sign it as made and fitted',
    ],
  };
}

/** "made 2022-03-01, 57 of 60 months; 13 of 60 runs". */
export function standsWords(item: DueItem): string {
  const dates = [
    item.madeOn === undefined ? [] : [`made ${item.madeOn}`],
    item.fittedOn === undefined ? [] : [`fitted ${item.fittedOn}`],
    item.testedOn === undefined ? [] : [`tested ${item.testedOn}`],
  ].flat();
  const used = [
    item.standsMonths === undefined || item.months === null
      ? []
      : [`${item.months.toFixed(0)} of ${item.standsMonths} months`],
    item.standsRuns === undefined ? [] : [`${item.runs} of ${item.standsRuns} runs`],
    item.standsHeatCycles === undefined ? [] : [`${item.heatCycles} of ${item.standsHeatCycles} heat cycles`],
  ].flat();
  if (dates.length === 0 && used.length === 0) return 'no day entered';
  const did =
    item.standsRuns === undefined && item.runs > 0 ? [`${item.runs} runs, ${item.heatCycles} heat cycles so far`] : [];
  return [dates.join(', '), ...used, ...did].filter((words) => words !== '').join('; ');
}
