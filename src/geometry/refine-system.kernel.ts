import { BAND as BAND_WIDTH, REACH as BAND_REACH } from './band.kernel.ts';
import type { Model, State } from './refine-model.kernel.ts';

// Copies of this module's own: an imported binding is looked up anew at every use where modules are bundled for tests.
const BAND = BAND_WIDTH;
const REACH = BAND_REACH;

/** The Newton system of the refinement: banded for the points, with h and the two clocks as border. */
export interface System {
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  readonly corner: Float64Array;
  readonly cornerGradient: Float64Array;
}

export const BORDER = 4; // right-hand sides: minus gradient, h, phiA, phiB

export function newSystem(capacity: number): System {
  return {
    matrix: new Float64Array(3 * capacity * BAND),
    right: new Float64Array(3 * capacity * BORDER),
    corner: new Float64Array(9),
    cornerGradient: new Float64Array(3),
  };
}

// The term being added: up to three points with factors, and how v moves with h, phiA, phiB.
const point = new Int32Array(3);
const factor = new Float64Array(3);
const byBorder = new Float64Array(9);
/** d^2 v / d phiA^2, d phiB^2 */
const curveOfClock = new Float64Array(6);
/** How the forces at the ends resist a turn of the clocks by that. */
const clockStiffness = new Float64Array(2);
/** Multiplier of the limit being added. */
let multiplier = 0;
/** d g / d (h, phiA, phiB) besides what v does */
const direct = new Float64Array(3);

// The 3x3 matrix k j j' + iso I of the term being added.
let kxx = 0;
let kyy = 0;
let kzz = 0;
let kxy = 0;
let kxz = 0;
let kyz = 0;

/** Adds c times that matrix for free points a > b. */
function addPair(m: Float64Array, a: number, b: number, c: number): void {
  const row = 3 * a * BAND + REACH - 3 * (a - b);
  const second = row + BAND - 1;
  const third = second + BAND - 1;
  m[row] = m[row]! + c * kxx;
  m[row + 1] = m[row + 1]! + c * kxy;
  m[row + 2] = m[row + 2]! + c * kxz;
  m[second] = m[second]! + c * kxy;
  m[second + 1] = m[second + 1]! + c * kyy;
  m[second + 2] = m[second + 2]! + c * kyz;
  m[third] = m[third]! + c * kxz;
  m[third + 1] = m[third + 1]! + c * kyz;
  m[third + 2] = m[third + 2]! + c * kzz;
}

/** Adds c times that matrix for a free point with itself: the lower half. */
function addOwn(m: Float64Array, a: number, c: number): void {
  const row = 3 * a * BAND + REACH;
  const second = row + BAND - 1;
  const third = second + BAND - 1;
  m[row] = m[row]! + c * kxx;
  m[second] = m[second]! + c * kxy;
  m[second + 1] = m[second + 1]! + c * kyy;
  m[third] = m[third]! + c * kxz;
  m[third + 1] = m[third + 1]! + c * kyz;
  m[third + 2] = m[third + 2]! + c * kzz;
}

/** Adds force f, stiffness k along the limit's gradient j (with respect to v), and stiffness iso of v itself. */
function addTerm(
  sys: System,
  count: number,
  border: boolean,
  f: number,
  k: number,
  iso: number,
  jx: number,
  jy: number,
  jz: number,
): void {
  const { matrix, right, corner, cornerGradient } = sys;
  kxx = k * jx * jx + iso;
  kyy = k * jy * jy + iso;
  kzz = k * jz * jz + iso;
  kxy = k * jx * jy;
  kxz = k * jx * jz;
  kyz = k * jy * jz;
  const jh = k * direct[0]!;
  for (let u = 0; u < count; u++) {
    const a = point[u]!;
    const ca = factor[u]!;
    for (let v = 0; v < u; v++) addPair(matrix, a, point[v]!, ca * factor[v]!);
    addOwn(matrix, a, ca * ca);
    const at = 3 * a * BORDER;
    const cf = ca * f;
    right[at] = right[at]! - cf * jx;
    right[at + 4] = right[at + 4]! - cf * jy;
    right[at + 8] = right[at + 8]! - cf * jz;
    if (border || jh === 0) continue;
    const ch = ca * jh;
    right[at + 1] = right[at + 1]! + ch * jx;
    right[at + 5] = right[at + 5]! + ch * jy;
    right[at + 9] = right[at + 9]! + ch * jz;
  }
  if (border) addBorder(sys, count, f, k, iso, jx, jy, jz);
  else if (direct[0] !== 0) {
    corner[0] = corner[0]! + jh * direct[0]!;
    cornerGradient[0] = cornerGradient[0]! + f * direct[0]!;
  }
}

