import { BAND, factorBand, REACH, solveBand } from './band.kernel.ts';

/**
 * Equilibrium of an inextensible, untwisted elastic rod of bending stiffness 1:
 *
 *     minimise sum |k_i|^2 m_i / 2 - pull . x_N - sum weight . x_i m_i,   (|x_{i+1} - x_i|^2 - h_i^2) / (2 h_i) = 0
 *
 * k_i = (t_i - t_{i-1}) / m_i with t the chord directions and m_i half the two chords; where a direction is clamped a half
 * cell k = 2 (x_1 - x_0 - h t) / h^2, m = h / 2 stands on each side. Newton's method on the Lagrangian: the multipliers are
 * the rod's tension (negative where it is pushed), a stiff penalty holds the spacing, one banded L D L' a step, damped
 * until it is positive and a merit falls. The last matrix undamped and positive = the shape is stable.
 */
export interface Rod {
  readonly segments: number;
  readonly h: Float64Array;
  /** 1 where a point is held, else 0 */
  readonly held: Uint8Array;
  /** 1 where the direction is held too, else 0; the directions, along the rod */
  readonly clamped: Uint8Array;
  readonly direction: Float64Array;
  readonly weight: ArrayLike<number>;
  readonly pull: ArrayLike<number>;
}

export interface RodSpace {
  readonly capacity: number;
  x: Float64Array;
  other: Float64Array;
  readonly tension: Float64Array;
  readonly foreseen: Float64Array;
  readonly gradient: Float64Array;
  readonly step: Float64Array;
  readonly back: Float64Array;
  readonly bending: Float64Array;
  readonly matrix: Float64Array;
  readonly factor: Float64Array;
  readonly c: Float64Array;
}

export function newRodSpace(capacity: number): RodSpace {
  const size = 3 * (capacity + 1);
  return {
    capacity,
    x: new Float64Array(size),
    other: new Float64Array(size),
    tension: new Float64Array(capacity),
    foreseen: new Float64Array(capacity),
    gradient: new Float64Array(size),
    step: new Float64Array(size),
    back: new Float64Array(size),
    bending: new Float64Array(size * BAND),
    matrix: new Float64Array(size * BAND),
    factor: new Float64Array(size * BAND),
    c: new Float64Array(capacity),
  };
}

/** Factors of a bend's second difference: k = f0 x_{i-1} + f1 x_i + f2 x_{i+1}. */
const f = new Float64Array(3);

function setFactors(a: number, b: number): void {
  f[0] = 2 / ((a + b) * a);
  f[2] = 2 / ((a + b) * b);
  f[1] = -f[0]! - f[2]!;
}

function addIso(m: Float64Array, i: number, j: number, value: number): void {
  for (let k = 0; k < 3; k++) {
    const at = (3 * i + k) * BAND + REACH - 3 * (i - j);
    m[at] = m[at]! + value;
  }
}

/** The bending energy is quadratic: its matrix is made once. */
function fillBending(rod: Rod, m: Float64Array): void {
  const n = rod.segments;
  const { h } = rod;
  m.fill(0, 0, 3 * (n + 1) * BAND);
  for (let i = 0; i <= n; i++) {
    if (rod.clamped[i]) {
      for (const [j, chord] of [
        [i - 1, h[i - 1]],
        [i + 1, h[i]],
      ] as const) {
        if (j < 0 || j > n || chord === undefined) continue;
        const e = (4 / chord ** 4) * (chord / 2);
        addIso(m, i, i, e);
        addIso(m, j, j, e);
        addIso(m, Math.max(i, j), Math.min(i, j), -e);
      }
    } else if (i > 0 && i < n) {
      setFactors(h[i - 1]!, h[i]!);
      const mass = (h[i - 1]! + h[i]!) / 2;
      for (let u = 0; u < 3; u++) for (let v = 0; v <= u; v++) addIso(m, i - 1 + u, i - 1 + v, f[u]! * f[v]! * mass);
    }
  }
}

