import { BAND as BAND_WIDTH, factorBand, REACH as BAND_REACH, solveBand } from './band.kernel.ts';
import {
  limitCount,
  linearChange,
  MAX_BODY_SAMPLES,
  measure,
  type Model,
  newState,
  type PackedEnd,
  type State,
} from './refine-model.kernel.ts';
import { assemble, BORDER as BORDER_WIDTH, newSystem, type System } from './refine-system.kernel.ts';

// This module's own copies: an imported binding is looked up anew at every use where modules are bundled for tests.
const BAND = BAND_WIDTH;
const REACH = BAND_REACH;
const BORDER = BORDER_WIDTH;

/**
 * Primal-dual interior point on the model. Each limit g <= 0 has a reserve s > 0 and a multiplier z > 0 with s z -> mu,
 * and mu falls to nothing. (Hinge penalties were tried first: where straights meet bends they chatter between limits on and
 * off.) Spacing is kept by multipliers, a tension of about 1, with a stiff penalty. Each step is one banded L D L' with
 * h and the clocks as border columns, damped and backed off until a merit of length, reserves and breaches falls.
 */
export interface Space {
  readonly capacity: number;
  state: State;
  other: State;
  readonly tension: Float64Array;
  readonly z: Float64Array;
  readonly system: System;
  readonly factor: Float64Array;
  readonly solved: Float64Array;
  readonly step: Float64Array;
  readonly dg: Float64Array;
  readonly dz: Float64Array;
  readonly dc: Float64Array;
}

export function newSpace(capacity: number): Space {
  const limits = 3 * capacity + 2 + 2 * MAX_BODY_SAMPLES;
  return {
    capacity,
    state: newState(capacity),
    other: newState(capacity),
    tension: new Float64Array(capacity),
    z: new Float64Array(limits),
    system: newSystem(capacity),
    factor: new Float64Array(3 * capacity * BAND),
    solved: new Float64Array(3 * capacity * BORDER),
    step: new Float64Array(3 * (capacity + 1)),
    dg: new Float64Array(limits),
    dz: new Float64Array(limits),
    dc: new Float64Array(capacity),
  };
}

export interface Effort {
  readonly maxIterations: number;
  /** Stop when spacing and curvature are met to this fraction. */
  readonly tolerance: number;
  /** Stop when slack is met to this [mm]. */
  readonly slackTolerance: number;
  /** Barrier to start from and to end at, as a fraction of h. */
  readonly firstBarrier: number;
  readonly lastBarrier: number;
  /** Iterations of the levels before, and what must be reached by when, in order. */
  readonly iterationsBefore: number;
  readonly milestones: readonly Milestone[];
  /** The start keeps every limit, and so shall every step. */
  readonly keeping: boolean;
}

/** A refinement that breaks its limits by more than this at an iteration, counted over all levels, is given up. */
export interface Milestone {
  readonly iteration: number;
  /** Lack of slack [mm]. */
  readonly slackMm: number;
  /** Relative breach of spacing or curvature. */
  readonly shape: number;
}

/** A milestone is missed after so many iterations of this level. */
export function isHopeless({ milestones, iterationsBefore }: Effort, iterations: number, broken: Broken): boolean {
  for (const { iteration, slackMm, shape } of milestones)
    if (iterationsBefore + iterations === iteration)
      return broken.slack > slackMm || broken.spacing > shape || broken.curvature > shape;
  return false;
}

export interface Broken {
  /** Greatest relative spacing error, curvature excess over 1/R as a fraction, lack of slack [mm]. */
  spacing: number;
  curvature: number;
  slack: number;
}

const step3 = new Float64Array(3);
const schur = new Float64Array(9);
const schurRight = new Float64Array(3);

/** Solves the 3x3 symmetric system of the border; false if it is not positive definite. */
function solveCorner(c: Float64Array, b: Float64Array, out: Float64Array): boolean {
  const d0 = c[0]!;
  if (!(d0 > 0)) return false;
  const l10 = c[3]! / d0;
  const l20 = c[6]! / d0;
  const d1 = c[4]! - l10 * c[3]!;
  if (!(d1 > 0)) return false;
  const l21 = (c[7]! - l20 * c[3]!) / d1;
  const d2 = c[8]! - l20 * c[6]! - l21 * l21 * d1;
  if (!(d2 > 0)) return false;
  const y1 = b[1]! - l10 * b[0]!;
  out[2] = (b[2]! - l20 * b[0]! - l21 * y1) / d2;
  out[1] = y1 / d1 - l21 * out[2]!;
  out[0] = b[0]! / d0 - l10 * out[1]! - l20 * out[2]!;
  return true;
}

