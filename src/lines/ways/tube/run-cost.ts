import { type Vec, addScaled, dot, scale } from '#geometry';
import type { RunProblem } from './run-problem.ts';
import { type Corners, type TubeRun, STRAIGHT_RAD, bendSide, tubeRun } from './tube-run.ts';

/** What a bend counts against a longer tube [mm]: marking, turning, bending, and one more place to go wrong. */
export const BEND_COST_MM = 40;

/** Weights of what a run lacks, a millimetre of length each; high enough that no shortcut pays for them. */
const STRAIGHT_WEIGHT = 60;
const SLACK_WEIGHT = 3;
const FALL_WEIGHT = 20;
const SELF_WEIGHT = 30;
const ANGLE_WEIGHT_MM = 2000;
/** Along a straight the next place looked at is this share of the slack further on, within these steps [mm]. */
const STRIDE = 0.6;
const LEAST_STEP_MM = 5;
const MOST_STEP_MM = 40;
const ARC_STEP_MM = 8;
/** A falling line falls at least this much of its length, so that it does when it is bent a little wrong. */
const FALL_SHARE = 0.035;
/** Straights and angles are planned a little inside their limits. */
const RESERVE_MM = 0.3;

export interface RunCost {
  /** Length, bends, and what is lacking [mm]; what a search makes least. */
  readonly total: number;
  readonly lengthMm: number;
  /** Every limit is kept, by the field's reading; not all of the margin. */
  readonly ok: boolean;
  readonly lacks: RunLacks;
}

/** How far a run misses its limits. */
export interface RunLacks {
  /** Straights too short, together [mm]. */
  readonly straightMm: number;
  /** Bends too far, together [rad]. */
  readonly angleRad: number;
  /** Slack missing times length [mm mm], and the least slack [mm] with its place. */
  readonly slackArea: number;
  readonly leastSlackMm: number;
  readonly leastAt: Vec;
  /** How much nearer to each other two legs come than the tube is wide [mm]. */
  readonly selfMm: number;
  /** Rise against the fall, together [mm]. */
  readonly fallMm: number;
}

/** What a run of corners costs and lacks. */
export function runCost(problem: RunProblem, corners: Corners): RunCost {
  const run = tubeRun(corners, problem.radiusMm);
  const bends = run.bendsRad.filter((a) => a > STRAIGHT_RAD).length;
  const straightMm = straightLack(problem, run);
  const most = (problem.mostBendDeg * Math.PI) / 180;
  const angleRad = run.bendsRad.reduce((sum, a) => sum + Math.max(0, a - most), 0);
  const fallMm = fallLack(problem, corners);
  const sampled = slackLack(problem, corners, run);
  const selfMm = selfLack(problem, corners);
  const lacks = { straightMm, angleRad, fallMm, selfMm, ...sampled };
  const lacking =
    STRAIGHT_WEIGHT * straightMm +
    SELF_WEIGHT * selfMm +
    ANGLE_WEIGHT_MM * angleRad +
    FALL_WEIGHT * fallMm +
    SLACK_WEIGHT * sampled.slackArea;
  const total = run.lengthMm + BEND_COST_MM * bends + lacking;
  return {
    total,
    lengthMm: run.lengthMm,
    ok: lacking - SLACK_WEIGHT * sampled.slackArea < OK && sampled.leastSlackMm > Math.min(CLEAR_MM, problem.marginMm),
    lacks,
  };
}

const OK = 1e-6;
/** The margin is what a run is planned for; where an end leaves less, this much will do until the true bodies are judged [mm]. */
const CLEAR_MM = 0.3;

function straightLack(problem: RunProblem, { straightsMm, along }: TubeRun): number {
  const last = straightsMm.length - 1;
  const backMm =
    (dot(along[0]!, problem.start.along) < 0 ? BACK_MM : 0) + (dot(along[last]!, problem.end.along) < 0 ? BACK_MM : 0);
  return straightsMm.reduce((sum, s, i) => {
    const want = Math.max(
      i === 0 ? problem.startMm : 0,
      i === last ? problem.endMm : 0,
      i > 0 && i < last ? problem.betweenMm + RESERVE_MM : 0,
    );
    return sum + Math.max(0, want - s - (i === 0 || i === last ? KNOWN_MM : 0));
  }, backMm);
}

/** A leg that leaves an end backwards is no leg [mm]. */
const BACK_MM = 500;

/** Straights at the ends are exact where an end has no bend to spare. */
const KNOWN_MM = 1e-3;

function fallLack({ fall }: RunProblem, corners: Corners): number {
  if (fall === null) return 0;
  let lack = 0;
  for (const down of fall.downs) {
    const on = scale(down, fall.sense);
    for (let i = 1; i < corners.length; i++) {
      const leg: Vec = [
        corners[i]![0] - corners[i - 1]![0],
        corners[i]![1] - corners[i - 1]![1],
        corners[i]![2] - corners[i - 1]![2],
      ];
      lack += Math.max(0, FALL_SHARE * Math.hypot(...leg) - dot(leg, on));
    }
  }
  return lack;
}