/** Energy of a shape; with `gradient`, its gradient too. */
function energyOf(rod: Rod, x: Float64Array, gradient: Float64Array | null): number {
  const n = rod.segments;
  const { h, weight, pull, clamped, direction } = rod;
  const [wx, wy, wz] = [weight[0]!, weight[1]!, weight[2]!];
  if (gradient) gradient.fill(0, 0, 3 * (n + 1));
  let energy = 0;
  for (let i = 0; i <= n; i++) {
    const before = i > 0 ? h[i - 1]! : 0;
    const after = i < n ? h[i]! : 0;
    const mass = (before + after) / 2;
    const p = 3 * i;
    energy -= (wx * x[p]! + wy * x[p + 1]! + wz * x[p + 2]!) * mass;
    if (gradient) {
      gradient[p] = gradient[p]! - wx * mass;
      gradient[p + 1] = gradient[p + 1]! - wy * mass;
      gradient[p + 2] = gradient[p + 2]! - wz * mass;
    }
    if (clamped[i]) {
      for (let k = 0; k < 3; k++) {
        const t = direction[p + k]!;
        if (i > 0) energy += halfCell(x, p + k, p - 3 + k, before, -t, gradient);
        if (i < n) energy += halfCell(x, p + k, p + 3 + k, after, t, gradient);
      }
    } else if (i > 0 && i < n) {
      const f0 = 2 / ((before + after) * before);
      const f2 = 2 / ((before + after) * after);
      const f1 = -f0 - f2;
      const kx = f0 * x[p - 3]! + f1 * x[p]! + f2 * x[p + 3]!;
      const ky = f0 * x[p - 2]! + f1 * x[p + 1]! + f2 * x[p + 4]!;
      const kz = f0 * x[p - 1]! + f1 * x[p + 2]! + f2 * x[p + 5]!;
      energy += 0.5 * (kx * kx + ky * ky + kz * kz) * mass;
      if (!gradient) continue;
      const [g0, g1, g2] = [mass * f0, mass * f1, mass * f2];
      gradient[p - 3] = gradient[p - 3]! + g0 * kx;
      gradient[p - 2] = gradient[p - 2]! + g0 * ky;
      gradient[p - 1] = gradient[p - 1]! + g0 * kz;
      gradient[p] = gradient[p]! + g1 * kx;
      gradient[p + 1] = gradient[p + 1]! + g1 * ky;
      gradient[p + 2] = gradient[p + 2]! + g1 * kz;
      gradient[p + 3] = gradient[p + 3]! + g2 * kx;
      gradient[p + 4] = gradient[p + 4]! + g2 * ky;
      gradient[p + 5] = gradient[p + 5]! + g2 * kz;
    }
  }
  for (let k = 0; k < 3; k++) {
    energy -= pull[k]! * x[3 * n + k]!;
    if (gradient) gradient[3 * n + k] = gradient[3 * n + k]! - pull[k]!;
  }
  return energy;
}

function halfCell(
  x: Float64Array,
  at: number,
  to: number,
  h: number,
  t: number,
  gradient: Float64Array | null,
): number {
  const bend = (2 * (x[to]! - x[at]! - h * t)) / (h * h);
  if (gradient) {
    gradient[to] = gradient[to]! + bend / h;
    gradient[at] = gradient[at]! - bend / h;
  }
  return 0.25 * bend * bend * h;
}

function fillSpacing(rod: Rod, x: Float64Array, c: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < rod.segments; i++) {
    const p = 3 * i;
    const h = rod.h[i]!;
    const dx = x[p + 3]! - x[p]!;
    const dy = x[p + 4]! - x[p + 1]!;
    const dz = x[p + 5]! - x[p + 2]!;
    c[i] = (dx * dx + dy * dy + dz * dz - h * h) / (2 * h);
    sum += Math.abs(c[i]!);
  }
  return sum;
}

