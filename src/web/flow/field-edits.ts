import type { Edit } from '#car';

type Row = Readonly<Record<string, unknown>>;

/** One edit for every field that is another than before, all in one step. */
export function fieldEdits(was: Row, now: Row, set: (field: string, value: unknown) => object): readonly Edit[] {
  const fields = [...new Set([...Object.keys(was), ...Object.keys(now)])].filter(
    (field) => JSON.stringify(was[field]) !== JSON.stringify(now[field]),
  );
  const edits = fields.map((field) => set(field, now[field]) as Edit);
  return edits.length === 0 ? [] : [{ do: 'several', edits }];
}

/** A field taken away has no value. */
export const valued = (value: unknown): object => (value === undefined ? {} : { value });
