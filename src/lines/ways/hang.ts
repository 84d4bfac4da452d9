import { type Vec, addScaled, distance, movedDirection, movedPoint, type RigidMotion } from '#geometry';
import { type Carrier, type EndMotions, motionOf } from './carriers.ts';
import type { Clearance } from './clearance.ts';
import type { HangProblem } from './hang-problem.ts';
import {
  type Holds,
  MOVER_SLACK_MM,
  type RodSpan,
  evenHoldsOnly,
  holdsToTry,
  moverSlack,
  spanLengths,
  sum,
} from './holds.ts';
import { type HungRod, type Lay, type RodPose, hungRod } from './hung-rod.ts';

export interface HangClamp {
  readonly at: Vec;
  readonly along: Vec;
  readonly carrier: Carrier;
}

/** The hose as it hangs. */
export interface Hung {
  /** Every limit is kept over the allowance, the stable shapes and the movement. */
  readonly ok: boolean;
  /** It reaches at every extreme of movement. */
  readonly reaches: boolean;
  readonly clamps: readonly HangClamp[];
  /** Length of the curve part of the hose as cut [mm]. */
  readonly lengthMm: number;
  /** Length of the curve part that was seen to reach and keep its radius: what the spare leaves [mm]. */
  readonly leastMm: number;
  /** How much shorter the flexible hose may get before it no longer reaches with its radius [%]. */
  readonly sparePercent: number;
  /** x,y,z of the nominal shape, from end to end of the curve. */
  readonly nominal: Float64Array;
  /** How far the other shapes that it may take where it is drawn lie from the nominal one at most [mm]: ends of the allowance, other bulges. */
  readonly spreadMm: number;
  readonly leastRadiusMm: number;
  readonly leastSlackMm: number;
  /** Least slack between a support and what moves against it, cut as short as allowed, at the worst extreme [mm]; null where none is asked. */
  readonly moverSlackMm: number | null;
  /** Longest stretch between clamps, where one that the spacing asks for was left out for the sake of slack [mm]. */
  readonly overlongMm: number | null;
  /** The nominal shape with its ends, and each clamp, carried off by what they go with. */
  readonly carried: (motions: EndMotions) => Float64Array;
}

/** The hose gets this much shorter under pressure and must still reach (length change of installed hose, AC 43.13-1B fig. 9-9). */
export const SHORTENS = 0.04;
/** Spare length tried, the full first: less only where there is no room for it. */
export const SPARES = [SHORTENS, 0.02, 0.01, 0] as const;
/** Lengths tried, as shares of the planned one: all for a hose that hangs freely, a few for each set of clamps. */
const LENGTHS = [1.002, 1.008, 1.02, 1.045, 1.07, 1.1, 1.15] as const;
const CLAMPED_LENGTHS = [1.002, 1.008, 1.03, 1.08] as const;
/** Clamps tried beyond those that the spacing asks for. */
const EXTRA_CLAMPS = [0, 1, 2, 4] as const;
/** The first so many looks are at the hose as laid. */
const AS_LAID = 2;
/** Hoses are cut to this [mm]. */
const CUT_STEP_MM = 5;
/** A rod may read this much tighter than its hose: the error of its knots. */
const RADIUS_GRACE = 0.997;
const SLACK_GRACE_MM = 0.05;

/** The hose as it hangs with its spare length and no clamps beyond those that the spacing asks for; `ok` tells whether it can. */
export const hangFree = (problem: HangProblem, spare: number = SHORTENS): Hung => hangHeld(problem, 0, LENGTHS, spare);

/** Held in the first of the ways to hold it that do. */
function hangHeld(problem: HangProblem, extra: number, lengths: readonly number[], spare: number): Hung {
  const tries = holdsToTry(problem, extra, lengths[0]!);
  let best: Hung | null = null;
  for (const [n, holds] of tries.entries()) {
    const isLast = n === tries.length - 1;
    // Far off its limits otherwise held, it is not held in more ways for the sake of slack.
    if (best !== null && !isLast && !isNearMiss(problem, best)) continue;
    const hung = hangAlong(problem, holds, lengths, spare, extra === 0);
    if (hung.ok) return hung;
    if (best === null || lack(problem, hung) < lack(problem, best)) best = hung;
    if (problem.budget.rods <= 0) break;
  }
  return best!;
}

