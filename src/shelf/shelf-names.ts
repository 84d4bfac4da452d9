import { ShelfError } from './shelf-error.ts';

/** As long as the paths that a car's shapes may hold. */
const LONGEST_FILE = 300;
const LONGEST_NAME = 120;
const SCAN_FILE = /\.(stl|ply|obj|glb|step|stp)$/i;
const CONTROL = /[\p{Cc}\p{Cs}\u2028\u2029]/u;

/** A scan's name as a shape may give it: in or under the folder of the car file, on any system. */
export function isScanFile(file: string): boolean {
  const parts = file.split('/');
  return (
    file.length <= LONGEST_FILE &&
    SCAN_FILE.test(file) &&
    !/[\\:%]|\p{C}/u.test(file) &&
    !file.startsWith('~') &&
    // Some systems drop a dot or a space at the end of a name, and two names become one.
    parts.every((part) => part === '.' || (part !== '' && !/[. ]$/.test(part)))
  );
}

/** @throws ShelfError `refused` */
export function checkedScanFile(file: string): string {
  if (typeof file === 'string' && isScanFile(file)) return file;
  throw new ShelfError(
    'refused',
    `scan ${shownName(file)}: allowed is a path such as scans/engine.stl, in or under the folder of the car, ` +
      `that ends in .stl, .ply, .obj, .glb, .step or .stp, of at most ${LONGEST_FILE} characters`,
  );
}

/** Who did something, or the name of a point: one line of text, may be empty. */
export function checkedName(name: string, what: string): string {
  const line = typeof name === 'string' ? name.trim() : undefined;
  if (line !== undefined && line.length <= LONGEST_NAME && !CONTROL.test(line)) return line;
  throw new ShelfError(
    'refused',
    `${what} ${shownName(name)}: allowed is one line of at most ${LONGEST_NAME} characters`,
  );
}

/** A car's id: small letters, digits and dashes out of what it is called, so that it can stand in an address. */
export function carIdFrom(name: string): string {
  const plain = name.normalize('NFKD').toLowerCase().replaceAll(/\p{M}/gu, '');
  const id = plain
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replace(/^-+/, '')
    .slice(0, 48)
    .replace(/-+$/, '');
  return id === '' || id === 'shop' ? 'car' : id;
}

/** The id, or with the first number behind it that is free. */
export function freeId(id: string, isTaken: (id: string) => boolean): string {
  if (!isTaken(id)) return id;
  for (let n = 2; ; n++) if (!isTaken(`${id}-${n}`)) return `${id}-${n}`;
}

function shownName(value: unknown): string {
  const text = typeof value === 'string' ? value.replaceAll(/[^\P{C}]/gu, '?') : String(value);
  return `"${text.length > 60 ? `${text.slice(0, 57)}...` : text}"`;
}