const HELD = 1e30; // stiffness of a held point, beyond anything else in the matrix

/** Newton matrix and right-hand side (minus gradient of the Lagrangian and of the penalty) at x. */
function assembleRod(rod: Rod, s: RodSpace, stiff: number): void {
  const n = rod.segments;
  const { x, matrix, gradient, tension, c } = s;
  matrix.set(s.bending.subarray(0, 3 * (n + 1) * BAND));
  for (let i = 0; i < n; i++) {
    const p = 3 * i;
    const h = rod.h[i]!;
    const geometric = tension[i]! / h;
    const pull = (tension[i]! + stiff * c[i]!) / h;
    const dx = x[p + 3]! - x[p]!;
    const dy = x[p + 4]! - x[p + 1]!;
    const dz = x[p + 5]! - x[p + 2]!;
    gradient[p] = gradient[p]! - pull * dx;
    gradient[p + 1] = gradient[p + 1]! - pull * dy;
    gradient[p + 2] = gradient[p + 2]! - pull * dz;
    gradient[p + 3] = gradient[p + 3]! + pull * dx;
    gradient[p + 4] = gradient[p + 4]! + pull * dy;
    gradient[p + 5] = gradient[p + 5]! + pull * dz;
    const firm = stiff / (h * h);
    const kxx = firm * dx * dx + geometric;
    const kyy = firm * dy * dy + geometric;
    const kzz = firm * dz * dz + geometric;
    const kxy = firm * dx * dy;
    const kxz = firm * dx * dz;
    const kyz = firm * dy * dz;
    // Rows of the two points: each its own lower half, and below the diagonal the two with each other.
    const low = p * BAND + REACH;
    const high = low + 3 * BAND;
    matrix[low] = matrix[low]! + kxx;
    matrix[low + 8] = matrix[low + 8]! + kxy;
    matrix[low + 9] = matrix[low + 9]! + kyy;
    matrix[low + 16] = matrix[low + 16]! + kxz;
    matrix[low + 17] = matrix[low + 17]! + kyz;
    matrix[low + 18] = matrix[low + 18]! + kzz;
    matrix[high] = matrix[high]! + kxx;
    matrix[high + 8] = matrix[high + 8]! + kxy;
    matrix[high + 9] = matrix[high + 9]! + kyy;
    matrix[high + 16] = matrix[high + 16]! + kxz;
    matrix[high + 17] = matrix[high + 17]! + kyz;
    matrix[high + 18] = matrix[high + 18]! + kzz;
    matrix[high - 3] = matrix[high - 3]! - kxx;
    matrix[high - 2] = matrix[high - 2]! - kxy;
    matrix[high - 1] = matrix[high - 1]! - kxz;
    matrix[high + 5] = matrix[high + 5]! - kxy;
    matrix[high + 6] = matrix[high + 6]! - kyy;
    matrix[high + 7] = matrix[high + 7]! - kyz;
    matrix[high + 13] = matrix[high + 13]! - kxz;
    matrix[high + 14] = matrix[high + 14]! - kyz;
    matrix[high + 15] = matrix[high + 15]! - kzz;
  }
  for (let i = 0; i <= n; i++) {
    if (!rod.held[i]) continue;
    for (let k = 0; k < 3; k++) {
      gradient[3 * i + k] = 0;
      matrix[(3 * i + k) * BAND + REACH] = HELD;
    }
  }
}

export interface RodReport {
  iterations: number;
  energy: number;
  /** Greatest relative error of a chord. */
  spacing: number;
  settled: boolean;
  stable: boolean;
}

/**
 * Damped so hard that it hardly moves any more, a rod will not settle: nearly always one too short for where it must go. Of
 * 17480 rods that settled on the demo car one would have been given up so, of 1002 that did not 953, after 22 steps of 60.
 */
const STUCK_DAMPING = 1e7;
const STUCK_STEP = 1e-5;

