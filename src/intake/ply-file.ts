import { addFace } from './add-face.ts';
import { IntakeFault } from './intake-fault.ts';
import { counted, LIMITS } from './limits.ts';
import type { MeshBuilder } from './mesh-builder.kernel.ts';
import { type PlyElement, type PlyProperty, plyHeader } from './ply-header.ts';
import { type PlyValues, plyValues } from './ply-values.kernel.ts';
import { coordinatesAllowed } from './stl-file.ts';

const NO_VERTICES = new Uint32Array(0);
const FACE_LISTS = ['vertex_indices', 'vertex_index'];

/** Reads a PLY, ASCII or binary of either byte order: its vertices' x, y, z and its faces; all else is stepped over. */
export function readPly(bytes: Uint8Array, into: MeshBuilder): void {
  const header = plyHeader(bytes);
  const values = plyValues(bytes, header);
  const faces = header.elements.find((element) => element.name === 'face');
  if (faces === undefined || faces.count === 0) {
    const strips = header.elements.some((element) => element.name === 'tristrips');
    throw new IntakeFault(
      'PLY header',
      strips ? 'triangle strips' : 'no faces (a cloud of points?)',
      'an element "face"',
    );
  }
  let vertices: Uint32Array = NO_VERTICES;
  for (const element of header.elements) {
    checkFits(element, values);
    if (element.name === 'vertex') vertices = readVertices(element, values, into);
    else if (element.name === 'face') readFaces(element, values, vertices, into);
    else skip(element, values);
  }
  // a line end after the last value is common; more means that a count is too small
  if (header.format !== 'ascii' && values.left() > 2) {
    throw new IntakeFault('PLY', `${counted(values.left())} bytes after the last value`, 'counts that fit the file');
  }
}

/** Holds a declared count against the bytes that are left, before anything is allocated for it. */
function checkFits(element: PlyElement, values: PlyValues): void {
  const row = element.properties.reduce((sum, p) => sum + values.leastBytes(p.lengthType ?? p.type), 0);
  const where = `PLY element ${element.name}`;
  if (element.count > 0 && row === 0) throw new IntakeFault(where, 'no properties', 'at least one');
  const needed = row * element.count;
  if (needed > values.left()) {
    throw new IntakeFault(
      where,
      `${counted(element.count)} declared, at least ${counted(needed)} bytes; the file has ${counted(values.left())} left`,
      'a count that fits the file (is it cut short?)',
    );
  }
}

function readVertices(element: PlyElement, values: PlyValues, into: MeshBuilder): Uint32Array {
  if (element.count > LIMITS.vertices) {
    throw new IntakeFault(
      'PLY element vertex',
      `${counted(element.count)} declared`,
      `at most ${counted(LIMITS.vertices)}`,
    );
  }
  for (const axis of ['x', 'y', 'z']) {
    const property = element.properties.find((p) => p.name === axis);
    if (property === undefined || property.lengthType !== undefined)
      throw new IntakeFault('PLY element vertex', `no single value "${axis}"`, 'properties x, y, z');
  }
  const vertices = new Uint32Array(element.count);
  let row = 0;
  const place = (): string => `PLY vertex ${row}`;
  let [x, y, z] = [0, 0, 0];
  for (; row < element.count; row++) {
    for (const property of element.properties) {
      if (property.lengthType !== undefined) {
        skipList(property, values, place);
        continue;
      }
      const value = values.next(property.type, place);
      if (property.name === 'x') x = value;
      else if (property.name === 'y') y = value;
      else if (property.name === 'z') z = value;
    }
    values.endRow(place);
    const vertex = into.vertex(x, y, z);
    if (vertex < 0) throw new IntakeFault(place(), `${x} ${y} ${z}`, coordinatesAllowed);
    vertices[row] = vertex;
  }
  return vertices;
}

function readFaces(element: PlyElement, values: PlyValues, vertices: Uint32Array, into: MeshBuilder): void {
  if (!element.properties.some((p) => p.lengthType !== undefined && FACE_LISTS.includes(p.name))) {
    throw new IntakeFault('PLY element face', 'no list "vertex_indices"', 'a list of vertex numbers');
  }
  let row = 0;
  const place = (): string => `PLY face ${row}`;
  const corners: number[] = [];
  for (; row < element.count; row++) {
    for (const property of element.properties) {
      if (property.lengthType === undefined) values.next(property.type, place);
      else if (FACE_LISTS.includes(property.name)) readCorners(property, values, vertices, corners, place);
      else skipList(property, values, place);
    }
    values.endRow(place);
    const wrong = addFace(into, corners);
    if (wrong !== undefined) throw new IntakeFault(place(), wrong.found, wrong.allowed);
  }
}

function readCorners(
  property: PlyProperty,
  values: PlyValues,
  vertices: Uint32Array,
  corners: number[],
  place: () => string,
): void {
  const length = listLength(property, values, place);
  corners.length = 0;
  for (let i = 0; i < length; i++) {
    const number = values.next(property.type, place);
    const vertex = vertices[number];
    if (vertex === undefined) {
      const allowed = vertices.length > 0 ? `0 to ${counted(vertices.length - 1)}` : 'vertices before the faces';
      throw new IntakeFault(place(), `vertex number ${number}`, allowed);
    }
    corners.push(vertex);
  }
}

function listLength(property: PlyProperty, values: PlyValues, place: () => string): number {
  const length = values.next(property.lengthType ?? property.type, place);
  if (!Number.isInteger(length) || length < 0)
    throw new IntakeFault(place(), `a list of length ${length}`, 'a whole number, 0 or more');
  if (length * values.leastBytes(property.type) > values.left()) {
    throw new IntakeFault(
      place(),
      `a list of ${counted(length)} values; the file has ${counted(values.left())} bytes left`,
      'a length that fits the file',
    );
  }
  return length;
}

function skipList(property: PlyProperty, values: PlyValues, place: () => string): void {
  for (let left = listLength(property, values, place); left > 0; left--) values.next(property.type, place);
}

function skip(element: PlyElement, values: PlyValues): void {
  let row = 0;
  const place = (): string => `PLY ${element.name} ${row}`;
  for (; row < element.count; row++) {
    for (const property of element.properties) {
      if (property.lengthType === undefined) values.next(property.type, place);
      else skipList(property, values, place);
    }
    values.endRow(place);
  }
}
