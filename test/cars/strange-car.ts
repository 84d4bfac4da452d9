import { carFrom } from '#car';
import { seeded } from '../flow/fluids-for-tests.ts';

/** A car file as its JSON lies, before anyone has read it. */
export type RawCar = Record<string, unknown> & { parts: Raw[]; lines: Raw[] };
export type Raw = Record<string, unknown> & { id: string };

/** Shares of what stays of a car. */
export interface StrangeWish {
  readonly lines: number;
  readonly parts: number;
}

const CHANGES = 12;
const MOST_REPAIRS = 200;
const WHOLE_KEYS = [
  'circuits',
  'panels',
  'levers',
  'bays',
  'heatReadings',
  'rulePacks',
  'runDays',
  'workshop',
  'fluids',
  'cases',
  'keepOffMm',
  'note',
];
const LISTS = ['panels', 'levers', 'cases', 'circuits'];
/** Keys that nothing can be without: not taken out to mend a fault. */
const NEEDED = new Set(['id', 'fairlead', 'parts', 'from', 'to', 'lines', 'class', 'shapes']);

/**
 * A car that nobody has seen: some of a car's lines with what they join, some of the rest, then a dozen optional keys left out and numbers
 * changed wherever its reader lets them. What was changed stands beside it; null where no car is left that can be read.
 */
export function strangeCar(whole: RawCar, seed: number, wish: StrangeWish): { car: RawCar; changes: string[] } | null {
  const draw = seeded(seed * 2_654_435_761);
  const car = structuredClone(whole);
  car.lines = car.lines.filter(() => draw() < wish.lines);
  const joined = new Set(car.lines.flatMap(portsOf).map((port) => port.split('.')[0]));
  car.parts = car.parts.filter(({ id }) => joined.has(id) || draw() < wish.parts);
  for (const key of WHOLE_KEYS) if (draw() < 0.25) delete car[key];
  for (const key of LISTS) {
    const rows = car[key];
    if (Array.isArray(rows) && draw() < 0.5) car[key] = rows.filter(() => draw() < 0.6);
  }
  if (!mended(car)) return null;
  const changes: string[] = [];
  const places = placesIn(car, '');
  for (let n = 0; n < CHANGES; n++) {
    const change = changed(car, places[Math.floor(draw() * places.length)]!, draw);
    if (change !== null) changes.push(change);
  }
  return { car, changes };
}

function portsOf(line: Raw): string[] {
  const through = (line['through'] ?? []) as { part?: string }[];
  return [line['from'], line['to'], ...through.map(({ part }) => part)].filter((name) => typeof name === 'string');
}

/** Takes out what the reader finds fault with, until it finds none. */
function mended(car: RawCar): boolean {
  for (let n = 0; n < MOST_REPAIRS; n++) {
    const reading = carFrom(car as Parameters<typeof carFrom>[0]);
    if (reading.ok) return true;
    if (!taken(car, reading.faults[0]!.place)) return false;
  }
  return false;
}

/** Takes out the innermost thing on a place such as `parts[3].ports[0].end` that may go. */
function taken(car: RawCar, place: string): boolean {
  const keys = [...place.matchAll(/([A-Za-z_][\w-]*)|\[(\d+)\]/gu)].map(([, name, at]) => name ?? Number(at));
  for (let depth = keys.length; depth > 0; depth--) {
    let owner: unknown = car;
    for (const key of keys.slice(0, depth - 1)) owner = (owner as Record<string | number, unknown> | undefined)?.[key];
    const key = keys[depth - 1]!;
    if (owner === null || typeof owner !== 'object' || !(key in owner)) continue;
    if (Array.isArray(owner)) {
      owner.splice(Number(key), 1);
      return true;
    }
    if (NEEDED.has(String(key))) continue;
    delete (owner as Record<string, unknown>)[key];
    return true;
  }
  return false;
}

interface Place {
  readonly owner: Record<string, unknown>;
  readonly key: string;
  readonly path: string;
}

/** Every key of the car that a builder writes; what was worked out is left alone. */
function placesIn(value: unknown, path: string): Place[] {
  if (value === null || typeof value !== 'object') return [];
  const owner = value as Record<string, unknown>;
  return Object.keys(owner)
    .filter((key) => key !== 'taken' && !key.startsWith('x-'))
    .flatMap((key) => [{ owner, key, path: `${path}.${key}` }, ...placesIn(owner[key], `${path}.${key}`)]);
}

/** One number or key changed; null, and all as before, where the reader does not let it. */
function changed(car: RawCar, { owner, key, path }: Place, draw: () => number): string | null {
  const was = owner[key];
  const [kind, share] = [draw(), draw()];
  if (typeof was === 'number') owner[key] = otherNumber(was, kind, share);
  else if (!Array.isArray(owner) && key in owner && kind < 0.7) delete owner[key];
  else return null;
  if (carFrom(car as Parameters<typeof carFrom>[0]).ok)
    return `${path} ${JSON.stringify(was).slice(0, 40)} -> ${owner[key] === undefined ? 'absent' : JSON.stringify(owner[key])}`;
  owner[key] = was;
  return null;
}

function otherNumber(was: number, kind: number, share: number): number {
  if (kind < 0.3) return 0;
  if (kind < 0.4) return -was;
  return was * (kind < 0.7 ? 0.2 + 2 * share : 0.99 + 0.02 * share);
}
