import { z } from 'zod';
import type { Fault, Path } from './fault.ts';
import { placeOf, shown } from './fault.ts';
import type { Json } from './json-text.ts';
import { findNearest } from './nearest.ts';
import { carSchema } from './schema/car.ts';
import { lineSchema } from './schema/line.ts';
import { originSchema } from './schema/origin.ts';
import { moverSchema, partSchema } from './schema/part.ts';

export interface PlacedFault extends Fault {
  readonly path: Path;
}

/** A file with more faults than this is not looked through to its end. */
export const MOST_FAULTS = 1000;

const LISTS = { parts: partSchema, movers: moverSchema, lines: lineSchema, origins: originSchema } as const;
const anyList = z.array(z.unknown(), { error: 'a list [...]' });
/** The car without what is in its great lists: those are checked entry by entry, so that rubbish by the million costs little. */
const frameSchema = carSchema.extend({ parts: anyList, movers: anyList, lines: anyList, origins: anyList.optional() });

/** What the schema finds wrong in a car file: first outside its lists, then entry by entry. */
export function schemaFaults(file: { readonly [key: string]: Json }): PlacedFault[] {
  const out: PlacedFault[] = [];
  const check = (schema: z.ZodType, value: Json, at: Path) => {
    const result = schema.safeParse(value);
    for (const issue of result.error?.issues ?? []) {
      if (out.length >= MOST_FAULTS) return;
      out.push(...faultsOf({ ...issue, path: [...at, ...issue.path] } as z.core.$ZodIssue, file as Json));
    }
  };
  check(frameSchema, file as Json, []);
  for (const [list, schema] of Object.entries(LISTS)) {
    const entries = file[list];
    if (!Array.isArray(entries)) continue;
    for (let i = 0; i < entries.length && out.length < MOST_FAULTS; i++) check(schema, entries[i] as Json, [list, i]);
  }
  return out;
}

function faultsOf(issue: z.core.$ZodIssue, file: Json): PlacedFault[] {
  const path = issue.path.filter((step) => typeof step !== 'symbol');
  if (issue.code === 'unrecognized_keys') return issue.keys.slice(0, MOST_FAULTS).map((key) => unknownKey(path, key));
  const stands = valueAt(file, path);
  if (issue.code === 'invalid_value' && typeof stands === 'string') {
    const nearest = findNearest(stands, issue.values.map(String));
    return [
      { path, place: placeOf(path), stands: shown(stands), allowed: `${issue.message} (nearest: ${nearest ?? ''})` },
    ];
  }
  return [{ path, place: placeOf(path), stands: shown(stands), allowed: issue.message }];
}

function unknownKey(path: Path, key: string): PlacedFault {
  const known = knownKeys(path);
  const nearest = findNearest(key, known);
  return {
    path: [...path, key],
    place: placeOf([...path, key]),
    stands: `the unknown key ${shown(key)}`,
    allowed:
      nearest === undefined
        ? 'keys that begin with x-'
        : `the nearest known key is "${nearest}"; keys of your own begin with x-`,
  };
}

/** Keys the schema knows at a path. */
function knownKeys(path: Path): string[] {
  let at: z.core.$ZodType = carSchema;
  for (const step of path) {
    at = bare(at);
    if (at instanceof z.ZodArray) at = at.element;
    else if (at instanceof z.ZodObject) at = (at.shape as Record<string, z.core.$ZodType>)[String(step)] ?? z.unknown();
    else return [];
  }
  at = bare(at);
  return at instanceof z.ZodObject ? Object.keys(at.shape) : [];
}

function bare(schema: z.core.$ZodType): z.core.$ZodType {
  let at = schema;
  while (at instanceof z.ZodOptional || at instanceof z.ZodNullable) at = at.unwrap();
  return at;
}

export function valueAt(file: Json, path: Path): Json | undefined {
  let at: Json | undefined = file;
  for (const step of path) {
    if (typeof at !== 'object' || at === null) return undefined;
    at = Object.hasOwn(at, step) ? (at as { [key: string]: Json })[step] : undefined;
  }
  return at;
}
