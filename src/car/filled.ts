import type { Fault } from './fault.ts';
import type { Json } from './json-text.ts';

type Fields = { [key: string]: Json };

/** Lists that a file may leave out and a car in memory always has. */
const CAR_LISTS = ['parts', 'movers', 'lines'] as const;
const PART_LISTS = ['shapes', 'ports'] as const;
const LINE_LISTS = ['pieces', 'through'] as const;
const DERIVED_OF_PORT = ['atMm', 'knownToMm'] as const;
const DERIVED_OF_SHAPE = ['turnDeg', 'atMm', 'knownToMm'] as const;

const isFields = (value: Json | undefined): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** The file with the fields filled in that it may leave out. What is malformed passes untouched, for the schema to name. */
export function filled(file: Fields): Fields {
  const out = withLists(file, CAR_LISTS);
  mapList(out, 'parts', (part) => {
    const whole = withLists(part, PART_LISTS);
    mapList(whole, 'shapes', turnedOutside);
    mapList(whole, 'ports', (port) => ('measured' in port && !('atMm' in port) ? { ...port, atMm: [0, 0, 0] } : port));
    return whole;
  });
  mapList(out, 'lines', (line) => {
    const whole = withLists(line, LINE_LISTS);
    return 'state' in whole ? whole : { ...whole, state: 'planned' };
  });
  return out;
}

/** The inverse, for writing: no empty list that may be left out, nothing that is worked out from measurements. */
export function bared(file: Fields): Fields {
  const out = withoutEmpty(withoutDerived(file), ['movers']);
  mapList(out, 'parts', (part) => withoutEmpty(part, PART_LISTS));
  mapList(out, 'lines', (line) => withoutEmpty(line, LINE_LISTS));
  return out;
}

/** Without the places and tolerances that are worked out from measurements. */
export function withoutDerived(file: Fields): Fields {
  const out = { ...file };
  mapList(out, 'parts', (part) => {
    const bare = { ...part };
    mapList(bare, 'shapes', (shape) => ('from' in shape ? without(shape, DERIVED_OF_SHAPE) : shape));
    mapList(bare, 'ports', (port) => ('measured' in port ? without(port, DERIVED_OF_PORT) : port));
    return bare;
  });
  return out;
}

/** Ports that are both measured and placed by hand: which of the two counts could not be told. */
export function doublyPlaced(file: Fields): Fault[] {
  const out: Fault[] = [];
  const parts = Array.isArray(file['parts']) ? file['parts'] : [];
  parts.forEach((part, i) => {
    const ports = isFields(part) && Array.isArray(part['ports']) ? part['ports'] : [];
    ports.forEach((port, j) => {
      if (!isFields(port) || !('measured' in port)) return;
      for (const key of DERIVED_OF_PORT) {
        if (key in port)
          out.push({
            place: `parts[${i}].ports[${j}].${key}`,
            stands: `${key} beside measured`,
            allowed: 'either measured, which gives both, or atMm and knownToMm',
          });
      }
    });
  });
  return out;
}

/** A solid may carry its turn inside its box, cylinder or tube; in memory it stands beside it. A mesh keeps its own. */
function turnedOutside(shape: Fields): Fields {
  for (const kind of ['box', 'cylinder', 'tube']) {
    const solid = shape[kind];
    if (!isFields(solid) || (!('turnDeg' in solid) && !('atMm' in solid))) continue;
    if ('turnDeg' in shape || 'atMm' in shape) return shape;
    const out: Fields = { ...shape, [kind]: without(solid, ['turnDeg', 'atMm']) };
    for (const key of ['turnDeg', 'atMm']) if (key in solid) out[key] = solid[key] as Json;
    return out;
  }
  return shape;
}

function mapList(owner: Fields, key: string, map: (entry: Fields) => Fields): void {
  const list = owner[key];
  if (Array.isArray(list)) owner[key] = list.map((entry) => (isFields(entry) ? map(entry) : entry));
}

function withLists(value: Fields, keys: readonly string[]): Fields {
  const out = { ...value };
  for (const key of keys) if (!Object.hasOwn(out, key)) out[key] = [];
  return out;
}

function withoutEmpty(value: Fields, keys: readonly string[]): Fields {
  const empty = keys.filter((key) => Array.isArray(value[key]) && (value[key] as Json[]).length === 0);
  return without(value, empty);
}

function without(value: Fields, keys: readonly string[]): Fields {
  const out = { ...value };
  for (const key of keys) delete out[key];
  return out;
}