function addBorder(
  sys: System,
  count: number,
  f: number,
  k: number,
  iso: number,
  jx: number,
  jy: number,
  jz: number,
): void {
  const { right, corner, cornerGradient } = sys;
  for (let e = 0; e < 2; e++) {
    clockStiffness[e] =
      clockStiffness[e]! +
      multiplier * (jx * curveOfClock[3 * e]! + jy * curveOfClock[3 * e + 1]! + jz * curveOfClock[3 * e + 2]!);
  }
  for (let p = 0; p < 3; p++) {
    const px = byBorder[3 * p]!;
    const py = byBorder[3 * p + 1]!;
    const pz = byBorder[3 * p + 2]!;
    const change = jx * px + jy * py + jz * pz + direct[p]!;
    if (change === 0 && px === 0 && py === 0 && pz === 0) continue;
    for (let u = 0; u < count; u++) {
      const at = 3 * point[u]! * BORDER + 1 + p;
      const c = factor[u]!;
      right[at] = right[at]! + c * (k * jx * change + iso * px);
      right[at + 4] = right[at + 4]! + c * (k * jy * change + iso * py);
      right[at + 8] = right[at + 8]! + c * (k * jz * change + iso * pz);
    }
    cornerGradient[p] = cornerGradient[p]! + f * change;
    for (let q = 0; q < 3; q++) {
      const qx = byBorder[3 * q]!;
      const qy = byBorder[3 * q + 1]!;
      const qz = byBorder[3 * q + 2]!;
      const other = jx * qx + jy * qy + jz * qz + direct[q]!;
      corner[3 * p + q] = corner[3 * p + q]! + k * change * other + iso * (px * qx + py * qy + pz * qz);
    }
  }
}

function setClock(side: number, c: number, end: Float64Array): void {
  for (let k = 0; k < 3; k++) {
    byBorder[3 + 3 * side + k] = c * end[3 + k]!;
    curveOfClock[3 * side + k] = c * end[12 + k]!;
  }
}

/** Sets the term to v = c0 x_i + c1 x_{i+1} + c2 x_{i+2}; an end point goes to the border by its clock. Returns the free points. */
function setPoints(s: State, n: number, i: number, c0: number, c1: number, c2: number): number {
  if (i > 0 && i + 2 < n) {
    point[0] = i - 1;
    point[1] = i;
    point[2] = i + 1;
    factor[0] = c0;
    factor[1] = c1;
    factor[2] = c2;
    return c2 !== 0 ? 3 : c1 !== 0 ? 2 : 1;
  }
  byBorder.fill(0);
  curveOfClock.fill(0);
  let count = 0;
  for (let j = 0; j < 3; j++) {
    const c = j === 0 ? c0 : j === 1 ? c1 : c2;
    if (c === 0) continue;
    if (i + j === 0) setClock(0, c, s.endA);
    else if (i + j === n) setClock(1, c, s.endB);
    else {
      point[count] = i + j - 1;
      factor[count] = c;
      count++;
    }
  }
  return count;
}

/**
 * The Newton system at a state: multipliers `tension` of the spacing with penalty `stiff`, `z` of the limits, barrier `mu`.
 * right's first column is minus the gradient; the others and `corner` hold the border.
 */
