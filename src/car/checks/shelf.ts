import { shown } from '../fault.ts';
import type { Car } from '../schema/car.ts';
import { CATALOGUE_TABLES } from '../schema/catalogue.ts';
import type { Tell } from './car-view.ts';
import { tellTwice } from './car-view.ts';

/** What is wrong with the builder's own rows and the box: ids twice, hoses that contradict themselves. */
export function checkShelf(car: Pick<Car, 'catalogue' | 'box'>, tell: Tell): void {
  for (const table of CATALOGUE_TABLES) {
    const rows = car.catalogue?.[table] ?? [];
    tellTwice(
      rows.map((row) => row.id),
      ['catalogue', table],
      'id',
      tell,
    );
  }
  car.catalogue?.hoses?.forEach((hose, i) => {
    const at = ['catalogue', 'hoses', i];
    if (hose.boreMm >= hose.odMm)
      tell(at, `boreMm ${hose.boreMm}, odMm ${hose.odMm}`, 'a bore less than the outside diameter');
    if (hose.minBendRadiusMm < hose.odMm / 2)
      tell(
        [...at, 'minBendRadiusMm'],
        shown(hose.minBendRadiusMm),
        `at least half of odMm ${hose.odMm}: it is measured to the centreline`,
      );
  });
  tellTwice(
    (car.box ?? []).map((row) => row.id),
    ['box'],
    'id',
    tell,
  );
}
