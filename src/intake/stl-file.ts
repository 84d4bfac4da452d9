import { IntakeFault } from './intake-fault.ts';
import { counted, LIMITS } from './limits.ts';
import type { MeshBuilder } from './mesh-builder.kernel.ts';
import { TextScan } from './text-scan.kernel.ts';

const HEADER_BYTES = 84;
const TRIANGLE_BYTES = 50;
const AXES = ['x', 'y', 'z'] as const;

/**
 * Reads an STL, binary or ASCII, into the builder. A file is binary when its length is what its count says, else ASCII
 * when its first word is `solid` (binary headers may begin with that word too); else it is a damaged binary one.
 */
export function readStl(bytes: Uint8Array, into: MeshBuilder): void {
  const declared = bytes.length >= HEADER_BYTES ? viewOf(bytes).getUint32(HEADER_BYTES - 4, true) : -1;
  const needed = HEADER_BYTES + TRIANGLE_BYTES * declared;
  if (declared >= 0 && needed === bytes.length) return readBinary(bytes, declared, into);
  const scan = new TextScan(bytes);
  if (scan.nextWord() && scan.isWord('solid')) return readAscii(scan, into);
  if (declared < 0) {
    throw new IntakeFault(
      'STL',
      `${bytes.length} bytes that do not begin with "solid"`,
      'ASCII STL, or binary STL of at least 84 bytes',
    );
  }
  if (declared > LIMITS.triangles) {
    throw new IntakeFault(
      'STL bytes 80-83',
      `${counted(declared)} triangles declared`,
      `at most ${counted(LIMITS.triangles)}`,
    );
  }
  // Some exporters pad the end; a gap of a whole triangle or more means that the count and the file disagree.
  if (bytes.length > needed && bytes.length - needed < TRIANGLE_BYTES) return readBinary(bytes, declared, into);
  throw new IntakeFault(
    'STL bytes 80-83',
    `${counted(declared)} triangles declared, which takes ${counted(needed)} bytes; the file has ${counted(bytes.length)}`,
    `a count that fits the file${bytes.length < needed ? ' (is it cut short?)' : ''}`,
  );
}

function readBinary(bytes: Uint8Array, triangles: number, into: MeshBuilder): void {
  if (triangles > LIMITS.triangles) {
    throw new IntakeFault(
      'STL bytes 80-83',
      `${counted(triangles)} triangles declared`,
      `at most ${counted(LIMITS.triangles)}`,
    );
  }
  const view = viewOf(bytes);
  for (let t = 0; t < triangles; t++) {
    const at = HEADER_BYTES + TRIANGLE_BYTES * t + 12;
    const a = binaryCorner(view, at, t, 0, into);
    const b = binaryCorner(view, at + 12, t, 1, into);
    const c = binaryCorner(view, at + 24, t, 2, into);
    into.triangle(a, b, c);
  }
}

function binaryCorner(view: DataView, at: number, triangle: number, corner: number, into: MeshBuilder): number {
  const vertex = into.vertex(view.getFloat32(at, true), view.getFloat32(at + 4, true), view.getFloat32(at + 8, true));
  if (vertex >= 0) return vertex;
  const bad = [0, 1, 2].map((axis) => `${AXES[axis]} ${view.getFloat32(at + 4 * axis, true)}`).join(', ');
  throw new IntakeFault(`STL triangle ${triangle + 1}, corner ${corner + 1}`, bad, coordinatesAllowed);
}

/** What a coordinate may be, in the words of every reader's fault. */
export const coordinatesAllowed = 'finite numbers within 1 km of the origin';

function readAscii(scan: TextScan, into: MeshBuilder): void {
  scan.nextLine();
  let open = true;
  while (scan.nextWord()) {
    if (scan.isWord('facet')) {
      if (!open) throw misplaced(scan, '"solid"');
      readFacet(scan, into);
      if (into.triangleCount > LIMITS.triangles) {
        throw new IntakeFault(
          'STL',
          `more than ${counted(LIMITS.triangles)} triangles`,
          `at most ${counted(LIMITS.triangles)}`,
        );
      }
    } else if (scan.isWord('endsolid')) {
      open = false;
      scan.nextLine();
    } else if (scan.isWord('solid') && !open) {
      open = true;
      scan.nextLine();
    } else throw misplaced(scan, open ? '"facet" or "endsolid"' : '"solid"');
  }
  if (open)
    throw new IntakeFault(`STL line ${scan.lineNumber()}`, 'the file ends', '"endsolid" at the end (is it cut short?)');
}

function readFacet(scan: TextScan, into: MeshBuilder): void {
  expectWord(scan, 'normal');
  // The normal is not used, and exporters write nan for that of a sliver: three words, whatever they say.
  for (let i = 0; i < 3; i++) if (!scan.nextWord()) throw endsInside(scan);
  expectWord(scan, 'outer');
  expectWord(scan, 'loop');
  const a = asciiCorner(scan, into);
  const b = asciiCorner(scan, into);
  const c = asciiCorner(scan, into);
  expectWord(scan, 'endloop');
  expectWord(scan, 'endfacet');
  into.triangle(a, b, c);
}

function asciiCorner(scan: TextScan, into: MeshBuilder): number {
  expectWord(scan, 'vertex');
  const start = scan.wordStart;
  const x = asciiCoordinate(scan);
  const y = asciiCoordinate(scan);
  const z = asciiCoordinate(scan);
  const vertex = into.vertex(x, y, z);
  if (vertex >= 0) return vertex;
  throw new IntakeFault(`STL line ${scan.lineNumber(start)}`, `vertex ${x} ${y} ${z}`, coordinatesAllowed);
}

function asciiCoordinate(scan: TextScan): number {
  if (!scan.nextWord()) throw endsInside(scan);
  const value = scan.number();
  if (Number.isNaN(value)) throw misplaced(scan, coordinatesAllowed);
  return value;
}

function expectWord(scan: TextScan, word: string): void {
  if (!scan.nextWord()) throw endsInside(scan);
  if (!scan.isWord(word)) throw misplaced(scan, `"${word}"`);
}

const misplaced = (scan: TextScan, allowed: string): IntakeFault =>
  new IntakeFault(`STL line ${scan.lineNumber()}`, scan.quoted(), allowed);

const endsInside = (scan: TextScan): IntakeFault =>
  new IntakeFault(`STL line ${scan.lineNumber()}`, 'the file ends inside a facet', 'whole facets (is it cut short?)');

const viewOf = (bytes: Uint8Array): DataView => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
