import { BLOCK_SLOTS_AT, BLOCK_WORDS, HALVES_AT, LINKS_AT, type MeshBvh, NO_CHILD, NODE_WORDS } from './bvh-layout.ts';
import { BLOCK_TRIANGLES, fourChildren, type SplitTree, splitTree } from './split-tree.kernel.ts';
import type { TriangleMesh } from './triangle-mesh.ts';
import { fillTurned, TURNED_WORDS } from './turned-boxes.kernel.ts';
import type { Vec } from './vec.ts';
import { canCompile, newWasmMemory } from './wasm-memory.ts';

/** Units from the middle of the mesh to its sides: what int16 holds, less room for rounding. */
const UNITS = 32000;
/** Half a unit in the last place of float32, along three axes. */
const ROUNDING = Math.sqrt(3) * 2 ** -24;

export function buildBvh(mesh: TriangleMesh): MeshBvh {
  const count = mesh.indices.length / 3;
  const boxes = triangleBoxes(mesh);
  const order = new Uint32Array(count);
  for (let i = 0; i < count; i++) order[i] = i;
  const tree = splitTree(boxes, order);
  const { origin, halfSizeMm } = middleOf(tree.bounds);
  const unitMm = halfSizeMm > 0 ? halfSizeMm / UNITS : 1;
  const draft = new Int32Array((tree.leaves + 1) * NODE_WORDS);
  const leafOfBlock: number[] = [];
  const words = packed(tree, draft, origin, unitMm, leafOfBlock);
  const low = needsLow(mesh.positions) ? count * 9 : 0;
  const compiled = count >= COMPILED_FROM && canCompile();
  const turnedWords = compiled ? (words / NODE_WORDS) * TURNED_WORDS : 0;
  const laid = laidOut([words, turnedWords, leafOfBlock.length * BLOCK_WORDS, count * 9, low, count], compiled);
  const { buffer, wasmMemory } = laid;
  const [nodesAt, turnedAt, blocksAt, cornersAt, lowAt, orderAt] = laid.at as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const blockWords = leafOfBlock.length * BLOCK_WORDS;
  const bvh = {
    middles: new Int16Array(buffer, nodesAt, words * 2),
    halves: new Uint16Array(buffer, nodesAt, words * 2),
    links: new Int32Array(buffer, nodesAt, words),
    turned: new Int32Array(buffer, turnedAt, turnedWords),
    blocks: new Float32Array(buffer, blocksAt, blockWords),
    blockSlots: new Int32Array(buffer, blocksAt, blockWords),
    corners: new Float32Array(buffer, cornersAt, count * 9),
    cornersLow: new Float32Array(buffer, lowAt, low),
    order: new Uint32Array(buffer, orderAt, count),
  };
  bvh.links.set(draft.subarray(0, words));
  bvh.order.set(order);
  fillCorners(mesh, order, bvh.corners, bvh.cornersLow);
  fillBlocks(tree, leafOfBlock, bvh);
  const roundingMm = low > 0 ? ROUNDING * largestOf(mesh.positions) : 0;
  if (compiled) fillTurned({ origin, unitMm, ...bvh }, bvh.turned);
  return { origin, halfSizeMm, unitMm, roundingMm, ...bvh, wasmMemory };
}

/** Parts of one buffer, each beginning on a pair of cache lines. */
function laidOut(lengths: number[], compiled: boolean) {
  let bytes = LINE_PAIR;
  const at = lengths.map((words) => {
    const from = bytes;
    bytes += Math.ceil((words * 4) / LINE_PAIR) * LINE_PAIR;
    return from;
  });
  const wasmMemory = compiled ? newWasmMemory(bytes) : null;
  const buffer = wasmMemory?.buffer ?? sharedBytes(bytes);
  return { buffer, wasmMemory, at };
}

/** Memory that other threads may share, where the engine has it (a page over plain http has not). */
export function sharedBytes(bytes: number): ArrayBufferLike {
  return typeof SharedArrayBuffer === 'undefined' ? new ArrayBuffer(bytes) : new SharedArrayBuffer(bytes);
}

const LINE_PAIR = 128;
/** Smaller meshes stay with the plain search: each compiled one reserves address space of its own. */
const COMPILED_FROM = 2000;

