import { addFace } from './add-face.ts';
import { IntakeFault } from './intake-fault.ts';
import { counted, LIMITS } from './limits.ts';
import type { MeshBuilder } from './mesh-builder.kernel.ts';
import { coordinatesAllowed } from './stl-file.ts';
import { TextScan } from './text-scan.kernel.ts';

/** Statements of the OBJ format that carry no triangle; read over. A material library is never opened. */
const READ_OVER = new Set(
  (
    'vt vn vp g o s l p mg usemtl mtllib usemap maplib lod bevel c_interp d_interp shadow_obj trace_obj ' +
    'cstype deg bmat step parm trim hole scrv sp end con ctech stech call csh res bsp bzp cdc cdp'
  ).split(' '),
);
const CURVED = new Set(['curv', 'curv2', 'surf']);
const SLASH = 47;
const MINUS = 45;
const BACKSLASH = 92;

/** Reads an OBJ's vertices and faces, statement by statement, without making strings of its lines. */
export function readObj(bytes: Uint8Array, into: MeshBuilder): void {
  if (bytes.includes(0))
    throw new IntakeFault('OBJ', 'zero bytes (UTF-16 text, or not text at all)', 'plain text (ASCII or UTF-8)');
  const marked = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
  const scan = new TextScan(bytes, marked ? 3 : 0);
  const vertices = new VertexList();
  const corners: number[] = [];
  let curved = false;
  while (scan.nextWord()) {
    // a comment that ends in a backslash (a path) does not carry on
    if (bytes[scan.wordStart] === 35) {
      scan.nextLine();
      continue;
    }
    if (scan.isWord('v')) readVertex(scan, vertices, into);
    else if (scan.isWord('f') || scan.isWord('fo')) readFace(scan, vertices, corners, into);
    else if (!READ_OVER.has(scan.text())) {
      if (!CURVED.has(scan.text()))
        throw new IntakeFault(`OBJ line ${scan.lineNumber()}`, scan.quoted(), 'an OBJ statement (v, f, ...)');
      curved = true;
    }
    restOfStatement(scan);
  }
  if (curved) into.remarks.push('curves or curved surfaces in the file were not read, only its faces');
}

/** Numbers the builder gave to the file's vertices, in the file's order. */
class VertexList {
  #numbers = new Uint32Array(1024);
  length = 0;

  push(vertex: number): void {
    if (this.length === this.#numbers.length) {
      const wider = new Uint32Array(this.length * 2);
      wider.set(this.#numbers);
      this.#numbers = wider;
    }
    this.#numbers[this.length++] = vertex;
  }

  at(index: number): number | undefined {
    return index >= 0 && index < this.length ? this.#numbers[index] : undefined;
  }
}

function readVertex(scan: TextScan, vertices: VertexList, into: MeshBuilder): void {
  const start = scan.wordStart;
  const x = coordinate(scan, start);
  const y = coordinate(scan, start);
  const z = coordinate(scan, start);
  const vertex = into.vertex(x, y, z);
  if (vertex < 0) throw new IntakeFault(`OBJ line ${scan.lineNumber(start)}`, `v ${x} ${y} ${z}`, coordinatesAllowed);
  if (vertices.length >= LIMITS.vertices) {
    throw new IntakeFault(
      `OBJ line ${scan.lineNumber(start)}`,
      `more than ${counted(LIMITS.vertices)} vertices`,
      `at most ${counted(LIMITS.vertices)}`,
    );
  }
  vertices.push(vertex);
}

function coordinate(scan: TextScan, start: number): number {
  if (!nextInStatement(scan))
    throw new IntakeFault(
      `OBJ line ${scan.lineNumber(start)}`,
      'a vertex of fewer than three numbers',
      'v x y z (is it cut short?)',
    );
  const value = scan.number();
  if (Number.isNaN(value)) throw new IntakeFault(`OBJ line ${scan.lineNumber()}`, scan.quoted(), coordinatesAllowed);
  return value;
}

function readFace(scan: TextScan, vertices: VertexList, corners: number[], into: MeshBuilder): void {
  const start = scan.wordStart;
  corners.length = 0;
  while (nextInStatement(scan)) {
    if (scan.bytes[scan.wordStart] === 35) break;
    const number = vertexNumber(scan);
    const vertex = vertices.at(number < 0 ? vertices.length + number : number - 1);
    if (vertex === undefined) {
      const allowed =
        vertices.length === 0
          ? 'vertices before the faces'
          : `1 to ${counted(vertices.length)}, or -1 to -${counted(vertices.length)}`;
      throw new IntakeFault(`OBJ line ${scan.lineNumber()}`, `vertex number ${scan.quoted()}`, allowed);
    }
    corners.push(vertex);
  }
  const wrong = addFace(into, corners);
  if (wrong !== undefined) throw new IntakeFault(`OBJ line ${scan.lineNumber(start)}`, wrong.found, wrong.allowed);
}

/** The whole number before the first slash of "7/1/3"; NaN for anything else. */
function vertexNumber(scan: TextScan): number {
  const b = scan.bytes;
  let i = scan.wordStart;
  const negative = b[i] === MINUS;
  if (negative) i++;
  const from = i;
  let value = 0;
  for (; i < scan.wordEnd && b[i] !== SLASH; i++) {
    const digit = (b[i] ?? 0) - 48;
    if (digit < 0 || digit > 9 || value > 1e9) return Number.NaN;
    value = value * 10 + digit;
  }
  if (i === from) return Number.NaN;
  return negative ? -value : value;
}

/** The next word of this statement, which a backslash carries on to the next line. */
function nextInStatement(scan: TextScan): boolean {
  while (scan.nextWordOnLine()) {
    if (!(scan.bytes[scan.wordStart] === BACKSLASH && scan.wordEnd === scan.wordStart + 1)) return true;
    scan.nextLine();
  }
  return false;
}

function restOfStatement(scan: TextScan): void {
  const b = scan.bytes;
  for (;;) {
    const from = scan.at;
    const more = scan.nextLine();
    let last = (more ? scan.at - 1 : scan.at) - 1;
    while (last >= from && (b[last] ?? 0) <= 32) last--;
    if (!more || last < from || b[last] !== BACKSLASH) return;
  }
}
