import { bendsOf, selfGap } from './curve-measures.ts';
import { type EndPose, tailPose } from './end-pose.ts';
import { checkFinite, checkPositive } from './geometry-error.ts';
import { MAX_BODY_SAMPLES, type Model, type PackedEnd, placeEnd, steadyBody } from './refine-model.kernel.ts';
import {
  type Broken,
  type Effort,
  isHopeless,
  type Milestone,
  newSpace,
  refineLevel,
  type Space,
} from './refine.kernel.ts';
import { chordAt, polylineLength, spreadAlong } from './spread.ts';

/** Slack = distance to the nearest thing less what must be kept off it, anywhere in space. */
export interface SlackField {
  /** out[0] = slack [mm], out[1..3] = its gradient [-]. */
  slackAndGradient(x: number, y: number, z: number, out: Float64Array): void;
}

export interface NearField {
  readonly field: SlackField;
  readonly lengthMm: number;
}

export interface RefineProblem {
  readonly a: EndPose;
  readonly b: EndPose;
  /** Least radius of the centreline [mm]. */
  readonly minBendRadiusMm: number;
  /** Any polyline from A's tail to B's tail, x,y,z triples [mm]. */
  readonly seed: ArrayLike<number>;
  readonly field?: SlackField;
  /** The same more truly, for the last and finest level; `field` if not given. */
  readonly finestField?: SlackField;
  /** Near an end other limits may hold: so much of the curve from the tail on, and that end's body, reads this field. */
  readonly nearA?: NearField;
  readonly nearB?: NearField;
  /** Slack wanted of the centreline [mm]; usually the hose's radius. */
  readonly marginMm?: number;
  /** Below `marginMm + thinMm` a slack costs `thinWeight` * (lack [mm])^2 / 2 per millimetre of hose. */
  readonly thinMm?: number;
  readonly thinWeight?: number;
  /** Spacing aimed at [mm]; 10 if not given, never above a quarter of the bend radius. */
  readonly stepMm?: number;
  /** Iterations over all levels; 240 if not given. */
  readonly maxIterations?: number;
  /** What must be reached by when, or the refinement is given up; in order of iterations. */
  readonly milestones?: readonly Milestone[];
  /** Hose diameter [mm]: given, the result tells how near the hose comes to itself. */
  readonly odMm?: number;
}

export interface Refined {
  /** Every limit is met at the points (and slack at mid-points), and the hose is not too near itself. */
  readonly ok: boolean;
  /** x,y,z triples [mm]: A's tail, end of A's straight, curve, start of B's straight, B's tail (no doubles if there is no straight). */
  readonly points: Float64Array;
  /** Chord between neighbours on the curve [mm]. */
  readonly hMm: number;
  readonly phiA: number;
  readonly phiB: number;
  /** Length along the curve, arcs counted as arcs, straights included [mm]. */
  readonly lengthMm: number;
  /** Greatest curvature [1/mm]. */
  readonly worstCurvature: number;
  /** Least slack less the margin wanted, at points and mid-points [mm]; Infinity without a field. */
  readonly worstSlackMm: number;
  /** Least distance from itself less the diameter, of places over half a turn apart [mm]; Infinity if not asked or short. */
  readonly selfGapMm: number;
  readonly iterations: number;
  /** Worst of the relative breaches of spacing and curvature, and slack lacking over margin 1 mm. */
  readonly residual: number;
}

// Limits are aimed at a hair tighter than asked, and met to that hair, so that the answer keeps what was asked to the letter.
const TOLERANCE = 1e-4;
const SLACK_TOLERANCE_MM = 0.01;
const RADIUS_HAIR = 1 + 2 * TOLERANCE;
const MOST_SEGMENTS = 2000;
let space: Space = newSpace(64);

/**
 * Shortest curve of bounded curvature from A to B near a seed, clear of the field; budgets are counts, so it repeats exactly.
 *
 * @throws GeometryError where a radius, step, end or seed is not a finite number
 */
