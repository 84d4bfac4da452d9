import { ShelfError, type ShelfFault } from './shelf-error.ts';

/** No code of SQLite's: the folder cannot be made, for what stands there. */
const NO_FOLDER = -1;

/** SQLite's primary result codes (sqlite.org/rescode.html), as far as a builder can do something about them. */
const FAULTS: ReadonlyMap<number, readonly [ShelfFault, (file: string) => string]> = new Map([
  [NO_FOLDER, ['broken', (file) => `a file stands where a folder is wanted to keep ${file} in`]],
  [3, ['read-only', (file) => `no leave to write ${file}: give yourself the right to write that file and its folder`]],
  [5, ['busy', (file) => `${file} is held by another program: end that one, or try again`]],
  [6, ['busy', (file) => `${file} is held by another program: end that one, or try again`]],
  [8, ['read-only', (file) => `${file} may only be read: give yourself the right to write that file and its folder`]],
  [
    10,
    ['broken', (file) => `the disk failed while ${file} was read or written: see to the disk, then put a copy back`],
  ],
  [11, ['broken', (file) => `${file} is damaged: leave it as it is, and put a copy of it back in its place`]],
  [
    13,
    [
      'full',
      (file) => `no room left on the disk for ${file}: nothing of this change was kept; make room and do it again`,
    ],
  ],
  [14, ['read-only', (file) => `${file} cannot be opened: see that its folder is there and may be written`]],
  [
    26,
    [
      'broken',
      (file) => `${file} is no shelf file, or its head is damaged: leave it, and put a copy of it back in its place`,
    ],
  ],
]);

const SYSTEM_FAULTS: ReadonlyMap<string, number> = new Map([
  ['EEXIST', NO_FOLDER],
  ['ENOTDIR', NO_FOLDER],
  ['EACCES', 3],
  ['EPERM', 3],
  ['EROFS', 8],
  ['EIO', 10],
  ['ENOSPC', 13],
  ['EDQUOT', 13],
]);

/** What the database or the system threw, as a sentence for the builder; what is no fault of the disk is handed back as it came. */
export function shelfFault(error: unknown, file: string): unknown {
  if (!(error instanceof Error) || error instanceof ShelfError) return error;
  const { rawCode, code } = error as { rawCode?: unknown; code?: unknown };
  // Opening throws without a code; the number stands at the end of the words.
  const opened = /^ConnectionFailed\(.*: (\d+)"\)$/s.exec(error.message)?.[1];
  const result =
    typeof rawCode === 'number'
      ? rawCode % 256
      : opened !== undefined
        ? Number(opened)
        : SYSTEM_FAULTS.get(String(code));
  const fault = result === undefined ? undefined : FAULTS.get(result);
  return fault === undefined ? error : new ShelfError(fault[0], fault[1](file));
}
