/** What is to be fitted: `residuals` fills a list of numbers that should be nought, each over its own standard deviation. */
export interface FitProblem {
  readonly start: Float64Array;
  /** How far each term may be moved to see what it does; about a hundredth of what matters. */
  readonly nudges: Float64Array;
  readonly count: number;
  readonly residuals: (terms: Float64Array, out: Float64Array) => void;
  /** The first `count` residuals count less and less up to `at` standard deviations, and not at all beyond (Tukey's biweight); absent: every one in full. */
  readonly outliers?: { readonly at: number; readonly count: number };
}

export interface Fit {
  readonly terms: Float64Array;
  /** Covariance of the terms, row by row. */
  readonly covariance: Float64Array;
  /** Sum of the weighted squares. */
  readonly cost: number;
  /** Weight of each residual at the end, 0 to 1. */
  readonly weights: Float64Array;
}

const STEPS = 40;
const FIRST_DAMPING = 1e-3;
const ENOUGH = 1e-9;

/**
 * Least squares by Levenberg and Marquardt, the matrix of slopes by central differences. Priors are residuals
 * too. Undefined where the terms cannot be told apart.
 */
export function leastSquares(problem: FitProblem): Fit | undefined {
  const n = problem.start.length;
  const m = problem.count;
  let terms: Float64Array = problem.start.slice();
  let r = new Float64Array(m);
  let tried = new Float64Array(m);
  const weights = new Float64Array(m).fill(1);
  const slopes = new Float64Array(m * n);
  problem.residuals(terms, r);
  weigh(r, weights, problem.outliers);
  let cost = weighted(r, weights);
  let damping = FIRST_DAMPING;
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  for (let step = 0; step < STEPS; step++) {
    slopesAt(problem, terms, slopes, m);
    normalEquations(slopes, r, weights, normal, right);
    let isBetter = false;
    let gain = 0;
    for (let attempt = 0; attempt < 10 && !isBetter; attempt++) {
      const damped = normal.slice();
      for (let i = 0; i < n; i++) damped[i * n + i]! *= 1 + damping;
      const move = solved(damped, right);
      const next = terms.map((value, i) => value - (move?.[i] ?? 0));
      problem.residuals(next, tried);
      const nextCost = weighted(tried, weights);
      if (move !== undefined && nextCost < cost) {
        isBetter = true;
        gain = (cost - nextCost) / (cost + 1e-300);
        terms = next;
        [r, tried] = [tried, r];
        damping = Math.max(1e-12, damping / 10);
      } else damping *= 10;
    }
    weigh(r, weights, problem.outliers);
    cost = weighted(r, weights);
    if (!isBetter || gain < ENOUGH) break;
  }
  slopesAt(problem, terms, slopes, m);
  normalEquations(slopes, r, weights, normal, right);
  const covariance = inverted(normal, n);
  return covariance === undefined ? undefined : { terms, covariance, cost, weights };
}

function slopesAt(problem: FitProblem, terms: Float64Array, slopes: Float64Array, m: number): void {
  const n = terms.length;
  const [less, more] = [new Float64Array(m), new Float64Array(m)];
  for (let j = 0; j < n; j++) {
    const nudge = problem.nudges[j]!;
    const at = terms.slice();
    at[j] = terms[j]! + nudge;
    problem.residuals(at, more);
    at[j] = terms[j]! - nudge;
    problem.residuals(at, less);
    for (let i = 0; i < m; i++) slopes[i * n + j] = (more[i]! - less[i]!) / (2 * nudge);
  }
}

function normalEquations(
  slopes: Float64Array,
  r: Float64Array,
  weights: Float64Array,
  normal: Float64Array,
  right: Float64Array,
): void {
  const n = right.length;
  normal.fill(0);
  right.fill(0);
  for (let i = 0; i < r.length; i++) {
    const w = weights[i]!;
    if (w === 0) continue;
    for (let j = 0; j < n; j++) {
      const s = w * slopes[i * n + j]!;
      if (s === 0) continue;
      right[j]! += s * r[i]!;
      for (let k = 0; k <= j; k++) normal[j * n + k]! += s * slopes[i * n + k]!;
    }
  }
  for (let j = 0; j < n; j++) for (let k = 0; k < j; k++) normal[k * n + j] = normal[j * n + k]!;
}

function weigh(r: Float64Array, weights: Float64Array, outliers: FitProblem['outliers']): void {
  if (outliers === undefined) return;
  for (let i = 0; i < outliers.count; i++) {
    const u = r[i]! / outliers.at;
    weights[i] = Math.abs(u) >= 1 ? 0 : (1 - u * u) ** 2;
  }
}

function weighted(r: Float64Array, weights: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < r.length; i++) sum += weights[i]! * r[i]! * r[i]!;
  return Number.isFinite(sum) ? sum : Number.POSITIVE_INFINITY;
}

/** Solves a symmetric positive system by Cholesky's way; undefined where it is not positive. */
export function solved(matrix: Float64Array, right: ArrayLike<number>): Float64Array | undefined {
  const n = right.length;
  const low = cholesky(matrix, n);
  if (low === undefined) return undefined;
  const x = Float64Array.from(right);
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i]! -= low[i * n + k]! * x[k]!;
    x[i]! /= low[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i]! -= low[k * n + i]! * x[k]!;
    x[i]! /= low[i * n + i]!;
  }
  return x;
}

/** The lower triangle L with L L' = matrix; undefined where the matrix is not positive. */
export function cholesky(matrix: Float64Array, n: number): Float64Array | undefined {
  const low = new Float64Array(n * n);
  for (let i = 0; i < n; i++)
    for (let j = 0; j <= i; j++) {
      let sum = matrix[i * n + j]!;
      for (let k = 0; k < j; k++) sum -= low[i * n + k]! * low[j * n + k]!;
      if (i !== j) low[i * n + j] = sum / low[j * n + j]!;
      else if (sum > 0) low[i * n + i] = Math.sqrt(sum);
      else return undefined;
    }
  return low;
}

function inverted(matrix: Float64Array, n: number): Float64Array | undefined {
  // scaled to a diagonal of ones first: the terms are of very different sizes
  const scale = Float64Array.from({ length: n }, (_, i) => 1 / Math.sqrt(matrix[i * n + i]! || 1));
  const scaled = matrix.map((value, at) => value * scale[Math.floor(at / n)]! * scale[at % n]!);
  const out = new Float64Array(n * n);
  for (let j = 0; j < n; j++) {
    const unit = new Float64Array(n);
    unit[j] = 1;
    const column = solved(scaled, unit);
    if (column === undefined) return undefined;
    for (let i = 0; i < n; i++) out[i * n + j] = column[i]! * scale[i]! * scale[j]!;
  }
  return out;
}
