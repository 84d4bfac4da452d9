import { duties } from '#standards';
import type { Car } from '../schema/car.ts';
import type { Tell } from './car-view.ts';
import { tellTwice } from './car-view.ts';
import { findNearest } from '../nearest.ts';
import { LINE_STATES } from '../schema/line.ts';

const DAY = /^\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])$/;

/**
 * Rule packs twice, duties that are none, clauses that ask nothing; days that are none. What a clause names on the car is judged where
 * it is looked at: a part may come off the car.
 */
export function checkRules(car: Pick<Car, 'rulePacks' | 'runDays' | 'parts'>, tell: Tell): void {
  const packs = car.rulePacks ?? [];
  tellTwice(
    packs.map(({ id }) => id),
    ['rulePacks'],
    'id',
    tell,
  );
  packs.forEach(({ clauses }, i) =>
    clauses.forEach((clause, k) => {
      const at = ['rulePacks', i, 'clauses', k] as const;
      clause.duties?.forEach((duty, n) => {
        if (!(duties as readonly string[]).includes(duty)) tell([...at, 'duties', n], `"${duty}"`, dutyWords(duty));
      });
      const isBare = clause.least === undefined && clause.most === undefined && clause.is === undefined;
      if (isBare && clause.measure !== 'by-eye')
        tell(at, 'neither least, most nor is', 'one of them, or measure by-eye');
      if (clause.measure === 'state' && clause.is !== undefined && !STATES.includes(clause.is))
        tell([...at, 'is'], `"${clause.is}"`, stateWords(clause.is));
      if (clause.least !== undefined && clause.most !== undefined && clause.least > clause.most)
        tell([...at, 'least'], `${clause.least}`, `no more than most, ${clause.most}`);
    }),
  );
  car.runDays?.forEach(({ on }, i) => checkDay(on, ['runDays', i, 'on'], tell));
  car.parts.forEach((part, i) => {
    for (const field of ['madeOn', 'fittedOn', 'testedOn'] as const) {
      const day = part?.life?.[field];
      if (day !== undefined) checkDay(day, ['parts', i, 'life', field], tell);
    }
    const { madeOn, fittedOn } = part?.life ?? {};
    if (madeOn !== undefined && fittedOn !== undefined && isDay(madeOn) && isDay(fittedOn) && fittedOn < madeOn)
      tell(['parts', i, 'life', 'fittedOn'], `"${fittedOn}"`, `no earlier than madeOn, ${madeOn}`);
  });
}

const STATES: readonly string[] = LINE_STATES;

const stateWords = (state: string) => (): string => {
  const nearest = findNearest(state, STATES);
  return `one of ${STATES.join(', ')}${nearest === undefined ? '' : ` (nearest: ${nearest})`}`;
};

const dutyWords = (duty: string) => (): string => {
  const nearest = findNearest(duty, duties);
  return nearest === undefined ? 'a duty' : `a duty (nearest: ${nearest})`;
};

/** A day of the calendar: the 30th of February is none. */
function isDay(day: string): boolean {
  const [year = 0, month = 0, date = 0] = day.split('-').map(Number);
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  const longest = month === 2 ? (isLeap ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
  return DAY.test(day) && date <= longest;
}

function checkDay(day: string, at: Parameters<Tell>[0], tell: Tell): void {
  if (!isDay(day)) tell(at, `"${day}"`, 'a day such as 2026-11-25');
}