/** Legs with another between must stand a diameter apart; those beside each other meet in a bend. */
function selfLack({ odMm }: RunProblem, corners: Corners): number {
  let lack = 0;
  for (let i = 0; i + 1 < corners.length; i++)
    for (let j = i + 2; j + 1 < corners.length; j++) {
      const gap = legsApart(corners[i]!, corners[i + 1]!, corners[j]!, corners[j + 1]!);
      lack += Math.max(0, odMm - gap);
    }
  return lack;
}

/** Distance between two segments: the closest points of their lines, held to the segments in turn. */
export function legsApart(a: Vec, b: Vec, c: Vec, d: Vec): number {
  const u: Vec = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const v: Vec = [d[0] - c[0], d[1] - c[1], d[2] - c[2]];
  const w: Vec = [a[0] - c[0], a[1] - c[1], a[2] - c[2]];
  const [uu, uv, vv, uw, vw] = [dot(u, u), dot(u, v), dot(v, v), dot(u, w), dot(v, w)];
  const held = (t: number): number => Math.max(0, Math.min(1, t));
  const n = uu * vv - uv * uv;
  let s = n <= FLAT * uu * vv ? 0 : held((uv * vw - vv * uw) / n);
  const t = held((uv * s + vw) / Math.max(vv, FLAT));
  s = held((uv * t - uw) / Math.max(uu, FLAT));
  return Math.hypot(w[0] + u[0] * s - v[0] * t, w[1] + u[1] * s - v[1] * t, w[2] + u[2] * s - v[2] * t);
}

/** A leg that turns further than this folds back on the one before: its bend would lie metres off, there is nothing to look at [rad]. */
const FOLDED_RAD = 3.1;

/** Legs this near to parallel have their distance everywhere. */
const FLAT = 1e-12;

class Sampler {
  area = 0;
  least = Number.POSITIVE_INFINITY;
  leastAt: Vec = [0, 0, 0];
  private readonly problem: RunProblem;
  private readonly lengthMm: number;

  constructor(problem: RunProblem, lengthMm: number) {
    this.problem = problem;
    this.lengthMm = lengthMm;
  }

  /** Slack at a place so far along; counted for `stepMm` of length. */
  look(x: number, y: number, z: number, along: number, stepMm: number): number {
    const { clear, marginMm, stout } = this.problem;
    const isStout = along < stout.startMm || along > this.lengthMm - stout.endMm;
    const slack = clear.slack(x, y, z) - (isStout ? stout.byMm : 0);
    if (slack < this.least) {
      this.least = slack;
      this.leastAt = [x, y, z];
    }
    const lack = marginMm - slack;
    if (lack > 0) this.area += lack * stepMm;
    return slack;
  }
}

function slackLack(
  problem: RunProblem,
  corners: Corners,
  run: TubeRun,
): Pick<RunLacks, 'slackArea' | 'leastSlackMm' | 'leastAt'> {
  const sampler = new Sampler(problem, run.lengthMm);
  let along = 0;
  run.along.forEach((d, i) => {
    const tangent = i === 0 ? 0 : problem.radiusMm * Math.tan(run.bendsRad[i - 1]! / 2);
    const straight = Math.max(0, run.straightsMm[i]!);
    along = alongStraight(sampler, addScaled(corners[i]!, d, tangent), d, straight, along);
    const angle = run.bendsRad[i] ?? 0;
    if (angle > STRAIGHT_RAD && angle < FOLDED_RAD)
      along = alongArc(sampler, problem.radiusMm, corners[i + 1]!, d, run.along[i + 1]!, angle, along);
  });
  const end = corners.at(-1)!;
  sampler.look(end[0], end[1], end[2], run.lengthMm, 0);
  return { slackArea: sampler.area, leastSlackMm: sampler.least, leastAt: sampler.leastAt };
}

function alongStraight(sampler: Sampler, from: Vec, d: Vec, lengthMm: number, before: number): number {
  let s = 0;
  while (s < lengthMm) {
    const slack = sampler.look(
      from[0] + d[0] * s,
      from[1] + d[1] * s,
      from[2] + d[2] * s,
      before + s,
      Math.min(LEAST_STEP_MM, lengthMm - s),
    );
    s += Math.max(LEAST_STEP_MM, Math.min(MOST_STEP_MM, slack * STRIDE));
  }
  return before + lengthMm;
}

function alongArc(
  sampler: Sampler,
  radiusMm: number,
  corner: Vec,
  d: Vec,
  next: Vec,
  angle: number,
  before: number,
): number {
  const side = bendSide(d, next);
  const from = addScaled(corner, d, -radiusMm * Math.tan(angle / 2));
  const length = radiusMm * angle;
  const steps = Math.max(2, Math.ceil(length / ARC_STEP_MM));
  for (let n = 0; n < steps; n++) {
    const a = (angle * n) / steps;
    const f = radiusMm * Math.sin(a);
    const g = radiusMm * (1 - Math.cos(a));
    sampler.look(
      from[0] + d[0] * f + side[0] * g,
      from[1] + d[1] * f + side[1] * g,
      from[2] + d[2] * f + side[2] * g,
      before + a * radiusMm,
      length / steps,
    );
  }
  return before + length;
}