/** The first length at which it keeps its limits, near-straight runs with their own slack first. */
function hangAlong(
  problem: HangProblem,
  holds: Holds,
  lengths: readonly number[],
  spare: number,
  isFree: boolean,
): Hung {
  const least = holds.leastShare;
  for (const share of isFree ? slackShares(problem, holds.spans) : []) {
    if (share < least) continue;
    const hung = hungWith(problem, holds, share, spare);
    if (hung.ok) return hung;
    if (problem.budget.rods <= 0) break;
  }
  const longer = lengths.filter((share) => share > least);
  return bestKept(problem, holds, longer.length === lengths.length ? lengths : [least, ...longer], spare);
}

/** A run is near straight where its ends are farther apart than this share of its free length. */
const NEAR_STRAIGHT = 0.95;
/** Slack of near-straight runs that have room (5 to 8 %, navy-14105), over the distance between their ends. */
const SLACKS = [0.05, 0.065, 0.08] as const;

/** Lengths that give a near-straight run its slack, as shares of the planned one; none for other runs. */
function slackShares(problem: HangProblem, spans: readonly RodSpan[]): number[] {
  const { leaves, arrives } = problem;
  const straightsMm = sum(problem.straightsMm);
  const plannedMm = sum(spans.map((s) => s.plannedMm));
  const tailA = addScaled(spans[0]!.from.point, leaves, -problem.straightsMm[0]);
  const tailB = addScaled(spans.at(-1)!.to.point, arrives, problem.straightsMm[1]);
  const chordMm = distance(tailA, tailB);
  if (chordMm < NEAR_STRAIGHT * (plannedMm + straightsMm)) return [];
  return SLACKS.map((slack) => (chordMm * (1 + slack) - straightsMm) / plannedMm).filter((share) => share > 1);
}

/** The hose cut to about this length of curve, with no clamps: `ok` tells whether it keeps its limits. */
export function hangAt(problem: HangProblem, lengthMm: number, spare: number = SHORTENS): Hung {
  const holds = evenHoldsOnly(problem, 0);
  const plannedMm = sum(holds.spans.map((s) => s.plannedMm));
  const besides = sum(problem.straightsMm) + problem.insertsMm;
  const cut = Math.round((lengthMm + besides) / CUT_STEP_MM) * CUT_STEP_MM;
  return bestKept(
    problem,
    holds,
    [0, CUT_STEP_MM].map((more) => (cut + more - besides + problem.allowanceMm[0]) / plannedMm),
    spare,
  );
}

/** Held to its way by as few clamps as do; `ok` tells whether it can be. */
export function hangClamped(problem: HangProblem, spare: number = SHORTENS): Hung {
  let best: Hung | null = null;
  for (const extra of EXTRA_CLAMPS.slice(1)) {
    const hung = hangHeld(problem, extra, CLAMPED_LENGTHS, spare);
    if (hung.ok) return hung;
    if (best === null || lack(problem, hung) < lack(problem, best)) best = hung;
    if (problem.budget.rods <= 0) break;
  }
  return best!;
}

/** The first length at which it keeps its limits, else the least bad; a hose far off them is not lengthened in vain. */
function bestKept(problem: HangProblem, holds: Holds, lengths: readonly number[], spare: number): Hung {
  let best: Hung | null = null;
  for (const share of lengths) {
    const hung = hungWith(problem, holds, share, spare);
    if (hung.ok) return hung;
    const worse = best !== null && lack(problem, hung) > lack(problem, best);
    if (best === null || !worse) best = hung;
    if (worse || hung.leastSlackMm < -HOPELESS_MM || problem.budget.rods <= 0) break;
  }
  return best!;
}

