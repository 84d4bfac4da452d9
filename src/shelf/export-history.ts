import { z } from 'zod';

/** The number of the format of history.json in an exported car. */
export const EXPORT_FORMAT = 1;

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const revision = z.number().int().min(1).max(1e7);
const atMs = z.number().int().min(0).max(8.64e15);
const edits = z.array(z.looseObject({ do: z.string() })).max(100_000);

export const historySchema = z.strictObject({
  fairleadHistory: z.literal(EXPORT_FORMAT),
  id: z.string().max(100),
  steps: z
    .array(
      z.strictObject({
        revision,
        kind: z.enum(['put on the shelf', 'change', 'undo', 'redo', 'gone back']),
        of: revision.nullable(),
        who: z.string(),
        atMs,
        hash,
        edits,
        done: edits,
        inverse: edits,
      }),
    )
    .min(1)
    .max(1e6),
  points: z.array(z.strictObject({ revision, name: z.string().min(1) })).max(1e6),
  scans: z.array(z.strictObject({ file: z.string(), hash, bytes: z.number().int().min(0), atMs })).max(10_000),
});

export type History = z.output<typeof historySchema>;

/** Where a scan lies that a later one of the same name replaced. */
export const replacedName = (scanHash: string): string => `replaced/${scanHash}`;