export function assemble(
  model: Model,
  state: State,
  sys: System,
  tension: Float64Array,
  z: Float64Array,
  stiff: number,
  mu: number,
): void {
  const { segments: n, radius } = model;
  const { x, h, c, g, s, slope } = state;
  const { cornerGradient } = sys;
  sys.matrix.fill(0, 0, 3 * (n - 1) * BAND);
  sys.right.fill(0, 0, 3 * (n - 1) * BORDER);
  sys.corner.fill(0);
  cornerGradient.fill(0);
  cornerGradient[0] = n;
  direct[1] = 0;
  direct[2] = 0;
  clockStiffness.fill(0);
  for (let i = 0; i < n; i++) {
    const p = 3 * i;
    const f = tension[i]! + stiff * c[i]!;
    const atEnd = i === 0 || i === n - 1;
    const count = setPoints(state, n, i, -1, 1, 0);
    direct[0] = -1 - c[i]! / h;
    const iso = Math.max(tension[i]!, 0) / h;
    multiplier = tension[i]!;
    addTerm(
      sys,
      count,
      atEnd,
      f,
      stiff,
      iso,
      (x[p + 3]! - x[p]!) / h,
      (x[p + 4]! - x[p + 1]!) / h,
      (x[p + 5]! - x[p + 2]!) / h,
    );
  }
  const bendScale = radius / (h * h);
  for (let i = 0; i <= n; i++) {
    const p = 3 * i;
    const k = z[i]! / s[i]!;
    const f = mu / s[i]! + k * (g[i]! + s[i]!);
    const atEnd = i <= 1 || i >= n - 1;
    multiplier = z[i]!;
    let count = 1;
    if (i === 0 || i === n) count = setEndBend(state, n, i);
    else count = setPoints(state, n, i - 1, 1, -2, 1);
    const vv = slope[p]! ** 2 + slope[p + 1]! ** 2 + slope[p + 2]! ** 2;
    direct[0] = -(vv * bendScale) / h - h / radius;
    addTerm(
      sys,
      count,
      atEnd,
      f,
      k,
      z[i]! * bendScale,
      slope[p]! * bendScale,
      slope[p + 1]! * bendScale,
      slope[p + 2]! * bendScale,
    );
  }
  if (model.field) assemblePlaces(model, state, sys, z, mu);
  // Only what steadies a clock is kept, so that the matrix stays positive.
  for (let e = 0; e < 2; e++) sys.corner[4 + 4 * e] = sys.corner[4 + 4 * e]! + Math.max(0, clockStiffness[e]!);
}

/** v_0 = 2 (x_1 - x_0 - h t), and its like at B. */
function setEndBend(state: State, n: number, i: number): number {
  const end = i === 0 ? state.endA : state.endB;
  point[0] = i === 0 ? 0 : n - 2;
  factor[0] = 2;
  byBorder.fill(0);
  curveOfClock.fill(0);
  const clock = i === 0 ? 0 : 3;
  for (let k = 0; k < 3; k++) {
    byBorder[k] = -2 * end[6 + k]!;
    byBorder[3 + clock + k] = -2 * (end[3 + k]! + state.h * end[9 + k]!);
    curveOfClock[clock + k] = -2 * (end[12 + k]! + state.h * end[15 + k]!);
  }
  return 1;
}

function assemblePlaces(model: Model, state: State, sys: System, z: Float64Array, mu: number): void {
  const { segments: n, thin, thinWeight } = model;
  const { g, s, slope, h } = state;
  const { corner, cornerGradient } = sys;
  direct[0] = 0;
  for (let k = 0; k <= 2 * n; k++) {
    const j = n + 1 + k;
    let stiff = z[j]! / s[j]!;
    let f = mu / s[j]! + stiff * (g[j]! + s[j]!);
    if (thinWeight > 0 && g[j]! + thin > 0) {
      stiff += 0.5 * thinWeight * h;
      f += 0.5 * thinWeight * h * (g[j]! + thin);
    }
    const i = k >> 1;
    const count = (k & 1) === 0 ? setPoints(state, n, i, 1, 0, 0) : setPoints(state, n, i, 0.5, 0.5, 0);
    const atEnd = k <= 1 || k >= 2 * n - 1;
    multiplier = z[j]!;
    addTerm(sys, count, atEnd, f, stiff, 0, slope[3 * j]!, slope[3 * j + 1]!, slope[3 * j + 2]!);
  }
  const inA = model.samplesA.length / 3;
  const inAll = inA + model.samplesB.length / 3;
  for (let m = 0; m < inAll; m++) {
    const j = 3 * n + 2 + m;
    const p = m < inA ? 1 : 2;
    const stiff = z[j]! / s[j]!;
    const d = slope[3 * j]!;
    cornerGradient[p] = cornerGradient[p]! + (mu / s[j]! + stiff * (g[j]! + s[j]!)) * d;
    corner[4 * p] = corner[4 * p]! + stiff * d * d;
  }
}
