import type { Vec } from '#geometry';
import type { Clearance } from './clearance.ts';
import { type Laid, type Lay, type RodPose, hungRod } from './hung-rod.ts';

/** One end of such a hose at a clock. */
export interface SettleEnd {
  /** Where the hose begins or ends to bend, and the direction of travel there. */
  readonly pose: RodPose;
  /** Places on the end's own body, and the slack wanted there beyond a hose's [mm]. */
  readonly body: readonly { readonly at: Vec; readonly wantMm: number }[];
}

/** A hose whose two clocks and length may still be moved a little. */
export interface SettleProblem {
  readonly start: (phiRad: number) => SettleEnd;
  readonly end: (phiRad: number) => SettleEnd;
  readonly turnsA: boolean;
  readonly turnsB: boolean;
  readonly phiA: number;
  readonly phiB: number;
  /** Length of the curve part to start from [mm], and any polyline near its shape. */
  readonly lengthMm: number;
  readonly laid: Float64Array;
  /** Straight hose beyond the curve [mm]: it gets shorter too. */
  readonly straightsMm: number;
  readonly minBendRadiusMm: number;
  readonly spare: number;
  /** Goes on for as long as it gets better at all. */
  readonly patient: boolean;
  readonly allowanceMm: readonly [number, number];
  readonly clear: Clearance;
  /** Rods that may still be worked out; counted down. */
  readonly budget: { rods: number };
}

export interface Settled {
  readonly phiA: number;
  readonly phiB: number;
  readonly lengthMm: number;
  /** The shape at that length. */
  readonly nominal: Float64Array;
}

/** Room wanted beyond the limits while settling: clocks are rounded afterwards, lengths to the cut [mm]. */
const ROOM_MM = 0.8;
const BODY_ROOM_MM = 0.3;
const RADIUS_ROOM = 1.015;
/** What a bend too tight weighs against a lack of room: a tenth too tight counts as this many mm. */
const BEND_WEIGHT_MM = 60;
/** A rod from a shape near by settles in a few rounds: what it counts against one from scratch. */
const WARM_ROD = 0.25;
/** Steps for slopes. */
const TURN_STEP = 0.02;
const LENGTH_STEP_MM = 1.5;
/** Farthest moved in one go. */
const MOST_TURN = 0.35;
const MOST_LENGTH_SHARE = 0.06;
const ROUNDS = 9;
const PATIENT_ROUNDS = 24;
const SLOW_PATIENT = 0.97;
/** Sum of squared lacks [mm2] that is left to rounding; and one at which the room asked for may well make it up. */
const DONE = 0.02;
const WORTH_A_LOOK = 20;
/** Gives up where a round leaves more than this share: far off its limits sooner than close to them. */
const SLOW = 0.9;
const SLOW_FAR = 0.75;
const FAR = 500;

interface Look {
  readonly lacks: Float64Array;
  readonly sum: number;
  readonly shapes: readonly Laid[];
}

type Unknowns = readonly [phiA: number, phiB: number, lengthMm: number];

/**
 * Clocks and length at which the hose, as it hangs over its allowance, keeps its limits: least squares of what it lacks, by
 * damped Gauss-Newton steps on these three. Null if it does not get there.
 */
export function settledHose(problem: SettleProblem): Settled | null {
  let x: Unknowns = [problem.phiA, problem.phiB, problem.lengthMm];
  let look = lookAt(problem, x, [{ points: problem.laid }]);
  let damping = 1e-2;
  for (let round = 0; look !== null && round < (problem.patient ? PATIENT_ROUNDS : ROUNDS); round++) {
    if (look.sum < DONE) return { phiA: x[0], phiB: x[1], lengthMm: x[2], nominal: look.shapes[0]!.points };
    const slopes = slopesAt(problem, x, look);
    const before = look.sum;
    for (let tries = 0; tries < 3; tries++) {
      const next = moved(problem, x, stepOf(slopes, look.lacks, damping));
      const there = lookAt(problem, next, look.shapes);
      if (there !== null && there.sum < look.sum) {
        [x, look] = [next, there];
        damping *= 0.3;
        break;
      }
      damping *= 8;
    }
    if (
      problem.budget.rods <= 0 ||
      look.sum > (problem.patient ? SLOW_PATIENT : before > FAR ? SLOW_FAR : SLOW) * before
    )
      break;
  }
  if (look === null || look.sum >= WORTH_A_LOOK) return null;
  return { phiA: x[0], phiB: x[1], lengthMm: x[2], nominal: look.shapes[0]!.points };
}

const LAYS: readonly (readonly [which: 0 | 1, lay: Lay])[] = [
  [0, 'as laid'],
  [1, 'as laid'],
  [1, 'sagging'],
];