/** Not far off its limits: ends turned otherwise and another length may still mend it. */
export const isNearMiss = (problem: HangProblem, hung: Hung): boolean =>
  hung.reaches && hung.leastSlackMm > -NEAR_MISS_MM && hung.leastRadiusMm > NEAR_MISS_SHARE * problem.minBendRadiusMm;

const NEAR_MISS_MM = 25;
const NEAR_MISS_SHARE = 0.6;

/** Deeper than this in something, a few per cent of length do not help [mm]. */
const HOPELESS_MM = 12;

/** The least bad that can be said of a hose that keeps its limits in no way. */
export function hangLeastBad(problem: HangProblem): Hung {
  const tries = EXTRA_CLAMPS.slice(0, 2).map((extra) =>
    hungWith(problem, evenHoldsOnly(problem, extra), 1.002, SPARES.at(-1)!),
  );
  return tries.reduce((p, q) => (lack(problem, q) < lack(problem, p) ? q : p));
}

/** It has the slack that what moves asks for, or nothing asks for any. */
export const hasMoverSlack = ({ moverSlackMm }: Hung): boolean =>
  moverSlackMm === null || moverSlackMm >= MOVER_SLACK_MM - SLACK_GRACE_MM;

/** How far a hung hose is from keeping its limits; only its order counts. */
export function lack(problem: HangProblem, hung: Hung): number {
  const bend = Math.max(0, 1 - hung.leastRadiusMm / problem.minBendRadiusMm) * 100;
  return (hung.reaches ? 0 : 50) + bend + Math.max(0, -hung.leastSlackMm);
}

/** The hose at one length with one spare; looks no further than the first limit it breaks. */
function hungWith(problem: HangProblem, holds: Holds, share: number, spare: number): Hung {
  const { spans, carriers } = holds;
  const plannedMm = sum(spans.map((s) => s.plannedMm));
  const straightsMm = sum(problem.straightsMm);
  const besides = straightsMm + problem.insertsMm;
  const [less, more] = problem.allowanceMm;
  const lengthMm = Math.ceil((plannedMm * share - less + besides) / CUT_STEP_MM - 1e-6) * CUT_STEP_MM - besides;
  const shortMm = lengthMm - spare * (lengthMm + straightsMm);
  const others: Float64Array[] = [];
  const state = { leastSlackMm: Number.POSITIVE_INFINITY, leastRadiusMm: Number.POSITIVE_INFINITY, reaches: true };
  const keeps = (rod: HungRod, clearToo: boolean): boolean => {
    problem.budget.rods -= spans.length;
    state.reaches &&= rod.ok;
    state.leastRadiusMm = Math.min(state.leastRadiusMm, rod.leastRadiusMm);
    if (clearToo) state.leastSlackMm = Math.min(state.leastSlackMm, leastSlack(problem.clear, rod.points));
    return (
      rod.ok && rod.leastRadiusMm >= problem.minBendRadiusMm * RADIUS_GRACE && state.leastSlackMm >= -SLACK_GRACE_MM
    );
  };
  const laid = rodsAt(spans, lengthMm, 'as laid');
  const nominal = joinedRods(laid);
  let ok = keeps(nominal, true);
  const short = ok ? rodsAt(spans, shortMm, 'as laid') : laid;
  ok &&= keeps(joinedRods(short), false);
  const looks: readonly (() => HungRod)[] = [
    () => joinedRods(rodsAt(spans, lengthMm + less, 'as laid')),
    () => joinedRods(rodsAt(spans, lengthMm + more, 'as laid')),
    () => joinedRods(rodsAt(spans, lengthMm + more, 'sagging')),
    () => joinedRods(rodsAt(spans, lengthMm + more, 'thrown up')),
  ];
  for (const [n, look] of looks.entries()) {
    if (!ok) break;
    const rod = look();
    // A lay that does not settle is no shape the hose can stay in; as laid it must.
    if (n >= AS_LAID && !rod.ok) continue;
    ok = keeps(rod, true);
    others.push(rod.points);
  }
  for (const motions of problem.movement.extremes) {
    if (!ok) break;
    ok =
      keeps(carriedRod(holds, laid, lengthMm, motions), false) &&
      keeps(carriedRod(holds, short, shortMm, motions), false);
  }
  return {
    ...state,
    ok,
    clamps: spans
      .slice(1)
      .map((span, i) => ({ at: span.from.point, along: span.from.direction, carrier: carriers[i + 1]! })),
    lengthMm,
    leastMm: shortMm,
    sparePercent: 100 * spare,
    nominal: nominal.points,
    spreadMm: Math.max(0, ...others.map((o) => spread(nominal.points, o))),
    leastRadiusMm: ok ? nominal.leastRadiusMm : state.leastRadiusMm,
    moverSlackMm: moverSlack(problem, holds, lengthMm + less),
    overlongMm: holds.overlongMm,
    carried: (motions) => carriedRod(holds, laid, lengthMm, motions).points,
  };
}

