import type { Car } from '#car';
import type { LinesWorld, Planned } from '#lines';
import type { Snag } from '#snags';
import { compare, type Comparison, keptLines, withKept } from '#stock';
import { planCar } from './plan-car.ts';
import { snagsOf } from './snags-of.ts';

/** What a change costs, and how the second car then stands. */
export interface CarsCompared {
  readonly comparison: Comparison;
  readonly planned: Planned;
  readonly snags: readonly Snag[];
}

/**
 * From one car to the other. What is taken in the first counts as it was taken, the rest of it is planned; of the second, lines whose
 * hose still does stay as they are, and the rest is planned round them.
 */
export function compareCars(a: LinesWorld, b: LinesWorld): CarsCompared {
  const plannedA = planCar({ ...a, car: takenAsMade(a.car) });
  const kept = keptLines(a, plannedA, b);
  const standing = { ...b, car: withKept(b.car, kept) };
  const planned = planCar(standing);
  return { comparison: compare(a, plannedA, b, planned, kept), planned, snags: snagsOf(standing, planned) };
}

/** The car with the lines that a way is taken for standing as made; the car itself where there is none. */
export function takenAsMade(car: Car): Car {
  if (!car.lines.some((line) => line.state === 'planned' && line.taken)) return car;
  const lines = car.lines.map((line) =>
    line.state === 'planned' && line.taken ? { ...line, state: 'made' as const } : line,
  );
  return { ...car, lines };
}