/** What the hose lacks in every shape, from shapes near by. */
function lookAt(problem: SettleProblem, [phiA, phiB, lengthMm]: Unknowns, near: readonly Laid[]): Look | null {
  const start = problem.start(phiA);
  const end = problem.end(phiB);
  const shapes: Laid[] = [];
  const lacks: number[] = [];
  const out = new Float64Array(4);
  const bend = (radiusMm: number): number =>
    BEND_WEIGHT_MM * Math.max(0, (RADIUS_ROOM * problem.minBendRadiusMm) / radiusMm - 1);
  const shortMm = lengthMm - problem.spare * (lengthMm + problem.straightsMm);
  const lays: readonly (readonly [number, Lay, boolean])[] = [
    ...LAYS.map(([which, lay]): readonly [number, Lay, boolean] => [lengthMm + problem.allowanceMm[which], lay, true]),
    [shortMm, 'as laid', false],
  ];
  for (const [i, [length, lay, clearToo]] of lays.entries()) {
    problem.budget.rods -= WARM_ROD;
    const rod = hungRod(start.pose, end.pose, length, near[i] ?? near[0]!, lay);
    if (!rod.ok) return null;
    shapes.push(rod);
    lacks.push(bend(rod.leastRadiusMm));
    if (!clearToo) continue;
    for (let k = 0; k < PLACES; k++) {
      const at = 3 * Math.round((k * (rod.points.length / 3 - 1)) / (PLACES - 1));
      problem.clear.closely(rod.points[at]!, rod.points[at + 1]!, rod.points[at + 2]!, out);
      lacks.push(Math.max(0, ROOM_MM - out[0]!));
    }
  }
  for (const { at, wantMm } of [...start.body, ...end.body]) {
    problem.clear.closely(...at, out);
    lacks.push(Math.max(0, wantMm + BODY_ROOM_MM - out[0]!));
  }
  const all = Float64Array.from(lacks);
  return { lacks: all, sum: all.reduce((sum, v) => sum + v * v, 0), shapes };
}

/** Places looked at along each shape, always as many. */
const PLACES = 64;

/** Change of every lack with each unknown; null for one that cannot be moved. */
function slopesAt(problem: SettleProblem, x: Unknowns, look: Look): (Float64Array | null)[] {
  const may = [problem.turnsA, problem.turnsB, true];
  return [0, 1, 2].map((k) => {
    if (!may[k]) return null;
    const size = k === 2 ? LENGTH_STEP_MM : TURN_STEP;
    for (const step of [size, -size]) {
      const there = lookAt(problem, x.map((v, i) => (i === k ? v + step : v)) as unknown as Unknowns, look.shapes);
      if (there !== null) return there.lacks.map((v, i) => (v - look.lacks[i]!) / step);
    }
    return null;
  });
}

/** (J'J + damping diag) step = -J' lacks, by elimination; 3 x 3. */
function stepOf(slopes: readonly (Float64Array | null)[], lacks: Float64Array, damping: number): number[] {
  const used = [0, 1, 2].filter((k) => slopes[k] !== null && norm2(slopes[k]!) > 1e-18);
  const rows = used.map((i) => [
    ...used.map((j) => dotOf(slopes[i]!, slopes[j]!) * (i === j ? 1 + damping : 1)),
    -dotOf(slopes[i]!, lacks),
  ]);
  for (let i = 0; i < rows.length; i++)
    for (let j = 0; j < rows.length; j++) {
      if (j === i) continue;
      const share = rows[j]![i]! / rows[i]![i]!;
      for (let c = i; c <= rows.length; c++) rows[j]![c]! -= share * rows[i]![c]!;
    }
  const step = [0, 0, 0];
  for (const [n, k] of used.entries()) step[k] = rows[n]![rows.length]! / rows[n]![n]!;
  return step;
}

const dotOf = (a: Float64Array, b: Float64Array): number => a.reduce((sum, v, i) => sum + v * b[i]!, 0);
const norm2 = (a: Float64Array): number => dotOf(a, a);

function moved(problem: SettleProblem, x: Unknowns, step: readonly number[]): Unknowns {
  const mostMm = MOST_LENGTH_SHARE * problem.lengthMm;
  const share = Math.min(
    1,
    MOST_TURN / Math.max(1e-12, Math.abs(step[0]!)),
    MOST_TURN / Math.max(1e-12, Math.abs(step[1]!)),
    mostMm / Math.max(1e-12, Math.abs(step[2]!)),
  );
  return [x[0] + share * step[0]!, x[1] + share * step[1]!, x[2] + share * step[2]!];
}
