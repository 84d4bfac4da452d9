/** A symmetric matrix by its lower rows, each from its first entry to the diagonal; factored in place. */
export interface Skyline {
  readonly first: Int32Array;
  /** Where each row begins in `values`. */
  readonly from: Float64Array;
  readonly values: Float64Array;
}

/** An empty skyline over unknowns whose lowest neighbour is `first`. */
export function emptySkyline(first: Int32Array): Skyline {
  const from = new Float64Array(first.length + 1);
  for (let i = 0; i < first.length; i++) from[i + 1] = from[i]! + i - first[i]! + 1;
  return { first, from, values: new Float64Array(from[first.length]!) };
}

/** Adds to the entry of row i, column j <= i. */
export function addTo({ first, from, values }: Skyline, i: number, j: number, value: number): void {
  values[from[i]! + j - first[i]!]! += value;
}

/** Cholesky's L L^T in place; the row at which it is not positive, or undefined when all is well. */
export function factorInPlace({ first, from, values }: Skyline): number | undefined {
  for (let i = 0; i < first.length; i++) {
    const fi = first[i]!;
    const oi = from[i]! - fi;
    for (let j = fi; j <= i; j++) {
      const fj = first[j]!;
      const oj = from[j]! - fj;
      let sum = values[oi + j]!;
      for (let k = fi > fj ? fi : fj; k < j; k++) sum -= values[oi + k]! * values[oj + k]!;
      if (j < i) values[oi + j] = sum / values[oj + j]!;
      else if (sum <= 0) return i;
      else values[oi + i] = Math.sqrt(sum);
    }
  }
  return undefined;
}

/** Solves L L^T x = b in place. */
export function solveInPlace({ first, from, values }: Skyline, x: Float64Array): void {
  const n = first.length;
  for (let i = 0; i < n; i++) {
    const o = from[i]! - first[i]!;
    let sum = x[i]!;
    for (let k = first[i]!; k < i; k++) sum -= values[o + k]! * x[k]!;
    x[i] = sum / values[o + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    const o = from[i]! - first[i]!;
    const xi = x[i]! / values[o + i]!;
    x[i] = xi;
    for (let k = first[i]!; k < i; k++) x[k]! -= values[o + k]! * xi;
  }
}

/** An order of nodes in which neighbours are near one another: reversed breadth first from an end of the graph. */
export function nearOrder(neighbours: readonly (readonly number[])[]): Int32Array {
  const n = neighbours.length;
  const walked = (start: number, seen: Uint8Array): number[] => {
    const order = [start];
    seen[start] = 1;
    for (let k = 0; k < order.length; k++) {
      const around = neighbours[order[k]!]!.filter((j) => seen[j] === 0);
      around.sort((a, b) => neighbours[a]!.length - neighbours[b]!.length || a - b);
      for (const j of around)
        if (seen[j] === 0) {
          seen[j] = 1;
          order.push(j);
        }
    }
    return order;
  };
  const seen = new Uint8Array(n);
  const order: number[] = [];
  for (let i = 0; i < n; i++) {
    if (seen[i]) continue;
    // The far end of the far end is an end of the graph.
    let start = i;
    for (let k = 0; k < 3; k++) start = walked(start, Uint8Array.from(seen)).at(-1)!;
    order.push(...walked(start, seen));
  }
  const place = new Int32Array(n);
  for (const [k, i] of order.entries()) place[i] = n - 1 - k;
  return place;
}
