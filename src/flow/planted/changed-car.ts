import { type Seeded, seeded } from '../network/planted/seeded.ts';

type Json = unknown;
type Row = Record<string, Json>;

/** A car as JSON with a few things of its circuits changed, and what was changed, in words. */
export interface ChangedCar {
  readonly text: string;
  readonly changes: readonly string[];
}

/** Factors that a figure is off by when it is mistyped: other units, lost points, nothing, signs. */
const TIMES = [0, 1e-6, 1e-3, 0.0394, 0.1, 0.5, 2, 10, 25.4, 60, 1e3, 1e6, -1] as const;
const TEMPERATURES_C = [-273, -60, -40, -5, 0, 20, 60, 99.9, 126, 150, 161, 400] as const;
const MOST_CHANGES = 4;

/**
 * A car with one to four changes of what flows in it, the same for the same seed: figures mistyped, keys and rows lost or doubled,
 * ends swapped or led elsewhere, bores and temperatures far off. Whether it still is a car is for the reader of cars to say.
 *
 * @param carText - a sound car file
 */
export function changedCar(carText: string, seed: number): ChangedCar {
  const chance = seeded(seed);
  const car = JSON.parse(carText) as Row;
  const changes: string[] = [];
  const count = chance.whole(1, MOST_CHANGES);
  for (let i = 0; i < count; i++) {
    const change = chance.oneOf(kinds)(car, chance);
    if (change !== undefined) changes.push(change);
  }
  return { text: JSON.stringify(car), changes };
}

type Change = (car: Row, chance: Seeded) => string | undefined;

/** The parts of a car file that flow rests on. */
function* places(car: Row): Generator<readonly [string, Row | Json[]]> {
  for (const key of ['circuits', 'cases', 'fluids'] as const) {
    const rows = car[key];
    if (Array.isArray(rows)) yield* below(key, rows);
  }
}

function* below(path: string, value: Json): Generator<readonly [string, Row | Json[]]> {
  if (typeof value !== 'object' || value === null) return;
  yield [path, value as Row | Json[]];
  for (const [key, item] of Object.entries(value)) yield* below(`${path}.${key}`, item);
}

const anyPlace = (car: Row, chance: Seeded, wanted: (place: Row | Json[]) => boolean) => {
  const all = [...places(car)].filter(([, place]) => wanted(place));
  return all.length === 0 ? undefined : chance.oneOf(all);
};

const hasNumber = (place: Row | Json[]): boolean => Object.values(place).some((item) => typeof item === 'number');

const mistyped: Change = (car, chance) => {
  const found = anyPlace(car, chance, hasNumber);
  if (found === undefined) return undefined;
  const [path, place] = found as [string, Row];
  const key = chance.oneOf(Object.keys(place).filter((name) => typeof place[name] === 'number'));
  const was = place[key] as number;
  place[key] = was * chance.oneOf(TIMES);
  return `${path}.${key}: ${was} -> ${String(place[key])}`;
};

const lost: Change = (car, chance) => {
  const found = anyPlace(car, chance, (place) => Object.keys(place).length > 0);
  if (found === undefined) return undefined;
  const [path, place] = found;
  const key = chance.oneOf(Object.keys(place));
  if (Array.isArray(place)) place.splice(Number(key), 1);
  else delete place[key];
  return `${path}.${key} lost`;
};

const doubled: Change = (car, chance) => {
  const found = anyPlace(car, chance, (place) => Array.isArray(place) && place.length > 0);
  if (found === undefined) return undefined;
  const [path, place] = found as [string, Json[]];
  const at = chance.whole(0, place.length - 1);
  place.push(JSON.parse(JSON.stringify(place[at])) as Json);
  return `${path}.${at} twice`;
};

const hasEnds = (place: Row | Json[]): boolean => !Array.isArray(place) && typeof place['from'] === 'string';

const turned: Change = (car, chance) => {
  const found = anyPlace(car, chance, hasEnds);
  if (found === undefined) return undefined;
  const [path, place] = found as [string, Row];
  [place['from'], place['to']] = [place['to'], place['from']];
  return `${path} turned round`;
};