export function refined(problem: RefineProblem): Refined {
  const radius = problem.minBendRadiusMm * RADIUS_HAIR;
  const a = packedEnd(problem.a);
  const b = packedEnd(problem.b);
  const tails = [tailPose(problem.a, problem.a.phiRad).point, tailPose(problem.b, problem.b.phiRad).point] as const;
  const step = Math.min(problem.stepMm ?? 10, radius / 4);
  let curve = seedCurve(problem, a, b, tails);
  checkPositive('least bend radius', radius);
  checkPositive('step of a refinement', step);
  checkFinite('ends and seed of a refinement', curve);
  let length = polylineLength(curve);
  const steps = levelSteps(step, radius, length);
  const broken: Broken = { spacing: Infinity, curvature: Infinity, slack: Infinity };
  const budget = problem.maxIterations ?? 240;
  let iterations = 0;
  let phiA = problem.a.phiRad;
  let phiB = problem.b.phiRad;
  let carry: Carry | null = null;
  let n = 0;
  for (let l = 0; l < steps.length; l++) {
    const last = l === steps.length - 1;
    n = Math.min(MOST_SEGMENTS, Math.max(4, Math.ceil(length / steps[l]!)));
    if (n > space.capacity) space = newSpace(Math.ceil(n * 1.5));
    const field = (last ? problem.finestField : undefined) ?? problem.field ?? null;
    const model = modelOf(problem, radius, n, length / n, a, b, field);
    const effort: Effort = {
      tolerance: last ? TOLERANCE : 20 * TOLERANCE,
      slackTolerance: last ? SLACK_TOLERANCE_MM : 0.5,
      maxIterations: last ? budget - iterations : Math.min(60, budget - iterations),
      firstBarrier: l === 0 ? 0.1 : 0.01,
      lastBarrier: last ? 1e-5 : 1e-3,
      iterationsBefore: iterations,
      milestones: problem.milestones ?? [],
    };
    startLevel(space, n, curve, length / n, phiA, phiB, carry);
    const used = refineLevel(model, space, effort, broken);
    iterations += used;
    const { state } = space;
    phiA = state.phiA;
    phiB = state.phiB;
    if (last || isHopeless(effort, used, broken)) break;
    carry = carryOf(space, n);
    curve = smoothed(state.x, n);
    length = polylineLength(curve);
  }
  return resultOf(problem, n, a, b, broken, iterations);
}

function modelOf(
  problem: RefineProblem,
  radius: number,
  segments: number,
  h: number,
  a: PackedEnd,
  b: PackedEnd,
  field: SlackField | null,
): Model {
  const fieldA = problem.nearA?.field ?? null;
  const fieldB = problem.nearB?.field ?? null;
  const samplesA = samplesOf(problem.a);
  const samplesB = samplesOf(problem.b);
  return {
    segments,
    radius,
    margin: (problem.marginMm ?? 0) + SLACK_TOLERANCE_MM,
    thin: problem.thinMm ?? 0,
    thinWeight: problem.thinWeight ?? 0,
    field,
    fieldA,
    fieldB,
    placesA: placesNear(problem.nearA, problem.a, h),
    placesB: placesNear(problem.nearB, problem.b, h),
    a,
    b,
    samplesA,
    samplesB,
    steadyA: steadyBody(a, samplesA, fieldA ?? field),
    steadyB: steadyBody(b, samplesB, fieldB ?? field),
  };
}

function packedEnd(end: EndPose): PackedEnd {
  const out = new Float64Array(18);
  out.set(end.origin, 0);
  out.set(end.axis, 3);
  out.set(end.up, 6);
  out.set(end.right, 9);
  out[12] = end.riseMm;
  out[13] = end.offsetMm;
  out[14] = Math.cos(end.angleRad);
  out[15] = Math.abs(Math.sin(end.angleRad)) < 1e-12 ? 0 : Math.sin(end.angleRad);
  out[16] = end.straightMm;
  out[17] = end.free ? 1 : 0;
  return out;
}

