import { setImmediate } from 'node:timers/promises';
import { unzipSync, Zip, ZipDeflate } from 'fflate';
import { ShelfError } from './shelf-error.ts';

/** The most that one exported car may hold, and each of its files, unpacked [bytes]. */
const MOST_BYTES = 2 * 1024 ** 3;
const MOST_FILE_BYTES = 512 * 1024 ** 2;
const MOST_FILES = 10_000;
/** Deflate cannot pack tighter than this (258 bytes in two bits); what claims to is made up. */
const TIGHTEST = 1032;
/** Packed at a time, before others get their turn [bytes]. */
const PIECE_BYTES = 1024 * 1024;

export interface ArchiveFile {
  readonly name: string;
  readonly bytes: number;
}

/** Files packed into one zip: the same files give the same bytes. */
export async function archiveOf(
  names: readonly string[],
  read: (name: string) => Promise<Uint8Array>,
): Promise<Uint8Array> {
  const out: Uint8Array[] = [];
  let fault: Error | null = null;
  const zip = new Zip((error, piece) => {
    fault ??= error;
    out.push(piece);
  });
  let total = 0;
  for (const name of names) {
    const bytes = await read(name);
    total += bytes.length;
    if (total > MOST_BYTES)
      throw new ShelfError('refused', 'the car and its scans are over 2 GB together, more than one file may hold');
    const file = new ZipDeflate(name, { level: name.endsWith('.json') ? 6 : 1 });
    file.mtime = new Date(1980, 0, 1);
    zip.add(file);
    for (let at = 0; at === 0 || at < bytes.length; at += PIECE_BYTES) {
      file.push(bytes.subarray(at, at + PIECE_BYTES), at + PIECE_BYTES >= bytes.length);
      await setImmediate();
    }
  }
  zip.end();
  if (fault !== null) throw fault;
  // No Buffer: what a caller slices off one of those is the same memory.
  return new Uint8Array(Buffer.concat(out));
}

/** What a zip says is in it. @throws ShelfError `refused` where that is no zip, too much, or twice the same name */
export function archiveFiles(archive: Uint8Array): ReadonlyMap<string, ArchiveFile> {
  const files = new Map<string, ArchiveFile>();
  let total = 0;
  let count = 0;
  unpacked(archive, ({ name, size, originalSize, compression }) => {
    count++;
    total += originalSize;
    if (count > MOST_FILES) refuse(`more than ${MOST_FILES} files`, `at most ${MOST_FILES}`);
    if (files.has(name)) refuse(`${shownName(name)} twice`, 'each file once');
    if (compression !== 0 && compression !== 8)
      refuse(`${shownName(name)} packed in way ${compression}`, 'stored or deflated');
    if (!(size <= archive.length)) refuse(`${shownName(name)}, larger than the whole file`, 'a whole zip');
    if (!(originalSize <= MOST_FILE_BYTES && total <= MOST_BYTES))
      refuse(`${shownName(name)} of ${originalSize} bytes`, 'at most 512 MB a file, 2 GB together');
    if (originalSize > TIGHTEST * (size + 1)) refuse(`${shownName(name)}, packed tighter than can be`, 'a whole zip');
    if (name.endsWith('/') && originalSize === 0) return false;
    files.set(name, { name, bytes: originalSize });
    return false;
  });
  return files;
}

/** One file out of a zip whose list of files has been looked at. */
export function archivedFile(archive: Uint8Array, { name, bytes }: ArchiveFile): Uint8Array {
  const out = unpacked(archive, (file) => file.name === name)[name];
  if (out?.length !== bytes) refuse(`${shownName(name)} cut short`, 'a whole zip');
  return out;
}

type Filter = NonNullable<NonNullable<Parameters<typeof unzipSync>[1]>['filter']>;

function unpacked(archive: Uint8Array, filter: Filter): Readonly<Record<string, Uint8Array>> {
  try {
    return unzipSync(archive, { filter });
  } catch (error) {
    if (error instanceof ShelfError) throw error;
    const reason = error instanceof Error ? error.message : String(error);
    return refuse(`what cannot be unpacked (${reason})`, 'a whole zip, as Fairlead exports a car');
  }
}

export function refuse(stands: string, allowed: string): never {
  throw new ShelfError('refused', `exported car: stands ${stands}; allowed: ${allowed}`);
}

export function shownName(name: string): string {
  return JSON.stringify(name.length > 60 ? `${name.slice(0, 57)}...` : name);
}
