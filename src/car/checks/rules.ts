import { duties } from '#standards';
import type { Car } from '../schema/car.ts';
import type { Tell } from './car-view.ts';
import { tellTwice } from './car-view.ts';
import { findNearest } from '../nearest.ts';

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
  });
}

const dutyWords = (duty: string) => (): string => {
  const nearest = findNearest(duty, duties);
  return nearest === undefined ? 'a duty' : `a duty (nearest: ${nearest})`;
};

function checkDay(day: string, at: Parameters<Tell>[0], tell: Tell): void {
  if (!DAY.test(day)) tell(at, `"${day}"`, 'a day such as 2026-11-25');
}