/** Every span at its share of a total length. */
function rodsAt(spans: readonly RodSpan[], totalMm: number, lay: Lay): HungRod[] {
  const lengths = spanLengths(spans, totalMm);
  return spans.map((span, i) => hungRod(span.from, span.to, lengths[i]!, { points: span.knots }, lay));
}

/**
 * The hose with its ends and clamps carried off: a stretch whose two holds go together moves with them as it is, the others
 * find their shape anew from the one they had.
 */
function carriedRod(
  { spans, carriers }: Holds,
  rods: readonly HungRod[],
  totalMm: number,
  motions: EndMotions,
): HungRod {
  const lengths = spanLengths(spans, totalMm);
  return joinedRods(
    spans.map((span, i): HungRod => {
      const [a, b] = [motionOf(carriers[i]!, motions), motionOf(carriers[i + 1]!, motions)];
      const rod = rods[i]!;
      if (a === b) return { ...rod, points: movedPoints(rod.points, a) };
      return hungRod(movedPose(span.from, a), movedPose(span.to, b), lengths[i]!, rod, 'as laid');
    }),
  );
}

export const movedPose = (pose: RodPose, motion: RigidMotion): RodPose => ({
  point: movedPoint(motion, pose.point),
  direction: movedDirection(motion, pose.direction),
});

function movedPoints(points: Float64Array, motion: RigidMotion): Float64Array {
  const out = new Float64Array(points.length);
  for (let i = 0; i < points.length; i += 3)
    out.set(movedPoint(motion, [points[i]!, points[i + 1]!, points[i + 2]!]), i);
  return out;
}

function joinedRods(rods: readonly HungRod[]): HungRod {
  const points: number[] = [];
  for (const [i, rod] of rods.entries())
    for (let k = i === 0 ? 0 : 3; k < rod.points.length; k++) points.push(rod.points[k]!);
  return {
    ok: rods.every((r) => r.ok),
    points: Float64Array.from(points),
    leastRadiusMm: Math.min(...rods.map((r) => r.leastRadiusMm)),
  };
}

function leastSlack(clear: Clearance, points: Float64Array): number {
  const out = new Float64Array(4);
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 2 < points.length; i += 3) {
    clear.closely(points[i]!, points[i + 1]!, points[i + 2]!, out);
    least = Math.min(least, out[0]!);
  }
  return least;
}

/** Greatest distance between places at equal shares of two shapes' knots [mm]. */
function spread(p: Float64Array, q: Float64Array): number {
  const places = 24;
  let most = 0;
  for (let n = 1; n < places; n++) most = Math.max(most, distance(shareAt(p, n / places), shareAt(q, n / places)));
  return most;
}

function shareAt(points: Float64Array, share: number): Vec {
  const at = share * (points.length / 3 - 1);
  const i = Math.min(points.length / 3 - 2, Math.floor(at));
  const t = at - i;
  const mix = (k: number) => points[3 * i + k]! * (1 - t) + points[3 * i + 3 + k]! * t;
  return [mix(0), mix(1), mix(2)];
}
