import type { Path } from '../fault.ts';
import { shown } from '../fault.ts';
import type { Origin, Reading } from '../schema/car.ts';
import type { CarView, Tell } from './car-view.ts';
import { nearestOf } from './nearest-of.ts';

type Kind = Origin['kind'];
const NEEDS: Readonly<Record<'readMm' | 'alongMm' | 'outMm' | 'downMm', readonly Kind[]>> = {
  readMm: ['points'],
  alongMm: ['straightedge'],
  outMm: ['straightedge'],
  downMm: ['straightedge', 'level'],
};
const CAR_AXES = ['xMm', 'yMm', 'zMm'] as const;

/** What is wrong with the readings of one point: nothing read, read from nowhere, or from an origin that cannot give it. */
export function checkReadings(readings: readonly Reading[], at: Path, view: CarView, tell: Tell): void {
  if (readings.length === 0) tell(at, 'no reading', 'at least one reading');
  readings.forEach((reading, i) => checkReading(reading, [...at, i], view, tell));
}

function checkReading(reading: Reading, at: Path, view: CarView, tell: Tell): void {
  const inCar = CAR_AXES.some((key) => reading[key] !== undefined);
  const asked = (Object.keys(NEEDS) as (keyof typeof NEEDS)[]).filter((key) => reading[key] !== undefined);
  const ways =
    Number(inCar) +
    Number(reading.distanceMm !== undefined) +
    Number(reading.readMm !== undefined) +
    Number(asked.some((key) => key !== 'readMm'));
  if (ways !== 1) {
    tell(at, shown(reading), 'one of readMm, distanceMm, (alongMm, outMm, downMm) or (xMm, yMm, zMm)');
    return;
  }
  if (inCar) {
    if (reading.from !== undefined)
      tell([...at, 'from'], shown(reading.from), 'nothing: xMm, yMm and zMm are in car axes');
    return;
  }
  if (reading.from === undefined) {
    tell(
      [...at, 'from'],
      'nothing',
      reading.distanceMm === undefined ? 'the id of an origin' : 'a known point as "origin.point"',
    );
    return;
  }
  if (!view.judges('origins')) return;
  if (reading.distanceMm !== undefined) checkKnownPoint(reading.from, [...at, 'from'], view, tell);
  else checkOrigin(reading.from, asked, [...at, 'from'], view, tell);
}

function checkKnownPoint(from: string, at: Path, view: CarView, tell: Tell): void {
  if (!view.knownPoints.has(from))
    tell(
      at,
      shown(from),
      nearestOf('a known point "origin.point"', from, () => [...view.knownPoints]),
    );
}

function checkOrigin(from: string, asked: readonly (keyof typeof NEEDS)[], at: Path, view: CarView, tell: Tell): void {
  const origin = view.originById.get(from);
  if (origin === undefined) {
    tell(
      at,
      shown(from),
      nearestOf('an origin', from, () => [...view.originById.keys()]),
    );
    return;
  }
  for (const key of asked) {
    if (!NEEDS[key].includes(origin.kind))
      tell(at, `${shown(from)}, of kind ${origin.kind}, for ${key}`, `an origin of kind ${NEEDS[key].join(' or ')}`);
  }
}
