import { BLOCK_SLOTS_AT, BLOCK_WORDS, HALVES_AT, LINKS_AT, type MeshBvh, NO_CHILD, NODE_WORDS } from './bvh-layout.ts';
import type { TriangleMesh } from './triangle-mesh.ts';
import { fillTurned, TURNED_WORDS } from './turned-boxes.kernel.ts';
import type { Vec } from './vec.ts';
import { canCompile, newWasmMemory } from './wasm-memory.ts';

const BLOCK_TRIANGLES = 4;
const BINS = 16;
/** Units from the middle of the mesh to its sides: what int16 holds, less room for rounding. */
const UNITS = 32000;
/** Half a unit in the last place of float32, along three axes. */
const ROUNDING = Math.sqrt(3) * 2 ** -24;
/** Cost of visiting a node over testing one block; measured, a reading of few per cent either way. */
const NODE_COST = 0.6;
/** Past this depth splits go by halves, so that the query's stack has a bound. */
const DEPTH_OF_HALVES = 40;

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

/** A two-way tree: node i has box bounds[6 i ...]; left[i] >= 0 is a child pair, else a leaf of count[i] slots from start[i]. */
interface SplitTree {
  readonly bounds: Float32Array;
  readonly left: Int32Array;
  readonly start: Uint32Array;
  readonly count: Uint32Array;
  leaves: number;
}

function splitTree(boxes: Float32Array, order: Uint32Array): SplitTree {
  const n = order.length;
  const tree: SplitTree = {
    bounds: new Float32Array(n * 12),
    left: new Int32Array(n * 2).fill(-1),
    start: new Uint32Array(n * 2),
    count: new Uint32Array(n * 2),
    leaves: 0,
  };
  const depth = new Uint8Array(n * 2);
  const splitter = makeSplitter(boxes, order);
  tree.count[0] = n;
  boundsOf(boxes, order, 0, n, tree.bounds, 0);
  let used = 1;
  const todo = [0];
  while (todo.length > 0) {
    const node = todo.pop()!;
    const start = tree.start[node]!;
    const end = start + tree.count[node]!;
    const middle = splitter(start, end, tree.bounds, node * 6, depth[node]! >= DEPTH_OF_HALVES);
    if (middle < 0) {
      tree.leaves++;
      continue;
    }
    tree.left[node] = used;
    for (const [from, to] of [
      [start, middle],
      [middle, end],
    ] as const) {
      tree.start[used] = from;
      tree.count[used] = to - from;
      depth[used] = depth[node]! + 1;
      boundsOf(boxes, order, from, to, tree.bounds, used * 6);
      todo.push(used++);
    }
  }
  return tree;
}

function boundsOf(
  boxes: Float32Array,
  order: Uint32Array,
  start: number,
  end: number,
  out: Float32Array,
  at: number,
): void {
  let x0 = Infinity;
  let y0 = Infinity;
  let z0 = Infinity;
  let x1 = -Infinity;
  let y1 = -Infinity;
  let z1 = -Infinity;
  for (let i = start; i < end; i++) {
    const o = order[i]! * 6;
    if (boxes[o]! < x0) x0 = boxes[o]!;
    if (boxes[o + 1]! < y0) y0 = boxes[o + 1]!;
    if (boxes[o + 2]! < z0) z0 = boxes[o + 2]!;
    if (boxes[o + 3]! > x1) x1 = boxes[o + 3]!;
    if (boxes[o + 4]! > y1) y1 = boxes[o + 4]!;
    if (boxes[o + 5]! > z1) z1 = boxes[o + 5]!;
  }
  out[at] = x0;
  out[at + 1] = y0;
  out[at + 2] = z0;
  out[at + 3] = x1;
  out[at + 4] = y1;
  out[at + 5] = z1;
}

const blocksFor = (triangles: number): number => (triangles + BLOCK_TRIANGLES - 1) >> 2;

/** Half the surface of the box at `at`. */
function halfArea(b: Float32Array | Float64Array, at: number): number {
  const x = b[at + 3]! - b[at]!;
  const y = b[at + 4]! - b[at + 1]!;
  const z = b[at + 5]! - b[at + 2]!;
  return x >= 0 ? x * y + y * z + z * x : 0;
}

/**
 * Splits order[start, end) where surface area times blocks is least over 16 bins on each axis; returns where, or -1 for a leaf.
 */
