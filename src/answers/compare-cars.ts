import { type Car, findLine } from '#car';
import type { LinesWorld, Planned } from '#lines';
import type { Snag } from '#snags';
import { compare, type Comparison, fewerRefused, keptLines, type KeptLines, makingWay, withKept } from '#stock';
import { planCar, wayAlone } from './plan-car.ts';
import { planSnagsOf } from './snags-of.ts';

/** What a change costs, and how the second car then stands. */
export interface CarsCompared {
  readonly comparison: Comparison;
  readonly planned: Planned;
  readonly snags: readonly Snag[];
}

/**
 * From one car to the other. What is taken in the first counts as it was taken, the rest of it is planned; of the second, lines whose
 * hose still does stay as they are, and the rest is planned round them. Where a line finds no way because of a kept one, and finds one
 * without it, the kept one makes way.
 */
export function compareCars(a: LinesWorld, b: LinesWorld): CarsCompared {
  const plannedA = planCar({ ...a, car: takenAsMade(a.car) });
  const stay = keptLines(a, plannedA, b);
  const first = planned(b, stay);
  const fewer = makingWay(stay, first.planned, b.car);
  const isHelped = fewer?.wanting.some((id) => wayAlone(standing(b, fewer), findLine(b.car, id)!).feasible) === true;
  const second = isHelped ? planned(b, fewer!) : null;
  const isBetter = second !== null && fewerRefused(second.planned, first.planned);
  const [kept, then] = isBetter ? [fewer!, second] : [stay, first];
  return {
    comparison: compare(a, plannedA, b, then.planned, kept),
    planned: then.planned,
    snags: planSnagsOf(then.world, then.planned),
  };
}

function planned(b: LinesWorld, kept: KeptLines): { world: LinesWorld; planned: Planned } {
  const world = standing(b, kept);
  return { world, planned: planCar(world) };
}

const standing = (b: LinesWorld, kept: KeptLines): LinesWorld => ({ ...b, car: withKept(b.car, kept) });

/** The car with the lines that a way is taken for standing as made; the car itself where there is none. */
export function takenAsMade(car: Car): Car {
  if (!car.lines.some((line) => line.state === 'planned' && line.taken)) return car;
  const lines = car.lines.map((line) =>
    line.state === 'planned' && line.taken ? { ...line, state: 'made' as const } : line,
  );
  return { ...car, lines };
}
