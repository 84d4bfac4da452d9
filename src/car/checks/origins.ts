import type { Path } from '../fault.ts';
import type { Origin } from '../schema/car.ts';
import type { CarView, Tell } from './car-view.ts';
import { tellTwice } from './car-view.ts';

const COUNTS: Readonly<Record<Origin['kind'], readonly [least: number, most: number, words: string]>> = {
  points: [3, Number.POSITIVE_INFINITY, 'at least three reference points'],
  straightedge: [2, 2, 'the two points it lies across'],
  level: [1, Number.POSITIVE_INFINITY, 'at least one point'],
  marks: [1, Number.POSITIVE_INFINITY, 'at least one point'],
};

/** What is wrong with the measuring origins, before any is worked out: ids twice, too few points, readings that are missing. */
export function checkOrigins(view: CarView, tell: Tell): void {
  tellTwice(
    view.origins.map((origin) => origin?.id),
    ['origins'],
    'id',
    tell,
  );
  view.origins.forEach((origin, i) => {
    if (origin !== undefined) checkOrigin(origin, ['origins', i], tell);
  });
}

function checkOrigin(origin: Origin, at: Path, tell: Tell): void {
  const [least, most, words] = COUNTS[origin.kind];
  if (origin.points.length < least || origin.points.length > most)
    tell([...at, 'points'], `${origin.points.length} points`, words);
  tellTwice(
    origin.points.map((point) => point.name),
    [...at, 'points'],
    'name',
    tell,
  );
  const wanted = origin.kind === 'points' ? 'readMm' : origin.kind === 'level' ? 'downMm' : undefined;
  origin.points.forEach((point, i) => {
    for (const key of ['readMm', 'downMm'] as const) {
      if (key === wanted && point[key] === undefined)
        tell([...at, 'points', i, key], 'nothing', `the point as read from an origin of kind ${origin.kind}`);
      if (key !== wanted && point[key] !== undefined)
        tell([...at, 'points', i, key], key, `no ${key} with an origin of kind ${origin.kind}`);
    }
  });
  if (origin.kind !== 'level' && (origin.pitchDeg !== undefined || origin.rollDeg !== undefined))
    tell(at, 'pitchDeg or rollDeg', 'those only with kind level');
  if (
    origin.kind === 'level' &&
    (origin.pitchDeg !== undefined || origin.rollDeg !== undefined) &&
    origin.points.length > 2
  ) {
    tell(at, 'pitchDeg or rollDeg beside three or more points', 'either the lean, or three points that give it');
  }
  if (origin.kind !== 'straightedge' && (origin.down !== undefined || origin.out !== undefined))
    tell(at, 'down or out', 'those only with kind straightedge');
}