/** Points and mid-points of the curve within reach of an end's own field. */
function placesNear(near: NearField | undefined, end: EndPose, h: number): number {
  return near && near.lengthMm >= end.straightMm ? 1 + Math.floor((2 * (near.lengthMm - end.straightMm)) / h) : 0;
}

const NO_SAMPLES = new Float64Array(0);
const samplesOf = (end: EndPose): Float64Array => (end.bodySamples ?? NO_SAMPLES).subarray(0, 3 * MAX_BODY_SAMPLES);

/** From coarse to fine, each twice as fine as the one before; the coarsest still has some points a bend. */
function levelSteps(step: number, radius: number, length: number): number[] {
  const steps = [step];
  const coarsest = Math.min(Math.max(radius / 2.5, 10), length / 6);
  while (steps[0]! * 2 <= coarsest) steps.unshift(steps[0]! * 2);
  return steps;
}

const scratchEnd = new Float64Array(18);

/** How far a start runs straight on at its ends, in bend radii: from a seed that doubles back at a tail it may never unfold. */
const LEAD = 0.8;

/** The seed with its beginnings replaced by the two straights' ends and a little straight on from each. */
function seedCurve(
  problem: RefineProblem,
  a: PackedEnd,
  b: PackedEnd,
  tails: readonly [readonly number[], readonly number[]],
): Float64Array {
  const { seed } = problem;
  const out: number[] = [];
  placeEnd(a, problem.a.phiRad, scratchEnd);
  out.push(scratchEnd[0]!, scratchEnd[1]!, scratchEnd[2]!);
  const between = Math.max(polylineLength(seed) - a[16]! - b[16]!, 0.2 * problem.minBendRadiusMm);
  const lead = Math.min(LEAD * problem.minBendRadiusMm, between / 4);
  for (let k = 0; k < 3; k++) out.push(scratchEnd[k]! + lead * scratchEnd[6 + k]!);
  placeEnd(b, problem.b.phiRad, scratchEnd);
  for (let i = 0; i + 2 < seed.length; i += 3) {
    const p: [number, number, number] = [seed[i]!, seed[i + 1]!, seed[i + 2]!];
    const fromA = Math.hypot(p[0] - tails[0][0]!, p[1] - tails[0][1]!, p[2] - tails[0][2]!);
    const fromB = Math.hypot(p[0] - tails[1][0]!, p[1] - tails[1][1]!, p[2] - tails[1][2]!);
    const early = i * 2 < seed.length;
    if ((early ? fromA : fromB) > (early ? a[16]! : b[16]!) + lead) out.push(...p);
  }
  for (let k = 0; k < 3; k++) out.push(scratchEnd[k]! + lead * scratchEnd[6 + k]!);
  out.push(scratchEnd[0]!, scratchEnd[1]!, scratchEnd[2]!);
  return Float64Array.from(out);
}

/** The points with a mid-point between each two, by the four-point rule (exact for cubics), so that doubling keeps bends round. */
function smoothed(x: Float64Array, n: number): Float64Array {
  const out = new Float64Array(3 * (2 * n + 1));
  for (let i = 0; i <= n; i++) {
    for (let k = 0; k < 3; k++) {
      out[6 * i + k] = x[3 * i + k]!;
      if (i === n) continue;
      const p = x[3 * i + k]!;
      const q = x[3 * i + 3 + k]!;
      const inner = i > 0 && i < n - 1;
      out[6 * i + 3 + k] = inner ? (9 * (p + q) - x[3 * i - 3 + k]! - x[3 * i + 6 + k]!) / 16 : (p + q) / 2;
    }
  }
  return out;
}

/** Multipliers of a level, as densities that mean the same at any spacing. */
interface Carry {
  readonly n: number;
  readonly tension: Float64Array;
  readonly bends: Float64Array;
  readonly places: Float64Array;
  readonly bodies: Float64Array;
}

