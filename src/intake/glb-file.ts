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
const [POINTS, LINE_STRIP, TRIANGLES, STRIP, FAN] = [0, 3, 4, 5, 6];

/** Reads the triangles of a GLB's scene, each mesh where its nodes put it. The axes stay the file's own (glTF: Y up). */
export function readGlb(bytes: Uint8Array, into: MeshBuilder): void {
  const parts = glbParts(bytes);
  const budget = { vertices: 0 };
  if ((parts.json.nodes?.length ?? 0) === 0) {
    parts.json.meshes?.forEach((_, mesh) => addMesh(parts, mesh, ASIS, into, budget));
    return;
  }
  const seen = new Set<number>();
  const stack = rootNodes(parts.json).map((node) => ({ node, outer: ASIS }));
  for (let next = stack.pop(); next !== undefined; next = stack.pop()) {
    const node = parts.json.nodes?.[next.node];
    if (node === undefined) throw new IntakeFault('GLB JSON nodes', `node ${next.node}`, `0 to ${(parts.json.nodes?.length ?? 0) - 1}`);
    if (seen.has(next.node)) throw new IntakeFault(`GLB JSON nodes.${next.node}`, 'reached twice (a loop?)', 'each node under one parent');
    seen.add(next.node);
    const matrix = product(next.outer, ownMatrix(node));
    if (node.mesh !== undefined) addMesh(parts, node.mesh, matrix, into, budget);
    for (const child of node.children ?? []) stack.push({ node: child, outer: matrix });
  }
  into.remarks.push('GLB files have Y up by their standard: turnDeg [90, 0, 0] brings Y to Z');
}

function rootNodes(json: GlbJson): readonly number[] {
  if (json.scenes !== undefined && json.scenes.length > 0) {
    const scene = json.scenes[json.scene ?? 0];
    if (scene === undefined) throw new IntakeFault('GLB JSON scene', String(json.scene), `0 to ${json.scenes.length - 1}`);
    return scene.nodes ?? [];
  }
  const children = new Set(json.nodes?.flatMap((node) => node.children ?? []));
  return (json.nodes ?? []).map((_, i) => i).filter((i) => !children.has(i));
}

function addMesh(parts: GlbParts, mesh: number, matrix: Matrix, into: MeshBuilder, budget: { vertices: number }): void {
  const primitives = parts.json.meshes?.[mesh]?.primitives;
  if (primitives === undefined) throw new IntakeFault('GLB JSON meshes', `mesh ${mesh}`, `0 to ${(parts.json.meshes?.length ?? 0) - 1}`);
  primitives.forEach((primitive, i) => addPrimitive(parts, primitive, `GLB JSON meshes.${mesh}.primitives.${i}`, matrix, into, budget));
}

function addPrimitive(parts: GlbParts, primitive: Primitive, where: string, matrix: Matrix, into: MeshBuilder, budget: { vertices: number }): void {
  const mode = primitive.mode ?? TRIANGLES;
  if (mode >= POINTS && mode <= LINE_STRIP) return;
  const packed = Object.keys(primitive.extensions ?? {}).find((name) => name.includes('compression'));
  if (packed !== undefined) throw new IntakeFault(where, `compressed by ${JSON.stringify(packed.slice(0, 60))}`, 'a file without compression');
  const accessor = primitive.attributes['POSITION'];
  if (accessor === undefined) return;
  const positions = glbValues(parts, accessor, 'VEC3');
  const indices = primitive.indices === undefined ? undefined : glbValues(parts, primitive.indices, 'SCALAR');
  const corners = indices?.count ?? positions.count;
  // One small file can place the same mesh a million times: the sums over all nodes are held against the limits.
  budget.vertices += positions.count;
  const triangles = mode === TRIANGLES ? Math.floor(corners / 3) : Math.max(0, corners - 2);
  if (into.triangleCount + triangles > LIMITS.triangles || budget.vertices > LIMITS.vertices) {
    throw new IntakeFault(where, `more than ${counted(LIMITS.triangles)} triangles or vertices with all nodes`, `at most ${counted(LIMITS.triangles)}`);
  }
  const vertices = new Uint32Array(positions.count);
  for (let row = 0; row < positions.count; row++) {
    const [x, y, z] = [positions.at(row, 0), positions.at(row, 1), positions.at(row, 2)];
    const vertex = into.vertex(moved(matrix, 0, x, y, z), moved(matrix, 1, x, y, z), moved(matrix, 2, x, y, z));
    if (vertex < 0) throw new IntakeFault(`${where} vertex ${row}`, `${x} ${y} ${z}`, `${coordinatesAllowed}, as its nodes place it`);
    vertices[row] = vertex;
  }
  const mirrored = determinant(matrix) < 0;
  const corner = (i: number): number => {
    const number = indices === undefined ? i : indices.at(i, 0);
    const vertex = vertices[number];
    if (vertex === undefined) throw new IntakeFault(`${where} corner ${i}`, `vertex number ${number}`, `0 to ${counted(positions.count - 1)}`);
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
  return [
    (1 - 2 * (y * y + z * z)) * sx, 2 * (x * y + z * w) * sx, 2 * (x * z - y * w) * sx, 0,
    2 * (x * y - z * w) * sy, (1 - 2 * (x * x + z * z)) * sy, 2 * (y * z + x * w) * sy, 0,
    2 * (x * z + y * w) * sz, 2 * (y * z - x * w) * sz, (1 - 2 * (x * x + y * y)) * sz, 0,
    tx, ty, tz, 1,
  ]; // biome-ignore format: a matrix by columns
}

function product(a: Matrix, b: Matrix): Matrix {
  const of = (m: Matrix, row: number, column: number): number => m[column * 4 + row] ?? 0;
  return Array.from({ length: 16 }, (_, i) => [0, 1, 2, 3].reduce((sum, k) => sum + of(a, i % 4, k) * of(b, k, i >> 2), 0));
}

const moved = (m: Matrix, row: number, x: number, y: number, z: number): number =>
  (m[row] ?? 0) * x + (m[4 + row] ?? 0) * y + (m[8 + row] ?? 0) * z + (m[12 + row] ?? 0);

function determinant(m: Matrix): number {
  const [a = 0, b = 0, c = 0, , d = 0, e = 0, f = 0, , g = 0, h = 0, i = 0] = m;
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}