function makeSplitter(boxes: Float32Array, order: Uint32Array) {
  const binBox = new Float64Array(BINS * 6);
  const binCount = new Uint32Array(BINS);
  const after = new Float64Array(BINS);
  const running = new Float64Array(6);
  const centres = new Float32Array(6);

  const clear = (b: Float64Array): void => {
    for (let i = 0; i < b.length; i += 6) {
      b[i] = b[i + 1] = b[i + 2] = Infinity;
      b[i + 3] = b[i + 4] = b[i + 5] = -Infinity;
    }
  };
  const grow = (b: Float64Array, at: number, from: Float32Array | Float64Array, o: number): void => {
    if (from[o]! < b[at]!) b[at] = from[o]!;
    if (from[o + 1]! < b[at + 1]!) b[at + 1] = from[o + 1]!;
    if (from[o + 2]! < b[at + 2]!) b[at + 2] = from[o + 2]!;
    if (from[o + 3]! > b[at + 3]!) b[at + 3] = from[o + 3]!;
    if (from[o + 4]! > b[at + 4]!) b[at + 4] = from[o + 4]!;
    if (from[o + 5]! > b[at + 5]!) b[at + 5] = from[o + 5]!;
  };
  /** Twice the range of triangle centres on each axis. */
  const centreRange = (start: number, end: number): void => {
    centres.fill(Infinity, 0, 3);
    centres.fill(-Infinity, 3, 6);
    for (let i = start; i < end; i++) {
      const o = order[i]! * 6;
      for (let axis = 0; axis < 3; axis++) {
        const c = Math.fround(boxes[o + axis]! + boxes[o + 3 + axis]!);
        if (c < centres[axis]!) centres[axis] = c;
        if (c > centres[3 + axis]!) centres[3 + axis] = c;
      }
    }
  };
  const partition = (start: number, end: number, axis: number, scale: number, low: number, bin: number): number => {
    let i = start;
    let j = end - 1;
    while (i <= j) {
      const t = order[i]!;
      const c = Math.fround(boxes[t * 6 + axis]! + boxes[t * 6 + 3 + axis]!);
      if (Math.min(BINS - 1, ((c - low) * scale) | 0) <= bin) {
        i++;
      } else {
        order[i] = order[j]!;
        order[j] = t;
        j--;
      }
    }
    return i;
  };

  return (start: number, end: number, bounds: Float32Array, at: number, halves: boolean): number => {
    const n = end - start;
    if (n <= 1) return -1;
    if (halves) return n <= BLOCK_TRIANGLES ? -1 : start + (n >> 1);
    centreRange(start, end);
    const whole = halfArea(bounds, at);
    let best = Infinity;
    let bestAxis = -1;
    let bestBin = 0;
    for (let axis = 0; axis < 3; axis++) {
      const low = centres[axis]!;
      const width = centres[3 + axis]! - low;
      const scale = BINS / width;
      if (!(width > 0) || !Number.isFinite(scale)) continue;
      clear(binBox);
      binCount.fill(0);
      for (let i = start; i < end; i++) {
        const o = order[i]! * 6;
        const c = Math.fround(boxes[o + axis]! + boxes[o + 3 + axis]!);
        const bin = Math.min(BINS - 1, ((c - low) * scale) | 0);
        binCount[bin]!++;
        grow(binBox, bin * 6, boxes, o);
      }
      clear(running);
      let seen = 0;
      for (let b = BINS - 1; b > 0; b--) {
        grow(running, 0, binBox, b * 6);
        seen += binCount[b]!;
        after[b] = seen > 0 ? halfArea(running, 0) * blocksFor(seen) : Infinity;
      }
      clear(running);
      seen = 0;
      for (let b = 0; b < BINS - 1; b++) {
        grow(running, 0, binBox, b * 6);
        seen += binCount[b]!;
        const cost = seen > 0 ? halfArea(running, 0) * blocksFor(seen) + after[b + 1]! : Infinity;
        if (cost < best) {
          best = cost;
          bestAxis = axis;
          bestBin = b;
        }
      }
    }
    if (bestAxis < 0) return n <= BLOCK_TRIANGLES ? -1 : start + (n >> 1);
    if (n <= BLOCK_TRIANGLES && NODE_COST * whole + best >= whole) return -1;
    const low = centres[bestAxis]!;
    return partition(start, end, bestAxis, BINS / (centres[3 + bestAxis]! - low), low, bestBin);
  };
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

/** Opens the largest box again and again until there are four (a tree of one leaf: one). */
function fourChildren(tree: SplitTree, root: number): number[] {
  const children = [root];
  while (children.length < 4) {
    let open = -1;
    let largest = -1;
    for (let i = 0; i < children.length; i++) {
      const c = children[i]!;
      const area = halfArea(tree.bounds, c * 6);
      if (tree.left[c]! >= 0 && area > largest) {
        largest = area;
        open = i;
      }
    }
    if (open < 0) break;
    const first = tree.left[children[open]!]!;
    children.splice(open, 1, first, first + 1);
  }
  return children;
}