function carryOf(s: Space, n: number): Carry {
  const { h } = s.state;
  return {
    n,
    tension: s.tension.slice(0, n),
    bends: s.z.slice(0, n + 1).map((m) => m * h),
    places: s.z.slice(n + 1, 3 * n + 2).map((p) => p / h),
    bodies: s.z.slice(3 * n + 2, 3 * n + 2 + 2 * MAX_BODY_SAMPLES),
  };
}

function startLevel(
  s: Space,
  n: number,
  curve: Float64Array,
  h: number,
  phiA: number,
  phiB: number,
  carry: Carry | null,
): void {
  s.state.h = h;
  s.state.phiA = phiA;
  s.state.phiB = phiB;
  spreadAlong(curve, n, s.state.x);
  s.z.fill(0);
  for (let i = 0; i < n; i++) s.tension[i] = carry ? between(carry.tension, ((i + 0.5) / n) * carry.n - 0.5) : 1;
  if (!carry) return;
  for (let i = 0; i <= n; i++) s.z[i] = between(carry.bends, (i / n) * carry.n) / h;
  for (let i = 0; i <= 2 * n; i++) s.z[n + 1 + i] = between(carry.places, (i / n) * carry.n) * h;
  s.z.set(carry.bodies, 3 * n + 2);
}

function between(values: Float64Array, at: number): number {
  const i = Math.min(Math.max(0, Math.floor(at)), values.length - 2);
  const t = Math.min(Math.max(at - i, 0), 1);
  return values[i]! * (1 - t) + values[i + 1]! * t;
}

function resultOf(
  problem: RefineProblem,
  n: number,
  a: PackedEnd,
  b: PackedEnd,
  broken: Broken,
  iterations: number,
): Refined {
  const { state } = space;
  const curve = state.x.slice(0, 3 * (n + 1));
  const bends = bendsOf(curve, state.endA, state.endB);
  let worst = 0;
  let length = problem.a.straightMm + problem.b.straightMm;
  for (let i = 0; i <= n; i++) worst = Math.max(worst, bends[i]!);
  for (let i = 0; i < n; i++) {
    const chord = chordAt(curve, i);
    const bend = (bends[i]! + bends[i + 1]!) / 2;
    length += chord * (1 + (bend * chord) ** 2 / 24);
  }
  const points = withStraights(curve, state.endA, state.endB, a[16]!, b[16]!);
  const selfGapMm =
    problem.odMm === undefined ? Infinity : selfGap(curve, state.h, problem.minBendRadiusMm) - problem.odMm;
  const curvature = worst * problem.minBendRadiusMm - 1;
  const ok =
    Number.isFinite(length) &&
    broken.spacing <= TOLERANCE &&
    curvature <= 0 &&
    broken.slack <= SLACK_TOLERANCE_MM &&
    selfGapMm >= 0;
  return {
    ok,
    points,
    hMm: state.h,
    phiA: state.phiA,
    phiB: state.phiB,
    lengthMm: length,
    worstCurvature: worst,
    worstSlackMm: problem.field ? worstSlack(problem, n) : Infinity,
    selfGapMm,
    iterations,
    residual: Math.max(broken.spacing, curvature, broken.slack, 0),
  };
}

function worstSlack(problem: RefineProblem, n: number): number {
  let least = Infinity;
  const limits = 3 * n + 2 + (samplesOf(problem.a).length + samplesOf(problem.b).length) / 3;
  for (let j = n + 1; j < limits; j++) least = Math.min(least, -space.state.g[j]! + SLACK_TOLERANCE_MM);
  return least;
}

function withStraights(
  x: Float64Array,
  endA: Float64Array,
  endB: Float64Array,
  straightA: number,
  straightB: number,
): Float64Array {
  const before = straightA > 0 ? 3 : 0;
  const out = new Float64Array(before + x.length + (straightB > 0 ? 3 : 0));
  out.set(x, before);
  for (let k = 0; k < 3; k++) {
    if (before) out[k] = endA[k]! - straightA * endA[6 + k]!;
    if (straightB > 0) out[before + x.length + k] = endB[k]! - straightB * endB[6 + k]!;
  }
  return out;
}
