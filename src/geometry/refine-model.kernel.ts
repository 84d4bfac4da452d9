import { BAND as BAND_WIDTH, REACH as BAND_REACH } from './band.kernel.ts';

// Copies of this module's own: an imported binding is looked up anew at every use where modules are bundled for tests.
const BAND = BAND_WIDTH;
const REACH = BAND_REACH;

/**
 * The optimisation problem of the shortest curve of bounded curvature between two turnable ends, clear of everything:
 *
 *     minimise N h   over x_1..x_{N-1}, h, phiA, phiB
 *     c_i = (|x_{i+1} - x_i|^2 - h^2) / (2h) = 0
 *     g_i = (|v_i|^2 R / h^2 - h^2 / R) / 2 <= 0,   v_i = x_{i-1} - 2 x_i + x_{i+1}
 *     g_k = margin - slack <= 0   at points and mid-points, and at places on the ends' bodies
 *
 * x_0 and x_N lie `straight` out of the two tails; there v is taken with the tail's direction mirrored in:
 * v_0 = 2 (x_1 - x_0 - h t). For equal chords |v| / h^2 is exactly 1 / circumradius, so arcs keep their true radius.
 * Limits are numbered: bends 0..N, then places n+1..3n+1, then the bodies of A and of B.
 */
export interface KernelField {
  /** out[0] = slack [mm], out[1..3] = its gradient. */
  slackAndGradient(x: number, y: number, z: number, out: Float64Array): void;
}

/** origin 0-2, axis 3-5, up 6-8, right 9-11, rise 12, offset 13, cos 14, sin 15, straight 16, free 17 */
export type PackedEnd = Float64Array;

export interface Model {
  readonly segments: number;
  readonly radius: number;
  readonly margin: number;
  readonly thin: number;
  readonly thinWeight: number;
  readonly field: KernelField | null;
  /** Near an end other limits may hold: the fields read for the bodies and for the first and last so many places. */
  readonly fieldA: KernelField | null;
  readonly fieldB: KernelField | null;
  readonly placesA: number;
  readonly placesB: number;
  readonly a: PackedEnd;
  readonly b: PackedEnd;
  /** Places on the ends' bodies: along, sideways, slack wanted. */
  readonly samplesA: Float64Array;
  readonly samplesB: Float64Array;
}

export const limitCount = (model: Model): number =>
  model.field ? 3 * model.segments + 2 + (model.samplesA.length + model.samplesB.length) / 3 : model.segments + 1;

export interface State {
  readonly x: Float64Array;
  h: number;
  phiA: number;
  phiB: number;
  /** x_0 0-2, dx_0/dphi 3-5, t 6-8, dt/dphi 9-11 */
  readonly endA: Float64Array;
  readonly endB: Float64Array;
  readonly c: Float64Array;
  readonly g: Float64Array;
  /** reserves of the limits */
  readonly s: Float64Array;
  /** v at bends, minus the slack's gradient at places; for bodies d g / d phi in the first number */
  readonly slope: Float64Array;
  /** length and the cost of thin margins */
  cost: number;
}

export interface System {
  readonly matrix: Float64Array;
  readonly right: Float64Array;
  readonly corner: Float64Array;
  readonly cornerGradient: Float64Array;
}

export const BORDER = 4; // right-hand sides: minus gradient, h, phiA, phiB
export const MAX_BODY_SAMPLES = 64;

export function newState(capacity: number): State {
  const limits = 3 * capacity + 2 + 2 * MAX_BODY_SAMPLES;
  return {
    x: new Float64Array(3 * (capacity + 1)),
    h: 1,
    phiA: 0,
    phiB: 0,
    endA: new Float64Array(12),
    endB: new Float64Array(12),
    c: new Float64Array(capacity),
    g: new Float64Array(limits),
    s: new Float64Array(limits),
    slope: new Float64Array(3 * limits),
    cost: 0,
  };
}

export function newSystem(capacity: number): System {
  return {
    matrix: new Float64Array(3 * capacity * BAND),
    right: new Float64Array(3 * capacity * BORDER),
    corner: new Float64Array(9),
    cornerGradient: new Float64Array(3),
  };
}

export function placeEnd(e: PackedEnd, phi: number, out: Float64Array): void {
  const c = Math.cos(phi);
  const s = Math.sin(phi);
  const along = e[12]! + e[16]! * e[14]!;
  const aside = e[13]! + e[16]! * e[15]!;
  for (let k = 0; k < 3; k++) {
    const radial = e[6 + k]! * c + e[9 + k]! * s;
    const slope = e[9 + k]! * c - e[6 + k]! * s;
    out[k] = e[k]! + e[3 + k]! * along + radial * aside;
    out[3 + k] = slope * aside;
    out[6 + k] = e[3 + k]! * e[14]! + radial * e[15]!;
    out[9 + k] = slope * e[15]!;
  }
}