/** Lets the rod in `s.x` find its shape; `isNear` tells that shape and tensions are those of a rod much like it. */
export function settleRod(rod: Rod, s: RodSpace, maxIterations: number, report: RodReport, isNear: boolean): void {
  const n = rod.segments;
  const size = 3 * (n + 1);
  let length = 0;
  for (let i = 0; i < n; i++) length += rod.h[i]!;
  const h = length / n;
  // Tension is counted in that of a buckling rod of this length, damping in the stiffness of a bend.
  const unit = ((2 * Math.PI) / length) ** 2;
  const firmest = (1e4 * unit) / h;
  let stiff = isNear ? firmest : firmest / 256;
  let fresh = 3;
  const firstDamping = (1e-3 * unit) / h;
  let damping = firstDamping;
  fillBending(rod, s.bending);
  let breach = fillSpacing(rod, s.x, s.c);
  report.settled = false;
  report.stable = false;
  report.iterations = 0;
  let energy = energyOf(rod, s.x, s.gradient);
  while (report.iterations < maxIterations) {
    report.iterations++;
    energyOf(rod, s.x, s.gradient);
    assembleRod(rod, s, stiff);
    const plain = factorDamped(s, size, 0) === 0;
    damping = dampedFactor(s, size, plain, damping, firstDamping);
    if (damping < 0) break;
    for (let i = 0; i < size; i++) s.step[i] = -s.gradient[i]!;
    solveBand(s.factor, size, s.step, 1);
    const longest = tidyStep(rod, s.step);
    foreseePull(rod, s, stiff);
    let most = unit;
    for (let i = 0; i < n; i++) most = Math.max(most, Math.abs(s.tension[i]!), Math.abs(s.foreseen[i]!));
    const before = energy + 2 * most * breach;
    let part = Math.min(1, (0.1 * length) / longest);
    let taken = false;
    const enough = before + 1e-6 * unit * length + 1e-9 * Math.abs(before);
    for (let tries = 0; tries < 4 && !taken; tries++) {
      for (let i = 0; i < size; i++) s.other[i] = s.x[i]! + part * s.step[i]!;
      for (let drawn = 0; drawn < (stiff === firmest ? 2 : 1) && !taken; drawn++) {
        if (drawn > 0) drawBack(rod, s, stiff);
        const e2 = energyOf(rod, s.other, null);
        taken = e2 + 2 * most * breachOf(rod, s.other) <= enough;
        if (taken) energy = e2;
      }
      if (!taken) part *= 0.4;
    }
    if (!taken) {
      damping = Math.max(damping * 10, 10 * firstDamping);
      if (damping > 1e7 * firstDamping && fresh > 0) {
        // Tensions from a start far off can lock it: forget them and begin again, softly, from here.
        fresh--;
        s.tension.fill(0, 0, n);
        damping = firstDamping;
        stiff = firmest / 256;
      }
      continue;
    }
    if (damping > STUCK_DAMPING * firstDamping && longest < STUCK_STEP * length) break;
    for (let i = 0; i < n; i++) s.tension[i] = s.tension[i]! + part * (s.foreseen[i]! - s.tension[i]!);
    const was = s.x;
    s.x = s.other;
    s.other = was;
    breach = fillSpacing(rod, s.x, s.c);
    damping = part === 1 ? damping * 0.15 : damping * 2;
    if (part > 0.3) stiff = Math.min(stiff * 4, firmest);
    report.spacing = 0;
    for (let i = 0; i < n; i++) report.spacing = Math.max(report.spacing, Math.abs(s.c[i]!) / rod.h[i]!);
    if (
      part === 1 &&
      longest < 1e-6 * length &&
      report.spacing < 1e-8 &&
      stiff === firmest &&
      damping <= firstDamping
    ) {
      report.settled = true;
      // Whole turns of the shape about its ends cost nothing: they count as stable.
      report.stable = plain || factorDamped(s, size, firstDamping) === 0;
      break;
    }
  }
  report.energy = energy;
}