function freezeCorner(p: number): void {
  for (let q = 0; q < 3; q++) {
    schur[3 * p + q] = 0;
    schur[3 * q + p] = 0;
  }
  schur[4 * p] = 1;
  schurRight[p] = 0;
}

/** Solves for the damped step: points into space.step (ends included), h and clocks into step3. */
function findStep(model: Model, space: Space, damping: number, leverA: number, leverB: number): boolean {
  const n = model.segments;
  const count = 3 * (n - 1);
  const { factor, solved, step, state } = space;
  const { matrix, right, corner, cornerGradient } = space.system;
  factor.set(matrix.subarray(0, count * BAND));
  for (let i = REACH; i < count * BAND; i += BAND) factor[i] = factor[i]! + damping;
  if (factorBand(factor, count) > 0) return false;
  solved.set(right.subarray(0, count * BORDER));
  solveBand(factor, count, solved, BORDER);
  schur.set(corner);
  schur[0] = schur[0]! + damping * n;
  schur[4] = schur[4]! + damping * leverA;
  schur[8] = schur[8]! + damping * leverB;
  for (let p = 0; p < 3; p++) schurRight[p] = -cornerGradient[p]!;
  // Border: the column of h is full; those of the clocks touch only the two points next to their end.
  let r0 = 0;
  let s00 = 0;
  let s01 = 0;
  let s02 = 0;
  for (let at = 0; at < count * BORDER; at += BORDER) {
    const b = right[at + 1]!;
    r0 += b * solved[at]!;
    s00 += b * solved[at + 1]!;
    s01 += b * solved[at + 2]!;
    s02 += b * solved[at + 3]!;
  }
  schurRight[0] = schurRight[0]! - r0;
  schur[0] = schur[0]! - s00;
  schur[3] = schur[3]! - s01;
  schur[6] = schur[6]! - s02;
  for (let p = 1; p < 3; p++) {
    const from = p === 1 ? 0 : Math.max(0, count - 6);
    for (let i = from; i < Math.min(count, from + 6); i++) {
      const at = i * BORDER;
      const b = right[at + 1 + p]!;
      schurRight[p] = schurRight[p]! - b * solved[at]!;
      for (let q = 1; q <= p; q++) schur[3 * p + q] = schur[3 * p + q]! - b * solved[at + 1 + q]!;
    }
  }
  if (leverA <= 0) freezeCorner(1);
  if (leverB <= 0) freezeCorner(2);
  if (!solveCorner(schur, schurRight, step3)) return false;
  const h = step3[0]!;
  const a = step3[1]!;
  const b = step3[2]!;
  for (let i = 0; i < count; i++) {
    const at = i * BORDER;
    step[i + 3] = solved[at]! - solved[at + 1]! * h - solved[at + 2]! * a - solved[at + 3]! * b;
  }
  for (let k = 0; k < 3; k++) {
    step[k] = a * state.endA[3 + k]!;
    step[3 * n + k] = b * state.endB[3 + k]!;
  }
  return true;
}

const NEAR_WALL = 0.98; // how much of a reserve one step may use up

/** Longest part of the step (at most 1) that leaves every reserve positive and turns no clock too far. */
function primalRoom(limits: number, space: Space, h: number): number {
  const { s, g } = space.state;
  let room = Math.min(
    1,
    0.5 / Math.max(Math.abs(step3[1]!), Math.abs(step3[2]!), 1e-9),
    (0.3 * h) / Math.max(Math.abs(step3[0]!), 1e-9),
  );
  for (let j = 0; j < limits; j++) {
    const ds = -(g[j]! + s[j]!) - space.dg[j]!;
    if (ds < 0 && -NEAR_WALL * s[j]! > room * ds) room = (-NEAR_WALL * s[j]!) / ds;
  }
  return room;
}

