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
  for (let i = 0; i < n; i++) {
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
    if (!(d > 1e-13 * Math.abs(wanted))) {
      bad++;
      d = 1e300;
    }
    a[row + i] = d;
  }
  return bad;
}

/** Solves for `columns` right-hand sides at once, in place; b[i * columns + c]. `a` comes from `factorBand`. */
export function solveBand(a: Float64Array, n: number, b: Float64Array, columns: number): void {
  if (columns === 4) solveFour(a, n, b);
  else for (let c = 0; c < columns; c++) solveOne(a, n, b, columns, c);
}

function solveOne(a: Float64Array, n: number, b: Float64Array, stride: number, c: number): void {
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
