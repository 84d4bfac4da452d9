import { minimumDegreeOrder } from './minimum-degree.kernel.ts';

/**
 * Solves S x = b, where S belongs to a net of conductances: off the diagonal less the conductance between two nodes, on it
 * the sum of all at the node. `ground` conductances lead to fixed pressures.
 */
export interface ConductanceSystem {
  /** False where a pivot is not a number above zero: some node has no way to a fixed pressure. */
  factor(conductance: Float64Array): boolean;
  /** In place, by node. */
  solve(b: Float64Array): void;
  /** Entries of the factor below the diagonal. */
  readonly entries: number;
}

/** The factor's columns, in order of elimination, and where each branch's conductance goes. */
interface Columns {
  readonly start: Int32Array;
  readonly row: Int32Array;
}

/** Neighbours of each node, each once; branches to fixed nodes (-1) count for nothing. */
function neighboursOf(n: number, from: Int32Array, to: Int32Array): { start: Int32Array; neighbours: Int32Array } {
  const start = new Int32Array(n + 1);
  for (let b = 0; b < from.length; b++) {
    if (from[b]! < 0 || to[b]! < 0) continue;
    start[from[b]! + 1]!++;
    start[to[b]! + 1]!++;
  }
  for (let i = 0; i < n; i++) start[i + 1]! += start[i]!;
  const all = new Int32Array(start[n]!);
  const fill = start.slice();
  for (let b = 0; b < from.length; b++) {
    const i = from[b]!;
    const j = to[b]!;
    if (i < 0 || j < 0) continue;
    all[fill[i]!++] = j;
    all[fill[j]!++] = i;
  }
  // Parallel branches name the same neighbour twice.
  const mark = new Int32Array(n).fill(-1);
  let end = 0;
  for (let i = 0; i < n; i++) {
    const first = start[i]!;
    const last = start[i + 1]!;
    start[i] = end;
    for (let k = first; k < last; k++) {
      if (mark[all[k]!] === i) continue;
      mark[all[k]!] = i;
      all[end++] = all[k]!;
    }
  }
  start[n] = end;
  return { start, neighbours: all.subarray(0, end) };
}

function placesOf(order: Int32Array): Int32Array {
  const place = new Int32Array(order.length);
  for (let k = 0; k < order.length; k++) place[order[k]!] = k;
  return place;
}

/** Rows of each column of the factor: those of the matrix, and those of each column that has this one as its first row. */
function columnsOf(start: Int32Array, neighbours: Int32Array, order: Int32Array, place: Int32Array): Columns {
  const n = order.length;
  const columnStart = new Int32Array(n + 1);
  let row = new Int32Array(2 * neighbours.length + 16);
  const child = new Int32Array(n).fill(-1);
  const sibling = new Int32Array(n).fill(-1);
  const mark = new Int32Array(n).fill(-1);
  let end = 0;
  for (let k = 0; k < n; k++) {
    const begin = end;
    columnStart[k] = begin;
    if (end + n - k > row.length) {
      const larger = new Int32Array(2 * row.length + n);
      larger.set(row.subarray(0, end));
      row = larger;
    }
    mark[k] = k;
    const node = order[k]!;
    for (let p = start[node]!; p < start[node + 1]!; p++) {
      const i = place[neighbours[p]!]!;
      if (i < k || mark[i] === k) continue;
      mark[i] = k;
      row[end++] = i;
    }
    for (let c = child[k]!; c >= 0; c = sibling[c]!) {
      for (let p = columnStart[c]!; p < columnStart[c + 1]!; p++) {
        const i = row[p]!;
        if (mark[i] === k) continue;
        mark[i] = k;
        row[end++] = i;
      }
    }
    columnStart[k + 1] = end;
    row.subarray(begin, end).sort();
    if (end > begin) {
      const parent = row[begin]!;
      sibling[k] = child[parent]!;
      child[parent] = k;
    }
  }
  return { start: columnStart, row: row.slice(0, end) };
}

/** Runs of columns with the same rows: by column, the first of its run, and by first column, where the run ends. */
function familiesOf(columns: Columns): { family: Int32Array; familyEnd: Int32Array } {
  const n = columns.start.length - 1;
  const family = new Int32Array(n);
  const familyEnd = new Int32Array(n);
  const length = (k: number): number => columns.start[k + 1]! - columns.start[k]!;
  for (let k = 0; k < n; k++) {
    const isAlike = k > 0 && length(k - 1) === length(k) + 1 && columns.row[columns.start[k - 1]!] === k;
    family[k] = isAlike ? family[k - 1]! : k;
    familyEnd[family[k]!] = k + 1;
  }
  return { family, familyEnd };
}

