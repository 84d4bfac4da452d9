import { bendsOf, selfGap } from './curve-measures.ts';
import { type EndPose, tailPose } from './end-pose.ts';
import { checkFinite, checkPositive } from './geometry-error.ts';
import {
  limitCount,
  MAX_BODY_SAMPLES,
  measure,
  type Model,
  type PackedEnd,
  steadyBody,
} from './refine-model.kernel.ts';
import {
  type Broken,
  type Effort,
  isHopeless,
  type Milestone,
  newSpace,
  refineLevel,
  type Space,
} from './refine.kernel.ts';
import { type Carry, carryOf, seedCurve, smoothed, startLevel } from './refine-start.ts';
import { chordAt, polylineLength } from './spread.ts';

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
  /** How truly spacing and radius are met, relative; 1e-4 if not given. The radius aimed at is larger by twice that. */
  readonly tolerance?: number;
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
const MOST_SEGMENTS = 2000;
let space: Space = newSpace(64);

/**
 * Shortest curve of bounded curvature from A to B near a seed, clear of the field; budgets are counts, so it repeats exactly.
 *
 * @throws GeometryError where a radius, step, end or seed is not a finite number
 */
export function refined(problem: RefineProblem): Refined {
  const tolerance = problem.tolerance ?? TOLERANCE;
  const radius = problem.minBendRadiusMm * (1 + 2 * tolerance);
  const a = packedEnd(problem.a);
  const b = packedEnd(problem.b);
  const tails = [tailPose(problem.a, problem.a.phiRad).point, tailPose(problem.b, problem.b.phiRad).point] as const;
  const step = Math.min(problem.stepMm ?? 10, radius / 4);
  let curve = seedCurve(problem.seed, problem.minBendRadiusMm, [a, problem.a.phiRad], [b, problem.b.phiRad], tails);
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
      tolerance: last ? tolerance : 20 * TOLERANCE,
      slackTolerance: last ? SLACK_TOLERANCE_MM : 0.5,
      maxIterations: last ? budget - iterations : Math.min(60, budget - iterations),
      firstBarrier: l === 0 ? 0.1 : 0.01,
      lastBarrier: last ? 1e-5 : 1e-3,
      iterationsBefore: iterations,
      milestones: problem.milestones ?? [],
      keeping: false,
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
  const way = resultOf(problem, n, a, b, broken, iterations);
  return way.ok ? way : (keptWay(problem, radius, step, a, b) ?? way);
}

/**
 * From a seed that keeps every limit, the shortest curve near it by steps that keep them; null where the seed does not.
 * Where a turn is short, a hair more curvature than allowed makes the curve much shorter, and there a refinement stays.
 */
function keptWay(problem: RefineProblem, radius: number, step: number, a: PackedEnd, b: PackedEnd): Refined | null {
  const length = polylineLength(problem.seed);
  const n = Math.min(MOST_SEGMENTS, Math.max(4, Math.ceil(length / step)));
  if (n > space.capacity) space = newSpace(Math.ceil(n * 1.5));
  const h = length / n;
  const model = modelOf(problem, radius, n, h, a, b, problem.finestField ?? problem.field ?? null);
  startLevel(space, n, Float64Array.from(problem.seed), h, problem.a.phiRad, problem.b.phiRad, null);
  const broken: Broken = { spacing: Infinity, curvature: Infinity, slack: Infinity };
  measure(model, space.state);
  const limits = limitCount(model);
  for (let j = 0; j < limits; j++) if (!(space.state.g[j]! < 0)) return null;
  const effort: Effort = {
    tolerance: problem.tolerance ?? TOLERANCE,
    slackTolerance: SLACK_TOLERANCE_MM,
    maxIterations: problem.maxIterations ?? 240,
    firstBarrier: 0.1,
    lastBarrier: 1e-5,
    iterationsBefore: 0,
    milestones: [],
    keeping: true,
  };
  const iterations = refineLevel(model, space, effort, broken);
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
    broken.spacing <= (problem.tolerance ?? TOLERANCE) &&
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
