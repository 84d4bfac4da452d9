/** An order in which to eliminate the nodes of a graph, as a permutation: `order[k]` is the node taken k-th. */
type Order = Int32Array;

const VARIABLE = 0;
const ELEMENT = 1;
const GONE = 2;

/**
 * Approximate minimum degree order of a graph without loops: next comes the node whose elimination would join the
 * fewest others, so that the factor stays sparse. An eliminated node lives on as an element, the set of nodes it joined,
 * and degrees are bounded from above by the elements' sizes instead of counted.
 *
 * Ties go to the node whose degree changed last, so the order is the same on every machine.
 *
 * `start`: `neighbours[start[i]] … neighbours[start[i + 1] - 1]` are the neighbours of i, each once, both ways
 * After amestoy-1996-minimum-degree in the bibliography.
 */
export function minimumDegreeOrder(start: Int32Array, neighbours: Int32Array): Order {
  const n = start.length - 1;
  let pool = new Int32Array(2 * neighbours.length + n + 16);
  pool.set(neighbours);
  let poolEnd = neighbours.length;
  const kind = new Uint8Array(n);
  // Of a variable: its elements first, then its variables, from `at` on. Of an element: its variables.
  const at = Int32Array.from(start.subarray(0, n));
  const elements = new Int32Array(n);
  const size = new Int32Array(n);
  const degree = new Int32Array(n);
  const head = new Int32Array(n + 1).fill(-1);
  const next = new Int32Array(n).fill(-1);
  const before = new Int32Array(n).fill(-1);
  const mark = new Int32Array(n).fill(-1);
  const seen = new Int32Array(n).fill(-1);
  const outside = new Int32Array(n);
  const keptElements = new Int32Array(n + 1);
  const keptVariables = new Int32Array(n + 1);
  const order = new Int32Array(n);

  const list = (i: number, d: number): void => {
    degree[i] = d;
    const first = head[d]!;
    next[i] = first;
    before[i] = -1;
    if (first >= 0) before[first] = i;
    head[d] = i;
  };
  const unlist = (i: number): void => {
    const after = next[i]!;
    const ahead = before[i]!;
    if (after >= 0) before[after] = ahead;
    if (ahead >= 0) next[ahead] = after;
    else head[degree[i]!] = after;
  };

  for (let i = n - 1; i >= 0; i--) {
    size[i] = start[i + 1]! - start[i]!;
    list(i, size[i]!);
  }
  let least = 0;
  let taken = 0;
  while (taken < n) {
    while (head[least]! < 0) least++;
    const p = head[least]!;
    unlist(p);

    // The new element: all that p is joined to, directly or through elements, which it swallows.
    let room = poolEnd + size[p]!;
    for (let k = 0; k < elements[p]!; k++) room += size[pool[at[p]! + k]!]!;
    if (room > pool.length) {
      const larger = new Int32Array(2 * room);
      larger.set(pool.subarray(0, poolEnd));
      pool = larger;
    }
    const from = poolEnd;
    mark[p] = p;
    for (let k = 0; k < size[p]!; k++) {
      const other = pool[at[p]! + k]!;
      if (k >= elements[p]!) {
        if (kind[other] === VARIABLE && mark[other] !== p) {
          mark[other] = p;
          pool[poolEnd++] = other;
        }
        continue;
      }
      if (kind[other] !== ELEMENT) continue;
      kind[other] = GONE;
      for (let j = at[other]!; j < at[other]! + size[other]!; j++) {
        const v = pool[j]!;
        if (kind[v] !== VARIABLE || mark[v] === p) continue;
        mark[v] = p;
        pool[poolEnd++] = v;
      }
    }
    kind[p] = ELEMENT;
    order[taken++] = p;
    const to = poolEnd;

    // How many variables of each neighbouring element lie outside the new one.
    for (let j = from; j < to; j++) {
      const i = pool[j]!;
      for (let k = at[i]!; k < at[i]! + elements[i]!; k++) {
        const e = pool[k]!;
        if (kind[e] !== ELEMENT) continue;
        if (seen[e] !== p) {
          seen[e] = p;
          outside[e] = size[e]!;
        }
        outside[e]!--;
      }
    }

    let kept = from;
    for (let j = from; j < to; j++) {
      const i = pool[j]!;
      unlist(i);
      const begin = at[i]!;
      let reach = 0;
      let es = 0;
      let vs = 0;
      keptElements[es++] = p;
      for (let k = begin; k < begin + elements[i]!; k++) {
        const e = pool[k]!;
        if (kind[e] !== ELEMENT) continue;
        // Wholly inside the new element: it says nothing any more.
        if (outside[e] === 0) kind[e] = GONE;
        else {
          keptElements[es++] = e;
          reach += outside[e]!;
        }
      }
      for (let k = begin + elements[i]!; k < begin + size[i]!; k++) {
        const v = pool[k]!;
        if (kind[v] !== VARIABLE || mark[v] === p) continue;
        keptVariables[vs++] = v;
        reach++;
      }
      if (reach === 0) {
        // Joined to nothing but this element: taken at once, without more fill.
        kind[i] = GONE;
        order[taken++] = i;
        continue;
      }
      for (let k = 0; k < es; k++) pool[begin + k] = keptElements[k]!;
      for (let k = 0; k < vs; k++) pool[begin + es + k] = keptVariables[k]!;
      elements[i] = es;
      size[i] = es + vs;
      outside[i] = reach;
      pool[kept++] = i;
    }
    at[p] = from;
    size[p] = kept - from;
    poolEnd = kept;
    for (let j = from; j < kept; j++) {
      const i = pool[j]!;
      const inside = kept - from - 1;
      const d = Math.min(n - taken - 1, degree[i]! + inside, outside[i]! + inside);
      list(i, d);
      if (d < least) least = d;
    }
  }
  return order;
}
