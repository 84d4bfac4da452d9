import { glbValues } from './glb-accessor.ts';
import { type GlbJson, type GlbParts, glbParts } from './glb-json.ts';
import { IntakeFault } from './intake-fault.ts';
import { counted, LIMITS } from './limits.ts';
import type { MeshBuilder } from './mesh-builder.kernel.ts';
import { coordinatesAllowed } from './stl-file.ts';

/** Columns of a 4 x 4 matrix, as glTF keeps them. */
type Matrix = readonly number[];
type Node = NonNullable<GlbJson['nodes']>[number];
type Primitive = NonNullable<GlbJson['meshes']>[number]['primitives'][number];

const ASIS: Matrix = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1];
/** Primitive modes; the lower ones are points and lines. */
const [TRIANGLES, STRIP, FAN] = [4, 5, 6];
/** Real models place hundreds to thousands. */
const MOST_PRIMITIVES = 200_000;

interface Placed {
  readonly primitive: Primitive;
  readonly where: string;
  readonly matrix: Matrix;
}

/** Reads the triangles of a GLB's scene, each mesh where its nodes put it. The axes stay the file's own (glTF: Y up). */
export function readGlb(bytes: Uint8Array, into: MeshBuilder): void {
  const parts = glbParts(bytes);
  const placed = placedPrimitives(parts.json);
  checkTotals(parts, placed);
  for (const one of placed) addPrimitive(parts, one, into);
  into.remarks.push('GLB files have Y up by their standard: turnDeg [90, 0, 0] brings Y to Z');
}

function placedPrimitives(json: GlbJson): Placed[] {
  if ((json.nodes?.length ?? 0) === 0)
    return (json.meshes ?? []).flatMap((_, mesh) => meshPrimitives(json, mesh, ASIS));
  const placed: Placed[] = [];
  const seen = new Set<number>();
  const stack = rootNodes(json).map((node) => ({ node, outer: ASIS }));
  for (let next = stack.pop(); next !== undefined; next = stack.pop()) {
    const node = json.nodes?.[next.node];
    if (node === undefined)
      throw new IntakeFault('GLB JSON nodes', `node ${next.node}`, `0 to ${(json.nodes?.length ?? 0) - 1}`);
    if (seen.has(next.node))
      throw new IntakeFault(`GLB JSON nodes.${next.node}`, 'reached twice (a loop?)', 'each node under one parent');
    seen.add(next.node);
    const matrix = product(next.outer, ownMatrix(node));
    if (node.mesh !== undefined) placed.push(...meshPrimitives(json, node.mesh, matrix));
    if (placed.length > MOST_PRIMITIVES)
      throw new IntakeFault(
        'GLB JSON nodes',
        `more than ${counted(MOST_PRIMITIVES)} meshes placed`,
        `at most ${counted(MOST_PRIMITIVES)}`,
      );
    for (const child of node.children ?? []) stack.push({ node: child, outer: matrix });
  }
  return placed;
}

function meshPrimitives(json: GlbJson, mesh: number, matrix: Matrix): Placed[] {
  const primitives = json.meshes?.[mesh]?.primitives;
  if (primitives === undefined)
    throw new IntakeFault('GLB JSON meshes', `mesh ${mesh}`, `0 to ${(json.meshes?.length ?? 0) - 1}`);
  return primitives
    .map((primitive, i) => ({ primitive, matrix, where: `GLB JSON meshes.${mesh}.primitives.${i}` }))
    .filter(({ primitive }) => modeOf(primitive) >= TRIANGLES && primitive.attributes['POSITION'] !== undefined);
}

/** One small file can place the same mesh a million times: the sums are held against the limits before anything is built. */
function checkTotals(parts: GlbParts, placed: readonly Placed[]): void {
  let triangles = 0;
  let vertices = 0;
  for (const { primitive, where } of placed) {
    const packed = Object.keys(primitive.extensions ?? {}).find((name) => name.includes('compression'));
    if (packed !== undefined)
      throw new IntakeFault(
        where,
        `compressed by ${JSON.stringify(packed.slice(0, 60))}`,
        'a file without compression',
      );
    const rows = parts.json.accessors?.[primitive.attributes['POSITION'] ?? -1]?.count ?? 0;
    const corners = primitive.indices === undefined ? rows : (parts.json.accessors?.[primitive.indices]?.count ?? 0);
    triangles += trianglesOf(primitive, corners);
    vertices += rows;
    if (triangles > LIMITS.triangles || vertices > LIMITS.vertices) {
      throw new IntakeFault(
        where,
        `more than ${counted(LIMITS.triangles)} triangles or vertices with all nodes`,
        `at most ${counted(LIMITS.triangles)}`,
      );
    }
  }
}

