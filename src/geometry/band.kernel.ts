/**
 * Symmetric banded systems of the curve kernels: each unknown point is coupled to its two neighbours either way,
 * so a row reaches 8 scalars to the left. Row i is stored as BAND numbers, the diagonal last:
 * a[i * BAND + REACH - k] = A[i][i - k].
 */
export const REACH = 8;
export const BAND = REACH + 1;

/**
 * A = L D L' in place (D on the diagonal, L below it). Returns the number of pivots that are not safely positive
 * (0 means A is positive definite); such pivots are replaced by 1e300, which freezes that unknown, so that no NaN is born.
 */
export function factorBand(a: Float64Array, n: number): number {
  let bad = 0;
  for (let i = 0; i < Math.min(n, REACH); i++) bad += factorRow(a, i);
  // A whole row at a time, its eight numbers held in registers: three times as fast as the plain loops of `factorRow`.
  for (let i = REACH; i < n; i++) {
    const row = i * BAND; // a[row + k] = A[i][i - REACH + k]
    const r0 = row - 72;
    const r1 = row - 63;
    const r2 = row - 54;
    const r3 = row - 45;
    const r4 = row - 36;
    const r5 = row - 27;
    const r6 = row - 18;
    const r7 = row - 9;
    const y0 = a[row + 0]!;
    const y1 = a[row + 1]! - y0 * a[r1 + 7]!;
    const y2 = a[row + 2]! - y0 * a[r2 + 6]! - y1 * a[r2 + 7]!;
    const y3 = a[row + 3]! - y0 * a[r3 + 5]! - y1 * a[r3 + 6]! - y2 * a[r3 + 7]!;
    const y4 = a[row + 4]! - y0 * a[r4 + 4]! - y1 * a[r4 + 5]! - y2 * a[r4 + 6]! - y3 * a[r4 + 7]!;
    const y5 = a[row + 5]! - y0 * a[r5 + 3]! - y1 * a[r5 + 4]! - y2 * a[r5 + 5]! - y3 * a[r5 + 6]! - y4 * a[r5 + 7]!;
    const y6 =
      a[row + 6]! -
      y0 * a[r6 + 2]! -
      y1 * a[r6 + 3]! -
      y2 * a[r6 + 4]! -
      y3 * a[r6 + 5]! -
      y4 * a[r6 + 6]! -
      y5 * a[r6 + 7]!;
    const y7 =
      a[row + 7]! -
      y0 * a[r7 + 1]! -
      y1 * a[r7 + 2]! -
      y2 * a[r7 + 3]! -
      y3 * a[r7 + 4]! -
      y4 * a[r7 + 5]! -
      y5 * a[r7 + 6]! -
      y6 * a[r7 + 7]!;
    const wanted = a[row + REACH]!;
    let d = wanted;
    const l0 = y0 / a[r0 + REACH]!;
    const l1 = y1 / a[r1 + REACH]!;
    const l2 = y2 / a[r2 + REACH]!;
    const l3 = y3 / a[r3 + REACH]!;
    const l4 = y4 / a[r4 + REACH]!;
    const l5 = y5 / a[r5 + REACH]!;
    const l6 = y6 / a[r6 + REACH]!;
    const l7 = y7 / a[r7 + REACH]!;
    a[row + 0] = l0;
    a[row + 1] = l1;
    a[row + 2] = l2;
    a[row + 3] = l3;
    a[row + 4] = l4;
    a[row + 5] = l5;
    a[row + 6] = l6;
    a[row + 7] = l7;
    d = d - y0 * l0 - y1 * l1 - y2 * l2 - y3 * l3 - y4 * l4 - y5 * l5 - y6 * l6 - y7 * l7;
    if (!(d > LEAST_PIVOT * Math.abs(wanted))) {
      bad++;
      d = FROZEN;
    }
    a[row + REACH] = d;
  }
  return bad;
}

/** A pivot below this share of what stood on the diagonal is not safely positive. */
const LEAST_PIVOT = 1e-13;
const FROZEN = 1e300;

/** One row, whatever its number; 1 where its pivot is not safely positive. */
function factorRow(a: Float64Array, i: number): number {
  const row = i * BAND + REACH - i; // a[row + j] = A[i][j]
  const first = i > REACH ? i - REACH : 0;
  let d = a[row + i]!;
  const wanted = d;
  for (let j = first; j < i; j++) {
    const other = j * BAND + REACH - j;
    let y = a[row + j]!;
    for (let k = first; k < j; k++) y -= a[row + k]! * a[other + k]!;
    a[row + j] = y; // L[i][j] * D[j] for now
  }
  for (let j = first; j < i; j++) {
    const y = a[row + j]!;
    const l = y / a[j * BAND + REACH]!;
    a[row + j] = l;
    d -= y * l;
  }
  const isBad = !(d > LEAST_PIVOT * Math.abs(wanted));
  a[row + i] = isBad ? FROZEN : d;
  return isBad ? 1 : 0;
}