/**
 * The same order with each column right before the one that it leads to first, as far as that goes: the factor keeps its
 * shape, and what belongs together lies together.
 */
function postordered(columns: Columns, order: Int32Array): Int32Array {
  const n = order.length;
  const child = new Int32Array(n + 1).fill(-1);
  const sibling = new Int32Array(n + 1).fill(-1);
  for (let k = n - 1; k >= 0; k--) {
    const parent = columns.start[k]! < columns.start[k + 1]! ? columns.row[columns.start[k]!]! : n;
    sibling[k] = child[parent]!;
    child[parent] = k;
  }
  // Parents are noted before their children, the last first: read backwards that is the order.
  const stack = new Int32Array(n + 1);
  const post = new Int32Array(n);
  let top = 0;
  let left = n;
  for (let c = child[n]!; c >= 0; c = sibling[c]!) stack[top++] = c;
  while (top > 0) {
    const k = stack[--top]!;
    post[--left] = order[k]!;
    for (let c = child[k]!; c >= 0; c = sibling[c]!) stack[top++] = c;
  }
  return post;
}

/** Where in the factor's entries each branch between free nodes stands; -1 for the others. */
function slotsOf(columns: Columns, from: Int32Array, to: Int32Array, place: Int32Array): Int32Array {
  const slots = new Int32Array(from.length).fill(-1);
  for (let b = 0; b < from.length; b++) {
    if (from[b]! < 0 || to[b]! < 0) continue;
    const i = place[from[b]!]!;
    const j = place[to[b]!]!;
    const wanted = Math.max(i, j);
    let low = columns.start[Math.min(i, j)]!;
    let high = columns.start[Math.min(i, j) + 1]! - 1;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (columns.row[middle]! < wanted) low = middle + 1;
      else high = middle;
    }
    slots[b] = low;
  }
  return slots;
}

/** A factor with its numbers, and what is needed to work them out anew. */
interface Factor extends Columns {
  readonly entry: Float64Array;
  readonly pivot: Float64Array;
  /** By column: what leads off to fixed pressures. */
  readonly away: Float64Array;
  readonly sum: Float64Array;
  readonly family: Int32Array;
  readonly familyEnd: Int32Array;
  /** By family's first column: how many of its rows are still to come, the next of them included. */
  readonly waiting: Int32Array;
  /** Lists of the families whose next row is a column. */
  readonly head: Int32Array;
  readonly next: Int32Array;
  /** By branch: its entry, or else its one column. */
  readonly slots: Int32Array;
  readonly ends: Int32Array;
}

/**
 * Adds to `sum` what columns `from` to `end - 1` bring to one column: all have the same rows, of which the last `rows` lie
 * past that column. Four at a time: each place of `sum` is then read and written once for the four.
 */
function bring(
  from: number,
  end: number,
  rows: number,
  first: Int32Array,
  row: Int32Array,
  entry: Float64Array,
  pivot: Float64Array,
  sum: Float64Array,
): void {
  let j = from;
  const target = first[end]! - rows;
  for (; j + 3 < end; j += 4) {
    const p0 = first[j + 1]! - rows;
    const p1 = first[j + 2]! - rows;
    const p2 = first[j + 3]! - rows;
    const p3 = first[j + 4]! - rows;
    const s0 = entry[p0 - 1]! * pivot[j]!;
    const s1 = entry[p1 - 1]! * pivot[j + 1]!;
    const s2 = entry[p2 - 1]! * pivot[j + 2]!;
    const s3 = entry[p3 - 1]! * pivot[j + 3]!;
    for (let q = 0; q < rows; q++)
      sum[row[target + q]!]! += s0 * entry[p0 + q]! + s1 * entry[p1 + q]! + s2 * entry[p2 + q]! + s3 * entry[p3 + q]!;
  }
  for (; j < end; j++) {
    const p = first[j + 1]! - rows;
    const share = entry[p - 1]! * pivot[j]!;
    for (let q = 0; q < rows; q++) sum[row[target + q]!]! += share * entry[p + q]!;
  }
}