const reading = new Float64Array(4);

function readBody(e: PackedEnd, phi: number, samples: Float64Array, state: State, from: number, field: KernelField): void {
  const c = Math.cos(phi);
  const s = Math.sin(phi);
  for (let m = 0; 3 * m < samples.length; m++) {
    const along = samples[3 * m]!;
    const side = samples[3 * m + 1]!;
    field.slackAndGradient(
      e[0]! + e[3]! * along + (e[6]! * c + e[9]! * s) * side,
      e[1]! + e[4]! * along + (e[7]! * c + e[10]! * s) * side,
      e[2]! + e[5]! * along + (e[8]! * c + e[11]! * s) * side,
      reading,
    );
    state.g[from + m] = samples[3 * m + 2]! - reading[0]!;
    state.slope[3 * (from + m)] =
      -side *
      (reading[1]! * (e[9]! * c - e[6]! * s) + reading[2]! * (e[10]! * c - e[7]! * s) + reading[3]! * (e[11]! * c - e[8]! * s));
  }
}

/** Places the ends, reads the field, and fills c, g, slope and cost of a state whose inner points, h and clocks are set. */
export function measure(model: Model, state: State): void {
  const { segments: n, field, radius } = model;
  const { x, h, c, g, slope, endA, endB } = state;
  placeEnd(model.a, state.phiA, endA);
  placeEnd(model.b, state.phiB, endB);
  for (let k = 0; k < 3; k++) {
    x[k] = endA[k]!;
    x[3 * n + k] = endB[k]!;
  }
  state.cost = n * h;
  const half = 0.5 / h;
  for (let i = 0; i < n; i++) {
    const p = 3 * i;
    const dx = x[p + 3]! - x[p]!;
    const dy = x[p + 4]! - x[p + 1]!;
    const dz = x[p + 5]! - x[p + 2]!;
    c[i] = (dx * dx + dy * dy + dz * dz - h * h) * half;
  }
  const scale = (0.5 * radius) / (h * h);
  const limit = (0.5 * h * h) / radius;
  for (let i = 0; i <= n; i++) {
    const p = 3 * i;
    for (let k = 0; k < 3; k++) {
      slope[p + k] =
        i === 0 ? 2 * (x[3 + k]! - endA[k]! - h * endA[6 + k]!)
        : i === n ? 2 * (x[p - 3 + k]! - endB[k]! - h * endB[6 + k]!)
        : x[p - 3 + k]! - 2 * x[p + k]! + x[p + 3 + k]!;
    }
    g[i] = (slope[p]! * slope[p]! + slope[p + 1]! * slope[p + 1]! + slope[p + 2]! * slope[p + 2]!) * scale - limit;
  }
  if (field) measurePlaces(model, state, field);
}

function measurePlaces(model: Model, state: State, field: KernelField): void {
  const { segments: n, margin, thin, thinWeight, placesA, placesB } = model;
  const { x, g, slope } = state;
  const fieldA = model.fieldA ?? field;
  const fieldB = model.fieldB ?? field;
  const firstB = 2 * n + 1 - placesB;
  for (let k = 0; k <= 2 * n; k++) {
    const p = 3 * (k >> 1);
    const q = 3 * ((k + 1) >> 1);
    const here = k < placesA ? fieldA : k >= firstB ? fieldB : field;
    here.slackAndGradient((x[p]! + x[q]!) / 2, (x[p + 1]! + x[q + 1]!) / 2, (x[p + 2]! + x[q + 2]!) / 2, reading);
    const j = n + 1 + k;
    g[j] = margin - reading[0]!;
    slope[3 * j] = -reading[1]!;
    slope[3 * j + 1] = -reading[2]!;
    slope[3 * j + 2] = -reading[3]!;
    const lack = g[j]! + thin;
    if (thinWeight > 0 && lack > 0) state.cost += 0.25 * thinWeight * state.h * lack * lack;
  }
  const first = 3 * n + 2;
  readBody(model.a, state.phiA, model.samplesA, state, first, fieldA);
  readBody(model.b, state.phiB, model.samplesB, state, first + model.samplesA.length / 3, fieldB);
}

