/** How the edges of a mesh are shared. */
export interface MeshEdges {
  /** All edges; one that four triangles share counts as two, for there two sheets touch. */
  readonly count: number;
  /** Edges that only one triangle has: the rim of a hole. */
  readonly open: number;
  /** Edges that more than two triangles have. */
  readonly crowded: number;
  /** Every edge is run through as often one way as the other: the mesh encloses a volume. */
  readonly closed: boolean;
}

const SHORT = 24;

/**
 * Counts open and crowded edges. Each edge is filed under its lower vertex number, then each file is sorted: linear in
 * the triangles, and no worse than n log n when a million of them meet in one point.
 */
export function meshEdges(indices: Uint32Array, vertexCount: number): MeshEdges {
  const starts = new Uint32Array(vertexCount + 1);
  forEachEdge(indices, (low) => {
    starts[low + 1]!++;
  });
  for (let v = 0; v < vertexCount; v++) starts[v + 1]! += starts[v]!;
  const filled = starts.slice(0, vertexCount);
  // the other end, and in the lowest bit which way the triangle runs (vertex numbers stay under 2^31 by the limits)
  const others = new Uint32Array(indices.length);
  forEachEdge(indices, (low, high, backwards) => {
    others[filled[low]!++] = high * 2 + backwards;
  });
  let count = 0;
  let open = 0;
  let crowded = 0;
  let closed = indices.length > 0;
  for (let v = 0; v < vertexCount; v++) {
    const from = starts[v]!;
    const to = starts[v + 1]!;
    if (to === from) continue;
    sortRange(others, from, to);
    for (let i = from; i < to; ) {
      const other = others[i]! >>> 1;
      let uses = 0;
      let balance = 0;
      for (; i < to && others[i]! >>> 1 === other; i++) {
        uses++;
        balance += (others[i]! & 1) === 1 ? -1 : 1;
      }
      count += (uses + 1) >> 1;
      if (uses === 1) open++;
      if (uses > 2) crowded++;
      if (balance !== 0) closed = false;
    }
  }
  return { count, open, crowded, closed };
}

function forEachEdge(indices: Uint32Array, visit: (low: number, high: number, backwards: number) => void): void {
  for (let t = 0; t < indices.length; t += 3) {
    const a = indices[t]!;
    const b = indices[t + 1]!;
    const c = indices[t + 2]!;
    if (a < b) visit(a, b, 0);
    else visit(b, a, 1);
    if (b < c) visit(b, c, 0);
    else visit(c, b, 1);
    if (c < a) visit(c, a, 0);
    else visit(a, c, 1);
  }
}

function sortRange(values: Uint32Array, from: number, to: number): void {
  if (to - from > SHORT) {
    values.subarray(from, to).sort();
    return;
  }
  for (let i = from + 1; i < to; i++) {
    const value = values[i]!;
    let j = i - 1;
    for (; j >= from && values[j]! > value; j--) values[j + 1] = values[j]!;
    values[j + 1] = value;
  }
}