/** Merit of a state: cost, barrier, and breaches weighed above their multipliers. */
function meritOf(n: number, limits: number, s: State, mu: number, weigh: Weighing): number {
  let barrier = 0;
  let product = 1;
  let spacing = 0;
  let bends = 0;
  let slack = 0;
  for (let i = 0; i < n; i++) spacing += Math.abs(s.c[i]!);
  for (let j = 0; j < limits; j++) {
    product *= s.s[j]!;
    if (product < 1e-200 || product > 1e200) {
      barrier += Math.log(product);
      product = 1;
    }
    const breach = Math.abs(s.g[j]! + s.s[j]!);
    if (j <= n) bends += breach;
    else slack += breach;
  }
  barrier += Math.log(product);
  return s.cost - mu * barrier + weigh.spacing * spacing + weigh.bends * bends + weigh.slack * slack;
}

interface Weighing {
  spacing: number;
  bends: number;
  slack: number;
}

function weighingOf(n: number, limits: number, tension: Float64Array, z: Float64Array): Weighing {
  const w = { spacing: 1, bends: 0, slack: 0 };
  for (let i = 0; i < n; i++) w.spacing = Math.max(w.spacing, Math.abs(tension[i]!));
  for (let j = 0; j < limits; j++) {
    if (j <= n) w.bends = Math.max(w.bends, z[j]!);
    else w.slack = Math.max(w.slack, z[j]!);
  }
  w.spacing *= 1.5;
  w.bends *= 1.5;
  w.slack *= 1.5;
  return w;
}

/** Writes state + part * step into `other` and measures it. */
function tryStep(model: Model, limits: number, space: Space, part: number): void {
  const n = model.segments;
  const { state: s, other: o, step, dg } = space;
  o.h = s.h + part * step3[0]!;
  o.phiA = s.phiA + part * step3[1]!;
  o.phiB = s.phiB + part * step3[2]!;
  for (let i = 3; i < 3 * n; i++) o.x[i] = s.x[i]! + part * step[i]!;
  measure(model, o);
  for (let j = 0; j < limits; j++) {
    const next = s.s[j]! - part * (s.g[j]! + s.s[j]! + dg[j]!);
    o.s[j] = Math.max(next, -o.g[j]!);
  }
}

function updateMultipliers(n: number, limits: number, space: Space, mu: number, stiff: number, part: number): void {
  const { state: s, tension, z, dz, dg, dc } = space;
  for (let i = 0; i < n; i++) tension[i] = tension[i]! + part * stiff * (s.c[i]! + dc[i]!);
  let room = 1;
  for (let j = 0; j < limits; j++) {
    const change = (mu + z[j]! * (s.g[j]! + dg[j]!)) / s.s[j]!;
    dz[j] = change;
    if (change < 0 && -NEAR_WALL * z[j]! > room * change) room = (-NEAR_WALL * z[j]!) / change;
  }
  for (let j = 0; j < limits; j++) z[j] = z[j]! + room * dz[j]!;
}

/** Keeps s z within a factor of mu, so that neither runs away after a long step or at the start of a level. */
function balance(limits: number, s: State, z: Float64Array, mu: number): void {
  for (let j = 0; j < limits; j++) {
    const least = (mu * 1e-6) / s.s[j]!;
    const most = (mu * 1e6) / s.s[j]!;
    if (z[j]! < least) z[j] = least;
    else if (z[j]! > most) z[j] = most;
  }
}

export function breaches(model: Model, s: State, broken: Broken): void {
  const n = model.segments;
  broken.spacing = 0;
  broken.curvature = 0;
  broken.slack = 0;
  for (let i = 0; i < n; i++) broken.spacing = Math.max(broken.spacing, Math.abs(s.c[i]!) / s.h);
  const limits = limitCount(model);
  const scale = model.radius / (s.h * s.h);
  for (let j = 0; j < limits; j++) {
    if (j <= n)
      broken.curvature = Math.max(broken.curvature, s.g[j]! * scale); // (k R)^2 / 2 - 1/2, nearly k R - 1
    else broken.slack = Math.max(broken.slack, s.g[j]!);
  }
}

/** Sets reserves and multipliers to start a level from; multipliers already in space.z (0 where unknown) are kept. */
function startReserves(model: Model, limits: number, space: Space, mu: number, keeping: boolean): void {
  const n = model.segments;
  const { state: s, z } = space;
  const bend = (0.1 * s.h * s.h) / model.radius;
  for (let j = 0; j < limits; j++) {
    s.s[j] = keeping ? -s.g[j]! : Math.max(-s.g[j]!, j <= n ? bend : 0.5);
    const even = mu / s.s[j]!;
    z[j] = Math.min(Math.max(z[j]!, even), 1e3 * even);
  }
}