// The term being added: up to three points with factors, and how v moves with h, phiA, phiB.
const point = new Int32Array(3);
const factor = new Float64Array(3);
const byBorder = new Float64Array(9);
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
function addTerm(sys: System, count: number, border: boolean, f: number, k: number, iso: number, jx: number, jy: number, jz: number): void {
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

function addBorder(sys: System, count: number, f: number, k: number, iso: number, jx: number, jy: number, jz: number): void {
  const { right, corner, cornerGradient } = sys;
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
  let count = 0;
  for (let j = 0; j < 3; j++) {
    const c = j === 0 ? c0 : j === 1 ? c1 : c2;
    if (c === 0) continue;
    if (i + j === 0) for (let k = 0; k < 3; k++) byBorder[3 + k] = c * s.endA[3 + k]!;
    else if (i + j === n) for (let k = 0; k < 3; k++) byBorder[6 + k] = c * s.endB[3 + k]!;
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
export function assemble(model: Model, state: State, sys: System, tension: Float64Array, z: Float64Array, stiff: number, mu: number): void {
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
  for (let i = 0; i < n; i++) {
    const p = 3 * i;
    const f = tension[i]! + stiff * c[i]!;
    const atEnd = i === 0 || i === n - 1;
    const count = setPoints(state, n, i, -1, 1, 0);
    direct[0] = -1 - c[i]! / h;
    const iso = Math.max(tension[i]!, 0) / h;
    addTerm(sys, count, atEnd, f, stiff, iso, (x[p + 3]! - x[p]!) / h, (x[p + 4]! - x[p + 1]!) / h, (x[p + 5]! - x[p + 2]!) / h);
  }
  const bendScale = radius / (h * h);
  for (let i = 0; i <= n; i++) {
    const p = 3 * i;
    const k = z[i]! / s[i]!;
    const f = mu / s[i]! + k * (g[i]! + s[i]!);
    const atEnd = i <= 1 || i >= n - 1;
    let count = 1;
    if (i === 0 || i === n) count = setEndBend(state, n, i);
    else count = setPoints(state, n, i - 1, 1, -2, 1);
    const vv = slope[p]! ** 2 + slope[p + 1]! ** 2 + slope[p + 2]! ** 2;
    direct[0] = -(vv * bendScale) / h - h / radius;
    addTerm(sys, count, atEnd, f, k, z[i]! * bendScale, slope[p]! * bendScale, slope[p + 1]! * bendScale, slope[p + 2]! * bendScale);
  }
  if (model.field) assemblePlaces(model, state, sys, z, mu);
}

/** v_0 = 2 (x_1 - x_0 - h t), and its like at B. */
function setEndBend(state: State, n: number, i: number): number {
  const end = i === 0 ? state.endA : state.endB;
  point[0] = i === 0 ? 0 : n - 2;
  factor[0] = 2;
  byBorder.fill(0);
  const clock = i === 0 ? 3 : 6;
  for (let k = 0; k < 3; k++) {
    byBorder[k] = -2 * end[6 + k]!;
    byBorder[clock + k] = -2 * (end[3 + k]! + state.h * end[9 + k]!);
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

/**
 * First-order change of the limits (into `dg`) and of the spacing (into `dc`) along a step. `d` holds the step of all
 * points, ends included; dh, dA, dB that of h and the clocks.
 */
export function linearChange(
  model: Model, state: State, d: Float64Array, dh: number, dA: number, dB: number, dg: Float64Array, dc: Float64Array,
): void {
  const { segments: n, radius } = model;
  const { x, h, c, slope, endA, endB } = state;
  for (let i = 0; i < n; i++) {
    const p = 3 * i;
    let sum = 0;
    for (let k = 0; k < 3; k++) sum += (x[p + 3 + k]! - x[p + k]!) * (d[p + 3 + k]! - d[p + k]!);
    dc[i] = sum / h - (1 + c[i]! / h) * dh;
  }
  const scale = radius / (h * h);
  for (let i = 0; i <= n; i++) {
    const p = 3 * i;
    let sum = 0;
    let vv = 0;
    for (let k = 0; k < 3; k++) {
      const v = slope[p + k]!;
      const dv =
        i === 0 ? 2 * (d[3 + k]! - d[k]! - dh * endA[6 + k]! - h * dA * endA[9 + k]!)
        : i === n ? 2 * (d[p - 3 + k]! - d[p + k]! - dh * endB[6 + k]! - h * dB * endB[9 + k]!)
        : d[p - 3 + k]! - 2 * d[p + k]! + d[p + 3 + k]!;
      sum += v * dv;
      vv += v * v;
    }
    dg[i] = sum * scale - ((vv * scale) / h + h / radius) * dh;
  }
  if (!model.field) return;
  for (let k = 0; k <= 2 * n; k++) {
    const p = 3 * (k >> 1);
    const q = 3 * ((k + 1) >> 1);
    const j = n + 1 + k;
    let sum = 0;
    for (let e = 0; e < 3; e++) sum += slope[3 * j + e]! * (d[p + e]! + d[q + e]!);
    dg[j] = sum / 2;
  }
  const inA = model.samplesA.length / 3;
  const inAll = inA + model.samplesB.length / 3;
  for (let m = 0; m < inAll; m++) dg[3 * n + 2 + m] = slope[3 * (3 * n + 2 + m)]! * (m < inA ? dA : dB);
}