/**
 * Leaves a positive factor in the space and returns its damping: none where the matrix is positive and none is asked, else
 * at least `first`; near a saddle as little as will do, or leaving it would take for ever. -1 if nothing helps.
 */
function dampedFactor(s: RodSpace, size: number, plain: boolean, asked: number, first: number): number {
  if (plain && asked <= first) return 0;
  let damping = Math.max(asked, first);
  while (factorDamped(s, size, damping) > 0) {
    damping *= 5;
    if (damping > 1e12 * first) return -1;
  }
  if (damping > first || plain) return damping;
  let least = damping;
  for (let k = 0; k < 3 && factorDamped(s, size, least / 4) === 0; k++) least /= 4;
  factorDamped(s, size, least);
  return least;
}

function factorDamped(s: RodSpace, size: number, damping: number): number {
  s.factor.set(s.matrix.subarray(0, size * BAND));
  if (damping > 0) for (let i = REACH; i < size * BAND; i += BAND) s.factor[i] = s.factor[i]! + damping;
  return factorBand(s.factor, size);
}

/** Held points do not move at all; returns the longest move of a coordinate. */
function tidyStep(rod: Rod, step: Float64Array): number {
  let longest = 1e-300;
  for (let i = 0; i <= rod.segments; i++) {
    for (let k = 0; k < 3; k++) {
      if (rod.held[i]) step[3 * i + k] = 0;
      longest = Math.max(longest, Math.abs(step[3 * i + k]!));
    }
  }
  return longest;
}

/** The tension the whole step would bring: tension + stiff (c + dc). */
function foreseePull(rod: Rod, s: RodSpace, stiff: number): void {
  for (let i = 0; i < rod.segments; i++) {
    const p = 3 * i;
    let dc = 0;
    for (let k = 0; k < 3; k++) dc += (s.x[p + 3 + k]! - s.x[p + k]!) * (s.step[p + 3 + k]! - s.step[p + k]!);
    s.foreseen[i] = s.tension[i]! + stiff * (s.c[i]! + dc / rod.h[i]!);
  }
}

/**
 * Chords stretch with the square of a step, which would make the merit refuse good long ones: the trial in `other` is drawn
 * back to its chords with the factor at hand.
 */
function drawBack(rod: Rod, s: RodSpace, stiff: number): void {
  const n = rod.segments;
  const size = 3 * (n + 1);
  const { other: x, back } = s;
  back.fill(0, 0, size);
  for (let i = 0; i < n; i++) {
    const p = 3 * i;
    const h = rod.h[i]!;
    const dx = x[p + 3]! - x[p]!;
    const dy = x[p + 4]! - x[p + 1]!;
    const dz = x[p + 5]! - x[p + 2]!;
    const f = (stiff * (dx * dx + dy * dy + dz * dz - h * h)) / (2 * h * h);
    back[p] = back[p]! + f * dx;
    back[p + 1] = back[p + 1]! + f * dy;
    back[p + 2] = back[p + 2]! + f * dz;
    back[p + 3] = back[p + 3]! - f * dx;
    back[p + 4] = back[p + 4]! - f * dy;
    back[p + 5] = back[p + 5]! - f * dz;
  }
  for (let i = 0; i <= n; i++) if (rod.held[i]) back.fill(0, 3 * i, 3 * i + 3);
  solveBand(s.factor, size, back, 1);
  for (let i = 0; i <= n; i++) if (!rod.held[i]) for (let k = 3 * i; k < 3 * i + 3; k++) x[k] = x[k]! + back[k]!;
}

function breachOf(rod: Rod, x: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < rod.segments; i++) {
    const p = 3 * i;
    const h = rod.h[i]!;
    const dx = x[p + 3]! - x[p]!;
    const dy = x[p + 4]! - x[p + 1]!;
    const dz = x[p + 5]! - x[p + 2]!;
    sum += Math.abs(dx * dx + dy * dy + dz * dz - h * h) / (2 * h);
  }
  return sum;
}