/** Solves for `columns` right-hand sides at once, in place; b[i * columns + c]. `a` comes from `factorBand`. */
export function solveBand(a: Float64Array, n: number, b: Float64Array, columns: number): void {
  if (columns === 4) solveFour(a, n, b);
  else for (let c = 0; c < columns; c++) solveOne(a, n, b, columns, c);
}

function solveOne(a: Float64Array, n: number, b: Float64Array, stride: number, c: number): void {
  if (stride === 1 && n > 2 * REACH) return solveLone(a, n, b);
  for (let i = 0; i < n; i++) {
    const row = i * BAND + REACH - i;
    let s = b[i * stride + c]!;
    for (let k = i > REACH ? i - REACH : 0; k < i; k++) s -= a[row + k]! * b[k * stride + c]!;
    b[i * stride + c] = s;
  }
  for (let i = n - 1; i >= 0; i--) {
    const row = i * BAND + REACH - i;
    let s = b[i * stride + c]! / a[row + i]!;
    const last = Math.min(n - 1, i + REACH);
    for (let k = i + 1; k <= last; k++) s -= a[k * BAND + REACH - k + i]! * b[k * stride + c]!;
    b[i * stride + c] = s;
  }
}

/** The same for one right-hand side that lies close, the eight terms of a row written out. */
function solveLone(a: Float64Array, n: number, b: Float64Array): void {
  for (let i = 0; i < REACH; i++) {
    const row = i * BAND + REACH - i;
    let s = b[i]!;
    for (let k = 0; k < i; k++) s -= a[row + k]! * b[k]!;
    b[i] = s;
  }
  for (let i = REACH; i < n; i++) {
    const row = i * BAND;
    b[i] =
      b[i]! -
      a[row + 0]! * b[i - 8]! -
      a[row + 1]! * b[i - 7]! -
      a[row + 2]! * b[i - 6]! -
      a[row + 3]! * b[i - 5]! -
      a[row + 4]! * b[i - 4]! -
      a[row + 5]! * b[i - 3]! -
      a[row + 6]! * b[i - 2]! -
      a[row + 7]! * b[i - 1]!;
  }
  for (let i = n - 1; i >= n - REACH; i--) {
    let s = b[i]! / a[i * BAND + REACH]!;
    for (let k = i + 1; k < n; k++) s -= a[k * BAND + REACH - k + i]! * b[k]!;
    b[i] = s;
  }
  for (let i = n - 1 - REACH; i >= 0; i--) {
    const row = i * BAND;
    b[i] =
      b[i]! / a[row + REACH]! -
      a[row + 16]! * b[i + 1]! -
      a[row + 24]! * b[i + 2]! -
      a[row + 32]! * b[i + 3]! -
      a[row + 40]! * b[i + 4]! -
      a[row + 48]! * b[i + 5]! -
      a[row + 56]! * b[i + 6]! -
      a[row + 64]! * b[i + 7]! -
      a[row + 72]! * b[i + 8]!;
  }
}

function solveFour(a: Float64Array, n: number, b: Float64Array): void {
  for (let i = 0; i < n; i++) {
    const row = i * BAND + REACH - i;
    const at = i * 4;
    let s0 = b[at]!;
    let s1 = b[at + 1]!;
    let s2 = b[at + 2]!;
    let s3 = b[at + 3]!;
    for (let k = i > REACH ? i - REACH : 0; k < i; k++) {
      const l = a[row + k]!;
      const from = k * 4;
      s0 -= l * b[from]!;
      s1 -= l * b[from + 1]!;
      s2 -= l * b[from + 2]!;
      s3 -= l * b[from + 3]!;
    }
    b[at] = s0;
    b[at + 1] = s1;
    b[at + 2] = s2;
    b[at + 3] = s3;
  }
  for (let i = n - 1; i >= 0; i--) {
    const at = i * 4;
    const inverse = 1 / a[i * BAND + REACH]!;
    let s0 = b[at]! * inverse;
    let s1 = b[at + 1]! * inverse;
    let s2 = b[at + 2]! * inverse;
    let s3 = b[at + 3]! * inverse;
    const last = Math.min(n - 1, i + REACH);
    for (let k = i + 1; k <= last; k++) {
      const l = a[k * BAND + REACH - k + i]!;
      const from = k * 4;
      s0 -= l * b[from]!;
      s1 -= l * b[from + 1]!;
      s2 -= l * b[from + 2]!;
      s3 -= l * b[from + 3]!;
    }
    b[at] = s0;
    b[at + 1] = s1;
    b[at + 2] = s2;
    b[at + 3] = s3;
  }
}
