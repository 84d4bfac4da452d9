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
  /** Limits at the places of an end that does not turn, as `steadyBody` gives them; null where it turns. */
  readonly steadyA: Float64Array | null;
  readonly steadyB: Float64Array | null;
}

export const limitCount = (model: Model): number =>
  model.field ? 3 * model.segments + 2 + (model.samplesA.length + model.samplesB.length) / 3 : model.segments + 1;

export interface State {
  readonly x: Float64Array;
  h: number;
  phiA: number;
  phiB: number;
  /** x_0 0-2, dx_0/dphi 3-5, t 6-8, dt/dphi 9-11, second derivatives of x_0 12-14 and of t 15-17 */
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

export const MAX_BODY_SAMPLES = 64;

export function newState(capacity: number): State {
  const limits = 3 * capacity + 2 + 2 * MAX_BODY_SAMPLES;
  return {
    x: new Float64Array(3 * (capacity + 1)),
    h: 1,
    phiA: 0,
    phiB: 0,
    endA: new Float64Array(18),
    endB: new Float64Array(18),
    c: new Float64Array(capacity),
    g: new Float64Array(limits),
    s: new Float64Array(limits),
    slope: new Float64Array(3 * limits),
    cost: 0,
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
    out[12 + k] = -radial * aside;
    out[15 + k] = -radial * e[15]!;
  }
}

const reading = new Float64Array(4);

function readBody(
  e: PackedEnd,
  phi: number,
  samples: Float64Array,
  state: State,
  from: number,
  field: KernelField,
): void {
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
      (reading[1]! * (e[9]! * c - e[6]! * s) +
        reading[2]! * (e[10]! * c - e[7]! * s) +
        reading[3]! * (e[11]! * c - e[8]! * s));
  }
}

/** The limits at the places on an end's body; null where they change with its clock. */
export function steadyBody(e: PackedEnd, samples: Float64Array, field: KernelField | null): Float64Array | null {
  if (field === null || e[17]! > 0) return null;
  const out = new Float64Array(samples.length / 3);
  for (let m = 0; m < out.length; m++) {
    const along = samples[3 * m]!;
    field.slackAndGradient(e[0]! + e[3]! * along, e[1]! + e[4]! * along, e[2]! + e[5]! * along, reading);
    out[m] = samples[3 * m + 2]! - reading[0]!;
  }
  return out;
}

function keepBody(steady: Float64Array, state: State, from: number): void {
  state.g.set(steady, from);
  for (let m = 0; m < steady.length; m++) state.slope[3 * (from + m)] = 0;
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
        i === 0
          ? 2 * (x[3 + k]! - endA[k]! - h * endA[6 + k]!)
          : i === n
            ? 2 * (x[p - 3 + k]! - endB[k]! - h * endB[6 + k]!)
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
  const second = first + model.samplesA.length / 3;
  if (model.steadyA !== null) keepBody(model.steadyA, state, first);
  else readBody(model.a, state.phiA, model.samplesA, state, first, fieldA);
  if (model.steadyB !== null) keepBody(model.steadyB, state, second);
  else readBody(model.b, state.phiB, model.samplesB, state, second, fieldB);
}

/**
 * First-order change of the limits (into `dg`) and of the spacing (into `dc`) along a step. `d` holds the step of all
 * points, ends included; dh, dA, dB that of h and the clocks.
 */
export function linearChange(
  model: Model,
  state: State,
  d: Float64Array,
  dh: number,
  dA: number,
  dB: number,
  dg: Float64Array,
  dc: Float64Array,
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
        i === 0
          ? 2 * (d[3 + k]! - d[k]! - dh * endA[6 + k]! - h * dA * endA[9 + k]!)
          : i === n
            ? 2 * (d[p - 3 + k]! - d[p + k]! - dh * endB[6 + k]! - h * dB * endB[9 + k]!)
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
