/** Items a leaf holds at most: the compiled closest-point search tests four triangles at once. */
export const BLOCK_TRIANGLES = 4;
const BINS = 16;
/** Cost of visiting a node over testing one block; measured, a reading of few per cent either way. */
const NODE_COST = 0.6;
/** Past this depth splits go by halves, so that the query's stack has a bound. */
const DEPTH_OF_HALVES = 40;

/** A two-way tree: node i has box bounds[6 i ...]; left[i] >= 0 is a child pair, else a leaf of count[i] slots from start[i]. */
export interface SplitTree {
  readonly bounds: Float32Array;
  readonly left: Int32Array;
  readonly start: Uint32Array;
  readonly count: Uint32Array;
  leaves: number;
}

/**
 * Splits items by their boxes (six float32 each: min x y z, max x y z), reordering `order`.
 *
 * @param mostInLeaf - 1: down to single items; 4: where a leaf of up to four costs less, it stays whole
 */
export function splitTree(boxes: Float32Array, order: Uint32Array, mostInLeaf = BLOCK_TRIANGLES): SplitTree {
  const n = order.length;
  const tree: SplitTree = {
    bounds: new Float32Array(n * 12),
    left: new Int32Array(n * 2).fill(-1),
    start: new Uint32Array(n * 2),
    count: new Uint32Array(n * 2),
    leaves: 0,
  };
  const depth = new Uint8Array(n * 2);
  const splitter = makeSplitter(boxes, order, mostInLeaf);
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

const blocksFor = (items: number): number => (items + BLOCK_TRIANGLES - 1) >> 2;

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
function makeSplitter(boxes: Float32Array, order: Uint32Array, mostInLeaf: number) {
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
    if (halves) return n <= mostInLeaf ? -1 : start + (n >> 1);
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
    if (bestAxis < 0) return n <= mostInLeaf ? -1 : start + (n >> 1);
    if (n <= mostInLeaf && NODE_COST * whole + best >= whole) return -1;
    const low = centres[bestAxis]!;
    return partition(start, end, bestAxis, BINS / (centres[3 + bestAxis]! - low), low, bestBin);
  };
}

/** Opens the largest box again and again until there are four (a tree of one leaf: one). */
export function fourChildren(tree: SplitTree, root: number): number[] {
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
