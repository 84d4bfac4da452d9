import type { Car } from '#car';
import type { LinesWorld, Planned } from '#lines';
import type { Snag } from '#snags';
import { compare, type Comparison, keptLines, withKept } from '#stock';
import { planCar, type Watch } from './plan-car.ts';
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
export function compareCars(a: LinesWorld, b: LinesWorld, watch?: Watch): CarsCompared {
  const halves = watch === undefined ? [undefined, undefined] : halvesOf(watch);
  const plannedA = planCar({ ...a, car: withTakenStanding(a.car) }, halves[0]);
  const kept = keptLines(a, plannedA, b);
  const standing = { ...b, car: withKept(b.car, kept) };
  const planned = planCar(standing, halves[1]);
  return { comparison: compare(a, plannedA, b, planned, kept), planned, snags: snagsOf(standing, planned) };
}

/** Both plans as one piece of work, in hundredths. */
function halvesOf(watch: Watch): [Watch, Watch] {
  const share = (done: number, total: number): number => (total === 0 ? HALF : Math.floor((HALF * done) / total));
  return [
    (done, total) => watch(share(done, total), 2 * HALF),
    (done, total) => watch(HALF + share(done, total), 2 * HALF),
  ];
}

const HALF = 50;

function withTakenStanding(car: Car): Car {
  const lines = car.lines.map((line) =>
    line.state === 'planned' && line.taken ? { ...line, state: 'made' as const } : line,
  );
  return { ...car, lines };
}