const modeOf = (primitive: Primitive): number => primitive.mode ?? TRIANGLES;
const trianglesOf = (primitive: Primitive, corners: number): number =>
  modeOf(primitive) === TRIANGLES ? Math.floor(corners / 3) : Math.max(0, corners - 2);

function rootNodes(json: GlbJson): readonly number[] {
  if (json.scenes !== undefined && json.scenes.length > 0) {
    const scene = json.scenes[json.scene ?? 0];
    if (scene === undefined)
      throw new IntakeFault('GLB JSON scene', String(json.scene), `0 to ${json.scenes.length - 1}`);
    return scene.nodes ?? [];
  }
  const children = new Set(json.nodes?.flatMap((node) => node.children ?? []));
  return (json.nodes ?? []).map((_, i) => i).filter((i) => !children.has(i));
}

function addPrimitive(parts: GlbParts, { primitive, where, matrix }: Placed, into: MeshBuilder): void {
  const positions = glbValues(parts, primitive.attributes['POSITION'] ?? -1, 'VEC3');
  const indices = primitive.indices === undefined ? undefined : glbValues(parts, primitive.indices, 'SCALAR');
  const mode = modeOf(primitive);
  const triangles = trianglesOf(primitive, indices?.count ?? positions.count);
  const vertices = new Uint32Array(positions.count);
  for (let row = 0; row < positions.count; row++) {
    const [x, y, z] = [positions.at(row, 0), positions.at(row, 1), positions.at(row, 2)];
    const vertex = into.vertex(moved(matrix, 0, x, y, z), moved(matrix, 1, x, y, z), moved(matrix, 2, x, y, z));
    if (vertex < 0)
      throw new IntakeFault(`${where} vertex ${row}`, `${x} ${y} ${z}`, `${coordinatesAllowed}, as its nodes place it`);
    vertices[row] = vertex;
  }
  const mirrored = determinant(matrix) < 0;
  const corner = (i: number): number => {
    const number = indices === undefined ? i : indices.at(i, 0);
    const vertex = vertices[number];
    if (vertex === undefined)
      throw new IntakeFault(`${where} corner ${i}`, `vertex number ${number}`, `0 to ${counted(positions.count - 1)}`);
    return vertex;
  };
  for (let t = 0; t < triangles; t++) {
    const [a, b, c] = cornersOf(mode, t).map(corner);
    if (a === undefined || b === undefined || c === undefined) continue;
    if (mirrored) into.triangle(a, c, b);
    else into.triangle(a, b, c);
  }
}

/** Which corners triangle t has, in lists, strips (every other one turned back) and fans (glTF 2.0, section 3.7.2.1). */
function cornersOf(mode: number, t: number): readonly [number, number, number] {
  if (mode === STRIP) return t % 2 === 0 ? [t, t + 1, t + 2] : [t, t + 2, t + 1];
  if (mode === FAN) return [t + 1, t + 2, 0];
  return [3 * t, 3 * t + 1, 3 * t + 2];
}

function ownMatrix(node: Node): Matrix {
  if (node.matrix !== undefined) return node.matrix;
  const [tx = 0, ty = 0, tz = 0] = node.translation ?? [];
  const [x = 0, y = 0, z = 0, w = 1] = node.rotation ?? [];
  const [sx = 1, sy = 1, sz = 1] = node.scale ?? [];
  // biome-ignore format: a matrix by columns
  return [
    (1 - 2 * (y * y + z * z)) * sx, 2 * (x * y + z * w) * sx, 2 * (x * z - y * w) * sx, 0,
    2 * (x * y - z * w) * sy, (1 - 2 * (x * x + z * z)) * sy, 2 * (y * z + x * w) * sy, 0,
    2 * (x * z + y * w) * sz, 2 * (y * z - x * w) * sz, (1 - 2 * (x * x + y * y)) * sz, 0,
    tx, ty, tz, 1,
  ];
}

function product(a: Matrix, b: Matrix): Matrix {
  const of = (m: Matrix, row: number, column: number): number => m[column * 4 + row] ?? 0;
  return Array.from({ length: 16 }, (_, i) =>
    [0, 1, 2, 3].reduce((sum, k) => sum + of(a, i % 4, k) * of(b, k, i >> 2), 0),
  );
}

const moved = (m: Matrix, row: number, x: number, y: number, z: number): number =>
  (m[row] ?? 0) * x + (m[4 + row] ?? 0) * y + (m[8 + row] ?? 0) * z + (m[12 + row] ?? 0);

function determinant(m: Matrix): number {
  const [a = 0, b = 0, c = 0, , d = 0, e = 0, f = 0, , g = 0, h = 0, i = 0] = m;
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}