const lever = (e: PackedEnd, h: number): number =>
  e[17]! > 0 ? (e[13]! + e[16]! * e[15]!) ** 2 + (h * e[15]!) ** 2 : 0;

/** Of a refinement that keeps its limits: how often a step is shortened, the worst spacing let pass, and how still a chord must be, in barriers, before the barrier falls. */
const KEEPING_TRIES = 12;
const KEPT_SPACING = 1e-2;
const SETTLED = 0.3;

/** Whether a step left of each limit's reserve what one step may not use up, by the limits themselves; the reserves are then what is left. */
function keepsReserves(n: number, limits: number, { state, other }: Space): boolean {
  const most = KEPT_SPACING * other.h;
  for (let i = 0; i < n; i++) if (Math.abs(other.c[i]!) > Math.max(most, Math.abs(state.c[i]!))) return false;
  for (let j = 0; j < limits; j++) if (other.g[j]! > (1 - NEAR_WALL) * state.g[j]!) return false;
  for (let j = 0; j < limits; j++) other.s[j] = -other.g[j]!;
  return true;
}

/** Works one level until it converges or the count runs out. Returns the iterations used; `broken` tells how well limits are met. */
export function refineLevel(model: Model, space: Space, effort: Effort, broken: Broken): number {
  const n = model.segments;
  const limits = limitCount(model);
  const h0 = space.state.h;
  const leverA = lever(model.a, h0);
  const leverB = lever(model.b, h0);
  const stiff = 1e4 / h0;
  const lastMu = effort.lastBarrier * h0;
  let mu = effort.firstBarrier * h0;
  // A rise this small is let pass: near the end a wrong tension is mended only by steps that loosen the spacing a little.
  const allowance = 1e-5 * n * h0;
  let damping = 0.01 / h0;
  measure(model, space.state);
  breaches(model, space.state, broken);
  startReserves(model, limits, space, mu, effort.keeping);
  let iterations = 0;
  while (iterations < effort.maxIterations && !isHopeless(effort, iterations, broken)) {
    iterations++;
    assemble(model, space.state, space.system, space.tension, space.z, stiff, mu);
    if (!findStep(model, space, damping, leverA, leverB)) {
      damping *= 10;
      continue;
    }
    linearChange(model, space.state, space.step, step3[0]!, step3[1]!, step3[2]!, space.dg, space.dc);
    const weigh = weighingOf(n, limits, space.tension, space.z);
    const before = meritOf(n, limits, space.state, mu, weigh);
    const room = primalRoom(limits, space, space.state.h);
    let part = room;
    let taken = false;
    for (let tries = 0; tries < (effort.keeping ? KEEPING_TRIES : 4); tries++) {
      tryStep(model, limits, space, part);
      if (effort.keeping && !keepsReserves(n, limits, space)) {
        part *= 0.5;
        continue;
      }
      if (meritOf(n, limits, space.other, mu, weigh) < before + allowance) {
        taken = true;
        break;
      }
      part *= 0.4;
    }
    if (!taken) {
      damping = Math.max(damping * 10, 0.1 / h0);
      if (damping > 1e6 / h0) break;
      continue;
    }
    updateMultipliers(n, limits, space, mu, stiff, part);
    const was = space.state;
    space.state = space.other;
    space.other = was;
    balance(limits, space.state, space.z, mu);
    damping = part > 0.9 * room ? Math.max(damping * 0.2, 1e-7 / h0) : damping * 2;
    breaches(model, space.state, broken);
    const met =
      broken.spacing < effort.tolerance && broken.curvature < effort.tolerance && broken.slack < effort.slackTolerance;
    // Inside its limits a curve may have far to go along them: there the barrier falls only once the length has settled for it.
    const settled = !effort.keeping || Math.abs(space.state.h - space.other.h) < SETTLED * mu;
    if (met && mu <= lastMu && part > 0.5 && settled) break;
    if (part > 0.3 && settled) mu = Math.max(lastMu, mu * (part > 0.9 ? 0.15 : 0.4));
  }
  return iterations;
}
