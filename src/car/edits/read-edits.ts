import { z } from 'zod';
import type { Edit } from './edit.ts';

/** More in one go is no edit by hand. */
const MOST_EDITS = 2000;
const MOST_ID = 200;

const id = z.string().min(1).max(MOST_ID);
const vec = z.tuple([z.number(), z.number(), z.number()]);
const index = z.number().int().min(0).optional();
/** A thing of the car: what is in it is checked with the whole car after the edit. */
const thing = z.looseObject({ id });
const part = z.looseObject({ id, shapes: z.array(z.unknown()), ports: z.array(z.looseObject({ id })) });
const line = z.looseObject({ id, from: id, to: id, pieces: z.array(z.unknown()), through: z.array(z.unknown()) });
const json = z.json().optional();
const field = (thing: string, key = thing) =>
  z.strictObject({ do: z.literal(`set-${thing}`), [key]: id, field: z.string().max(MOST_ID), value: json });
const path = z.array(z.string().max(MOST_ID)).max(20);
const change = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('set'), at: path, value: json, keys: z.array(z.string()).optional() }),
  z.strictObject({ kind: z.literal('insert'), at: path, index: z.number().int().min(0), value: z.json() }),
  z.strictObject({ kind: z.literal('remove'), at: path }),
]);

const simple = z.union([
  z.strictObject({ do: z.literal('set-name'), name: z.string().optional() }),
  ...['part', 'port', 'line', 'mover', 'origin', 'case', 'circuit', 'panel', 'lever', 'bay'].map((thing) =>
    field(thing),
  ),
  field('heat-reading', 'reading'),
  z.strictObject({ do: z.literal('set-keep-off'), class: z.string().max(MOST_ID), keepOffMm: z.number().optional() }),
  z.strictObject({ do: z.literal('add-part'), part, index }),
  z.strictObject({ do: z.literal('remove-part'), part: id }),
  z.strictObject({ do: z.literal('add-port'), part: id, port: thing, index }),
  z.strictObject({ do: z.literal('remove-port'), port: id }),
  z.strictObject({ do: z.literal('add-line'), line, index }),
  z.strictObject({ do: z.literal('remove-line'), line: id }),
  z.strictObject({ do: z.literal('add-mover'), mover: thing, index }),
  z.strictObject({ do: z.literal('remove-mover'), mover: id }),
  z.strictObject({ do: z.literal('add-origin'), origin: thing, index }),
  z.strictObject({ do: z.literal('remove-origin'), origin: id }),
  z.strictObject({ do: z.literal('add-case'), case: thing, index }),
  z.strictObject({ do: z.literal('remove-case'), case: id }),
  z.strictObject({ do: z.literal('add-circuit'), circuit: thing, index }),
  z.strictObject({ do: z.literal('remove-circuit'), circuit: id }),
  z.strictObject({ do: z.literal('set-fluids'), rows: z.array(z.json()).optional() }),
  z.strictObject({ do: z.literal('add-panel'), panel: thing, index }),
  z.strictObject({ do: z.literal('remove-panel'), panel: id }),
  z.strictObject({ do: z.literal('add-lever'), lever: thing, index }),
  z.strictObject({ do: z.literal('remove-lever'), lever: id }),
  z.strictObject({ do: z.literal('add-bay'), bay: thing, index }),
  z.strictObject({ do: z.literal('remove-bay'), bay: id }),
  z.strictObject({ do: z.literal('add-heat-reading'), reading: thing, index }),
  z.strictObject({ do: z.literal('remove-heat-reading'), reading: id }),
  z.strictObject({ do: z.literal('set-sheets'), rows: z.array(z.json()).optional() }),
  z.strictObject({
    do: z.literal('move-part'),
    part: id,
    byMm: vec,
    turnDeg: vec.optional(),
    aboutMm: vec.optional(),
  }),
  z.strictObject({ do: z.literal('swap-ports'), a: id, b: id }),
  z.strictObject({ do: z.literal('set-state'), line: id, state: z.string().max(MOST_ID) }),
  z.strictObject({ do: z.literal('take-way'), line: id, way: z.json().optional() }),
  z.strictObject({ do: z.literal('set-workshop'), value: z.json().optional() }),
  z.strictObject({ do: z.literal('set-box'), rows: z.array(z.json()).optional() }),
  z.strictObject({ do: z.literal('set-accepted'), rows: z.array(z.json()).optional() }),
  z.strictObject({ do: z.literal('set-rule-packs'), rows: z.array(z.json()).optional() }),
  z.strictObject({ do: z.literal('set-run-days'), rows: z.array(z.json()).optional() }),
  z.strictObject({
    do: z.literal('set-catalogue'),
    table: z.string().max(MOST_ID),
    rows: z.array(z.json()).optional(),
  }),
  z.strictObject({ do: z.literal('restore'), changes: z.array(change).max(100_000) }),
]);

const edits = z
  .array(z.union([simple, z.strictObject({ do: z.literal('several'), edits: z.array(simple).max(MOST_EDITS) })]))
  .min(1)
  .max(MOST_EDITS);

/**
 * Edits that came from outside: each has the shape of an edit. Whether it fits the car, and whether the car holds together after
 * it, is for `applyEdit` and `checkCar`.
 */
export function readEdits(
  value: unknown,
): { readonly ok: true; readonly edits: readonly Edit[] } | { readonly ok: false; readonly fault: string } {
  const found = edits.safeParse(value);
  if (found.success) return { ok: true, edits: found.data as unknown as readonly Edit[] };
  const [issue] = found.error.issues;
  const at = (issue?.path ?? []).map(String).join('.');
  return {
    ok: false,
    fault: `edits${at === '' ? '' : `.${at}`}: no edit that can be read; allowed: a list of 1 to ${MOST_EDITS} edits`,
  };
}