function middleOf(bounds: Float32Array): { origin: Vec; halfSizeMm: number } {
  const half = [0, 1, 2].map((axis) => (bounds[axis + 3]! - bounds[axis]!) / 2);
  const origin: Vec = [bounds[0]! + half[0]!, bounds[1]! + half[1]!, bounds[2]! + half[2]!];
  return { origin, halfSizeMm: Math.max(...half) };
}

function needsLow(positions: TriangleMesh['positions']): boolean {
  return positions instanceof Float64Array && positions.some((v) => Math.fround(v) !== v);
}

function fillCorners(mesh: TriangleMesh, order: Uint32Array, high: Float32Array, low: Float32Array): void {
  const { positions, indices } = mesh;
  for (let slot = 0; slot < order.length; slot++) {
    for (let corner = 0; corner < 3; corner++) {
      const from = indices[order[slot]! * 3 + corner]! * 3;
      const to = slot * 9 + corner * 3;
      for (let axis = 0; axis < 3; axis++) {
        const v = positions[from + axis]!;
        high[to + axis] = v;
        if (low.length > 0) low[to + axis] = v - Math.fround(v);
      }
    }
  }
}

function fillBlocks(
  tree: SplitTree,
  leafOfBlock: number[],
  out: Pick<MeshBvh, 'blocks' | 'blockSlots' | 'corners'>,
): void {
  for (let block = 0; block < leafOfBlock.length; block++) {
    const at = block * BLOCK_WORDS;
    const first = tree.start[leafOfBlock[block]!]!;
    const last = tree.count[leafOfBlock[block]!]! - 1;
    out.blockSlots[at + BLOCK_SLOTS_AT] = first * 4 + last;
    for (let k = 0; k < BLOCK_TRIANGLES; k++) {
      const from = (first + Math.min(k, last)) * 9;
      for (let i = 0; i < 9; i++) out.blocks[at + i * 4 + k] = out.corners[from + i]!;
    }
  }
}

function largestOf(values: TriangleMesh['positions']): number {
  let largest = 0;
  for (let i = 0; i < values.length; i++) largest = Math.max(largest, Math.abs(values[i]!));
  return largest;
}

/** The next float32 at or above v. */
function roundedUp(v: number): number {
  const f = Math.fround(v);
  return f >= v ? f : Math.fround(f + Math.abs(f) * 1.2e-7 + 1e-45);
}

/** Six float32 a triangle, rounded outwards: min x y z, max x y z. */
function triangleBoxes(mesh: TriangleMesh): Float32Array {
  const { positions: p, indices } = mesh;
  const boxes = new Float32Array(indices.length * 2);
  for (let i = 0, o = 0; i < indices.length; i += 3, o += 6) {
    const a = indices[i]! * 3;
    const b = indices[i + 1]! * 3;
    const c = indices[i + 2]! * 3;
    for (let axis = 0; axis < 3; axis++) {
      const u = p[a + axis]!;
      const v = p[b + axis]!;
      const w = p[c + axis]!;
      boxes[o + axis] = -roundedUp(-Math.min(u, v, w));
      boxes[o + 3 + axis] = roundedUp(Math.max(u, v, w));
    }
  }
  return boxes;
}

/** Folds the two-way tree into nodes of four children and numbers its leaves as blocks; returns the words used. */
function packed(tree: SplitTree, links: Int32Array, origin: Vec, unitMm: number, leafOfBlock: number[]): number {
  const middles = new Int16Array(links.buffer);
  const halves = new Uint16Array(links.buffer);
  let used = 0;
  const place = (root: number): number => {
    const at = used;
    used += NODE_WORDS;
    const children = fourChildren(tree, root);
    for (let k = 0; k < 4; k++) {
      const child = children[k];
      if (child === undefined) {
        links[at + LINKS_AT + k] = NO_CHILD;
        continue;
      }
      for (let axis = 0; axis < 3; axis++) {
        const low = (tree.bounds[child * 6 + axis]! - origin[axis]!) / unitMm;
        const high = (tree.bounds[child * 6 + 3 + axis]! - origin[axis]!) / unitMm;
        const middle = Math.round((low + high) / 2);
        middles[at * 2 + axis * 4 + k] = middle;
        // A twentieth of a unit is far more than rounding in a query takes.
        halves[at * 2 + HALVES_AT + axis * 4 + k] = Math.ceil(Math.max(high - middle, middle - low) + 0.05);
      }
      links[at + LINKS_AT + k] = tree.left[child]! < 0 ? ~(leafOfBlock.push(child) - 1) : place(child);
    }
    return at;
  };
  place(0);
  return used;
}
