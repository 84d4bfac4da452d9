/**
 * Splits a matrix that is zero beyond `half` from its diagonal into its two triangles, in place and without pivoting: the matrices of heat
 * balances have the greatest number of each column on the diagonal. Row-wise storage: A[i][j] stands at i * (2 half + 1) + (j - i + half).
 */
export function factorBanded(a: Float64Array, n: number, half: number): void {
  const width = 2 * half + 1;
  for (let k = 0; k < n; k++) {
    const pivotAt = k * width + half;
    const inverse = 1 / a[pivotAt]!;
    const reach = k + half < n - 1 ? half : n - 1 - k;
    for (let d = 1; d <= reach; d++) {
      const at = (k + d) * width + half - d;
      const value = a[at]!;
      if (value === 0) continue;
      const factor = value * inverse;
      a[at] = factor;
      const shift = at - pivotAt;
      for (let c = pivotAt + 1; c <= pivotAt + reach; c++) a[c + shift] = a[c + shift]! - factor * a[c]!;
    }
  }
}

/** Solves A X = B in place with what `factorBanded` left of A; B has `columns` numbers in a row. */
export function substituteBanded(a: Float64Array, b: Float64Array, n: number, half: number, columns: number): void {
  if (columns === 1) {
    substituteOne(a, b, n, half);
    return;
  }
  const width = 2 * half + 1;
  for (let i = 1; i < n; i++) {
    const reach = i < half ? i : half;
    const at = i * width + half;
    for (let d = 1; d <= reach; d++) {
      const factor = a[at - d]!;
      if (factor === 0) continue;
      for (let c = 0; c < columns; c++) b[i * columns + c] = b[i * columns + c]! - factor * b[(i - d) * columns + c]!;
    }
  }
  for (let k = n - 1; k >= 0; k--) {
    const at = k * width + half;
    const last = k + half < n - 1 ? half : n - 1 - k;
    for (let c = 0; c < columns; c++) {
      let sum = b[k * columns + c]!;
      for (let j = 1; j <= last; j++) sum -= a[at + j]! * b[(k + j) * columns + c]!;
      b[k * columns + c] = sum / a[at]!;
    }
  }
}

/** The same for one column. */
function substituteOne(a: Float64Array, b: Float64Array, n: number, half: number): void {
  const width = 2 * half + 1;
  for (let i = 1; i < n; i++) {
    const at = i * width + half;
    let sum = b[i]!;
    for (let d = i < half ? i : half; d > 0; d--) sum -= a[at - d]! * b[i - d]!;
    b[i] = sum;
  }
  for (let k = n - 1; k >= 0; k--) {
    const last = k + half < n - 1 ? half : n - 1 - k;
    const at = k * width + half;
    let sum = b[k]!;
    for (let j = 1; j <= last; j++) sum -= a[at + j]! * b[k + j]!;
    b[k] = sum / a[at]!;
  }
}
