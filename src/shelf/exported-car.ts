import { createHash } from 'node:crypto';
import type { DocumentLog } from './document-log.ts';
import { archiveOf } from './car-archive.ts';
import { EXPORT_FORMAT, type History, replacedName } from './export-history.ts';
import { ShelfError } from './shelf-error.ts';
import type { ScanLink } from './store.ts';

/** A car with its whole history and its scans as one zip; unpacked, it is a car file with its scans beside it. */
export async function exportedCar(log: DocumentLog, id: string): Promise<Uint8Array> {
  const { row } = await log.car(id);
  const steps = await log.store.steps(id, 1, row.revision);
  const links = await log.store.scans(id);
  const history: History = {
    fairleadHistory: EXPORT_FORMAT,
    id,
    steps: steps.map(({ revision, kind, of, who, atMs, hash, edits, done, inverse }) => {
      const lists = { edits: JSON.parse(edits), done: JSON.parse(done), inverse: JSON.parse(inverse) };
      return { revision, kind, of, who, atMs, hash, ...lists };
    }),
    points: [...(await log.store.points(id))],
    scans: [...links],
  };
  const texts = new Map([
    ['car.json', row.text],
    ['history.json', `${JSON.stringify(history, null, 1)}\n`],
  ]);
  const blobs = scanNames(links);
  const names = [...texts.keys(), ...blobs.keys()];
  const sums: string[] = [];
  return archiveOf([...names, 'SHA256SUMS'], async (name) => {
    if (name === 'SHA256SUMS') return Buffer.from(sums.join(''));
    const bytes = blobs.has(name) ? await blobOf(log, blobs.get(name)!, name) : Buffer.from(texts.get(name)!);
    sums.push(`${createHash('sha256').update(bytes).digest('hex')}  ${name}\n`);
    return bytes;
  });
}

/** The names in the zip: a scan's own, and for those that a later scan of the name replaced, one by what is in it. */
export function scanNames(links: readonly ScanLink[]): ReadonlyMap<string, string> {
  const names = new Map(links.map(({ file, hash }) => [file, hash]));
  const standing = new Set(names.values());
  for (const { hash } of links) if (!standing.has(hash)) names.set(replacedName(hash), hash);
  return names;
}

async function blobOf(log: DocumentLog, hash: string, name: string): Promise<Uint8Array> {
  const bytes = await log.store.blob(hash);
  if (bytes !== undefined && createHash('sha256').update(bytes).digest('hex') === hash) return bytes;
  throw new ShelfError('broken', `scan ${name} is damaged on the disk: put the file in again`);
}