const ledElsewhere: Change = (car, chance) => {
  const found = anyPlace(car, chance, hasEnds);
  const part = chance.oneOf(car['parts'] as Row[]);
  const ports = (part['ports'] ?? []) as Row[];
  const spot =
    ports.length > 0 && chance.isLucky(0.8)
      ? `${String(part['id'])}.${String(chance.oneOf(ports)['id'])}`
      : String(part['id']);
  const end = chance.oneOf(['from', 'to']);
  if (found === undefined) return undefined;
  const [path, place] = found as [string, Row];
  place[end] = chance.isLucky(0.1) ? `${spot}x` : spot;
  return `${path}.${end}: ${String(place[end])}`;
};

const otherBore: Change = (car, chance) => {
  const line = chance.oneOf(car['lines'] as Row[]);
  delete line['taken'];
  const key = chance.oneOf(['boreMm', 'dash', 'duty', 'hose']);
  if (key === 'boreMm') {
    for (const name of ['hose', 'pieces', 'dash']) delete line[name];
    line['boreMm'] = chance.oneOf([0, 1e-3, 0.1, 1, 5, 90, 1000, -3]);
  } else if (key === 'dash') line['dash'] = chance.oneOf([2, 3, 4, 6, 10, 20, 32, 0, 999]);
  else if (key === 'duty')
    line['duty'] = chance.oneOf([
      'oil-suction',
      'oil-drain',
      'oil-vent',
      'water-bleed',
      'water',
      'fuel',
      'fuel-vent',
      'air',
    ]);
  else for (const name of ['hose', 'pieces', 'dash', 'boreMm']) delete line[name];
  return `line ${String(line['id'])}: ${key} ${String(line[key])}`;
};

const otherHeat: Change = (car, chance) => {
  const at = chance.oneOf((car['cases'] ?? [{}]) as Row[]);
  const key = chance.oneOf(['oilC', 'coolantC', 'fuelC', 'airC']);
  at[key] = chance.oneOf(TEMPERATURES_C);
  return `case ${String(at['id'])}: ${key} ${String(at[key])}`;
};

const otherCase: Change = (car, chance) => {
  const at = chance.oneOf((car['cases'] ?? [{}]) as Row[]);
  const key = chance.oneOf([
    'engineRpm',
    'altitudeM',
    'coreAirMPerS',
    'heatToWaterKw',
    'blowByLMin',
    'lastsS',
    'pitchDeg',
    'g',
  ]);
  at[key] =
    key === 'g'
      ? { forwardG: chance.oneOf([0, -3, 3, 50]), rightG: chance.oneOf([0, 2, -9]), upG: chance.oneOf([0, -1, -2, 5]) }
      : chance.oneOf([0, 1e-9, 1, 90, 180, 9000, 1e5, 1e9]);
  return `case ${String(at['id'])}: ${key} ${JSON.stringify(at[key])}`;
};

const otherKind: Change = (car, chance) => {
  const found = anyPlace(car, chance, (place) => !Array.isArray(place) && typeof place['kind'] === 'string');
  if (found === undefined) return undefined;
  const [path, place] = found as [string, Row];
  place['kind'] = chance.oneOf(
    'lines' in place
      ? ['dry-sump', 'coolant', 'fuel', 'other']
      : ['tank', 'pan', 'pot', 'header', 'housing', 'catch-tank', 'cell', 'surge-pot', 'outside'],
  );
  return `${path}.kind: ${String(place['kind'])}`;
};

const otherFluid: Change = (car, chance) => {
  const rows = (car['fluids'] ?? []) as Row[];
  if (rows.length === 0) return undefined;
  const row = chance.oneOf(rows);
  for (const name of ['oil', 'glycol', 'water', 'fuel', 'air']) delete row[name];
  const made = chance.oneOf([
    { water: {} },
    { air: {} },
    { glycol: { massPercent: 60 } },
    { oil: { grade: '0W-8' } },
    { oil: { grade: '60' } },
    { fuel: { ethanolPercent: 100 } },
    { other: {} },
  ]);
  Object.assign(row, made);
  return `fluid ${String(row['id'])}: ${JSON.stringify(made)}`;
};

const kinds: readonly Change[] = [
  mistyped,
  mistyped,
  mistyped,
  mistyped,
  lost,
  lost,
  doubled,
  turned,
  ledElsewhere,
  otherBore,
  otherBore,
  otherHeat,
  otherCase,
  otherKind,
  otherFluid,
];