function factored(f: Factor, conductance: Float64Array): boolean {
  const { row, entry, sum, pivot, away, family, familyEnd, waiting, head, next, slots, ends } = f;
  const first = f.start;
  const n = pivot.length;
  entry.fill(0);
  away.fill(0);
  head.fill(-1);
  for (let b = 0; b < ends.length; b++) {
    if (slots[b]! >= 0) entry[slots[b]!]! += conductance[b]!;
    else if (ends[b]! >= 0) away[ends[b]!]! += conductance[b]!;
  }
  for (let k = 0; k < n; k++) {
    const begin = first[k]!;
    const end = first[k + 1]!;
    for (let p = begin; p < end; p++) sum[row[p]!] = entry[p]!;
    let toFixed = away[k]!;
    // Alike columns before this one …
    const alike = family[k]!;
    for (let j = alike; j < k; j++) toFixed += entry[first[j + 1]! - (end - begin) - 1]! * away[j]!;
    if (alike < k) bring(alike, k, end - begin, first, row, entry, pivot, sum);
    // … and families whose next row is this column; they wait next for the row after.
    for (let j = head[k]!; j >= 0; ) {
      const after = next[j]!;
      const past = familyEnd[j]!;
      const rows = waiting[j]! - 1;
      for (let i = j; i < past; i++) toFixed += entry[first[i + 1]! - rows - 1]! * away[i]!;
      if (rows > 0) {
        bring(j, past, rows, first, row, entry, pivot, sum);
        waiting[j] = rows;
        const i = row[first[past]! - rows]!;
        next[j] = head[i]!;
        head[i] = j;
      }
      j = after;
    }
    let d = toFixed;
    for (let p = begin; p < end; p++) d += sum[row[p]!]!;
    if (!(d > 0 && d < Infinity)) return false;
    pivot[k] = d;
    away[k] = toFixed;
    for (let p = begin; p < end; p++) entry[p] = sum[row[p]!]! / d;
    if (begin < end && familyEnd[alike] === k + 1) {
      waiting[alike] = end - begin;
      const i = row[begin]!;
      next[alike] = head[i]!;
      head[i] = alike;
    }
  }
  return true;
}

/** In place. */
function solved(f: Factor, order: Int32Array, b: Float64Array): void {
  const { row, entry, pivot, sum: x } = f;
  const first = f.start;
  const n = order.length;
  for (let k = 0; k < n; k++) x[k] = b[order[k]!]!;
  for (let k = 0; k < n; k++) {
    const value = x[k]!;
    for (let p = first[k]!; p < first[k + 1]!; p++) x[row[p]!]! += entry[p]! * value;
    x[k] = value / pivot[k]!;
  }
  for (let k = n - 1; k >= 0; k--) {
    let value = x[k]!;
    for (let p = first[k]!; p < first[k + 1]!; p++) value += entry[p]! * x[row[p]!]!;
    x[k] = value;
    b[order[k]!] = value;
  }
}

/**
 * Sparse L D L' of a net's conductance matrix, column by column, in approximate minimum degree order. The order and the
 * shape of the factor are worked out once; `factor` may then be called for ever new conductances.
 *
 * Nothing is ever subtracted: what leads off to fixed pressures is carried along beside the entries off the diagonal, and
 * a pivot is the sum of its column and of that. So every entry of the factor is right to a few ulp, however far the
 * conductances lie apart (a shut valve beside an open pipe: 1e-18 beside 1e-3), where plain elimination loses the weak
 * ones in the rounding of the strong.
 *
 * `from`: free node at which each branch begins, -1 for a fixed one; `to` likewise
 * After davis-2006-direct-methods, grassmann-1985-without-subtraction in the bibliography.
 */
export function sparseConductances(n: number, from: Int32Array, to: Int32Array): ConductanceSystem {
  const { start, neighbours } = neighboursOf(n, from, to);
  const least = minimumDegreeOrder(start, neighbours);
  const order = postordered(columnsOf(start, neighbours, least, placesOf(least)), least);
  const place = placesOf(order);
  const columns = columnsOf(start, neighbours, order, place);
  const factor: Factor = {
    ...columns,
    ...familiesOf(columns),
    entry: new Float64Array(columns.row.length),
    pivot: new Float64Array(n),
    away: new Float64Array(n),
    sum: new Float64Array(n),
    waiting: new Int32Array(n),
    head: new Int32Array(n),
    next: new Int32Array(n),
    slots: slotsOf(columns, from, to, place),
    ends: from.map((i, b) => (i >= 0 ? place[i]! : to[b]! >= 0 ? place[to[b]!]! : -1)),
  };
  return {
    factor: (conductance) => factored(factor, conductance),
    solve: (b) => solved(factor, order, b),
    entries: columns.row.length,
  };
}
