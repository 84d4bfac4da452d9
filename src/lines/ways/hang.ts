import { type Vec, addScaled, distance } from '#geometry';
import { type HungRod, type Lay, type RodPose, hungRod } from './hung-rod.ts';
import type { Clearance } from './clearance.ts';

/** What hangs between two hose ends. */
export interface HangProblem {
  /** Knots of the worked-out curve, from where the hose may begin to bend to where it must be straight again: x,y,z [mm]. */
  readonly planned: Float64Array;
  /** Knots where it is led through something and held, beyond any clamp. */
  readonly held: readonly number[];
  /** Direction of travel at both ends of the curve. */
  readonly leaves: Vec;
  readonly arrives: Vec;
  /** Straight hose at both ends together, beyond the curve [mm]. */
  readonly straightsMm: number;
  /** Hose inside the two ends [mm]: the cut length comes out in whole steps. */
  readonly insertsMm: number;
  readonly minBendRadiusMm: number;
  readonly clear: Clearance;
  /** Shorter and longer than the cut length by this [mm]. */
  readonly allowanceMm: readonly [number, number];
  /** Most distance between clamps [mm]. */
  readonly clampSpacingMm: number;
  /** Ends of the curve displaced by what carries them, one per extreme; empty where both ends move together. */
  readonly extremes: readonly { readonly start: RodPose; readonly end: RodPose }[];
  /** Rods that may still be worked out for this hose; counted down. */
  readonly budget: { rods: number };
}

export interface HangClamp {
  readonly at: Vec;
  readonly along: Vec;
  /** Share of the curve's length. */
  readonly share: number;
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
  /** The other shapes it may take: ends of the allowance, other bulges, extremes of movement. */
  readonly others: readonly Float64Array[];
  /** How far the others lie from the nominal one at most [mm]. */
  readonly spreadMm: number;
  readonly leastRadiusMm: number;
  readonly leastSlackMm: number;
  /** The nominal shape with the ends of the curve carried elsewhere; clamps stay. */
  readonly carried: (start: RodPose, end: RodPose) => Float64Array;
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
export function hangFree(problem: HangProblem, spare: number = SHORTENS): Hung {
  const spans = spansOf(problem, 0);
  for (const share of slackShares(problem, spans)) {
    const hung = hungWith(problem, spans, share, spare);
    if (hung.ok) return hung;
    if (problem.budget.rods <= 0) break;
  }
  return bestKept(problem, spans, LENGTHS, spare);
}

/** A run is near straight where its ends are farther apart than this share of its free length. */
const NEAR_STRAIGHT = 0.95;
/** Slack of near-straight runs that have room (5 to 8 %, navy-14105), over the distance between their ends. */
const SLACKS = [0.05, 0.065, 0.08] as const;

/** Lengths that give a near-straight run its slack, as shares of the planned one; none for other runs. */
function slackShares(problem: HangProblem, spans: readonly RodSpan[]): number[] {
  const { leaves, arrives, straightsMm } = problem;
  const plannedMm = sum(spans.map((s) => s.plannedMm));
  const tailA = addScaled(spans[0]!.from.point, leaves, -straightsMm / 2);
  const tailB = addScaled(spans.at(-1)!.to.point, arrives, straightsMm / 2);
  const chordMm = distance(tailA, tailB);
  if (chordMm < NEAR_STRAIGHT * (plannedMm + straightsMm)) return [];
  return SLACKS.map((slack) => (chordMm * (1 + slack) - straightsMm) / plannedMm).filter((share) => share > 1);
}

/** The hose cut to about this length of curve, with no clamps: `ok` tells whether it keeps its limits. */
export function hangAt(problem: HangProblem, lengthMm: number, spare: number = SHORTENS): Hung {
  const spans = spansOf(problem, 0);
  const plannedMm = sum(spans.map((s) => s.plannedMm));
  const besides = problem.straightsMm + problem.insertsMm;
  const cut = Math.round((lengthMm + besides) / CUT_STEP_MM) * CUT_STEP_MM;
  return bestKept(
    problem,
    spans,
    [0, CUT_STEP_MM].map((more) => (cut + more - besides + problem.allowanceMm[0]) / plannedMm),
    spare,
  );
}

/** Held to its way by as few clamps as do; `ok` tells whether it can be. */
export function hangClamped(problem: HangProblem, spare: number = SHORTENS): Hung {
  let best: Hung | null = null;
  for (const extra of EXTRA_CLAMPS.slice(1)) {
    const hung = bestKept(problem, spansOf(problem, extra), CLAMPED_LENGTHS, spare);
    if (hung.ok) return hung;
    if (best === null || lack(problem, hung) < lack(problem, best)) best = hung;
    if (problem.budget.rods <= 0) break;
  }
  return best!;
}

/** The first length at which it keeps its limits, else the least bad; a hose far off them is not lengthened in vain. */
function bestKept(problem: HangProblem, spans: readonly RodSpan[], lengths: readonly number[], spare: number): Hung {
  let best: Hung | null = null;
  for (const share of lengths) {
    const hung = hungWith(problem, spans, share, spare);
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
    hungWith(problem, spansOf(problem, extra), 1.002, SPARES.at(-1)!),
  );
  return tries.reduce((p, q) => (lack(problem, q) < lack(problem, p) ? q : p));
}

/** How far a hung hose is from keeping its limits; only its order counts. */
export function lack(problem: HangProblem, hung: Hung): number {
  const bend = Math.max(0, 1 - hung.leastRadiusMm / problem.minBendRadiusMm) * 100;
  return (hung.reaches ? 0 : 50) + bend + Math.max(0, -hung.leastSlackMm);
}

interface RodSpan {
  readonly from: RodPose;
  readonly to: RodPose;
  readonly knots: Float64Array;
  readonly plannedMm: number;
}

/** The curve cut where it is held and at its clamps: evenly, as many as the spacing wants and `extra` more. */
function spansOf(problem: HangProblem, extra: number): RodSpan[] {
  const { planned } = problem;
  const along = runningLength(planned);
  const last = planned.length / 3 - 1;
  const cuts = clampKnots(problem, along, extra);
  const poseAt = (i: number): RodPose => ({
    point: pointAt(planned, i),
    direction: i === 0 ? problem.leaves : i === last ? problem.arrives : tangentAt(planned, i),
  });
  const spans: RodSpan[] = [];
  for (let c = 1; c < cuts.length; c++) {
    const [i, j] = [cuts[c - 1]!, cuts[c]!];
    spans.push({
      from: poseAt(i),
      to: poseAt(j),
      knots: planned.slice(3 * i, 3 * j + 3),
      plannedMm: along[j]! - along[i]!,
    });
  }
  return spans;
}

/** Knots at the ends, where the hose is held, and where clamps go. */
function clampKnots(problem: HangProblem, along: readonly number[], extra: number): number[] {
  const stops = [0, ...problem.held, along.length - 1];
  const legs = stops.slice(1).map((to, i) => {
    const lengthMm = along[to]! - along[stops[i]!]!;
    // The straights belong to the first and last leg.
    const outside = (i === 0 ? problem.straightsMm / 2 : 0) + (i === stops.length - 2 ? problem.straightsMm / 2 : 0);
    return {
      from: stops[i]!,
      to,
      lengthMm,
      clamps: Math.max(0, Math.ceil((lengthMm + outside) / problem.clampSpacingMm) - 1),
    };
  });
  for (let n = 0; n < extra; n++) {
    const widest = legs.reduce((p, q) => (q.lengthMm / (q.clamps + 1) > p.lengthMm / (p.clamps + 1) ? q : p));
    widest.clamps++;
  }
  const cuts = [0];
  for (const leg of legs) {
    for (let c = 1; c <= leg.clamps; c++) {
      const knot = nearestIndex(along, along[leg.from]! + (leg.lengthMm * c) / (leg.clamps + 1));
      if (knot > cuts.at(-1)! + 1 && knot < leg.to - 1) cuts.push(knot);
    }
    cuts.push(leg.to);
  }
  return cuts;
}

/** The hose at one length with one spare; looks no further than the first limit it breaks. */
function hungWith(problem: HangProblem, spans: readonly RodSpan[], share: number, spare: number): Hung {
  const plannedMm = sum(spans.map((s) => s.plannedMm));
  const besides = problem.straightsMm + problem.insertsMm;
  const lengthMm =
    Math.ceil((plannedMm * share - problem.allowanceMm[0] + besides) / CUT_STEP_MM - 1e-6) * CUT_STEP_MM - besides;
  const shortMm = lengthMm - spare * (lengthMm + problem.straightsMm);
  const [less, more] = problem.allowanceMm;
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
  const nominal = shapeAt(spans, lengthMm, 'as laid');
  let ok = keeps(nominal, true) && keeps(shapeAt(spans, shortMm, 'as laid'), false);
  const looks: readonly (() => HungRod)[] = [
    () => shapeAt(spans, lengthMm + less, 'as laid'),
    () => shapeAt(spans, lengthMm + more, 'as laid'),
    () => shapeAt(spans, lengthMm + more, 'sagging'),
    () => shapeAt(spans, lengthMm + more, 'thrown up'),
  ];
  for (const [n, look] of looks.entries()) {
    if (!ok) break;
    const rod = look();
    // A lay that does not settle is no shape the hose can stay in; as laid it must.
    if (n >= AS_LAID && !rod.ok) continue;
    ok = keeps(rod, true);
    others.push(rod.points);
  }
  for (const extreme of problem.extremes) {
    if (!ok) break;
    const rod = extremeShape(spans, lengthMm, extreme);
    ok = keeps(rod, false);
    others.push(rod.points);
  }
  return {
    ...state,
    ok,
    clamps: spans
      .slice(1)
      .map((span) => ({ at: span.from.point, along: span.from.direction, share: shareOf(spans, span) })),
    lengthMm,
    leastMm: shortMm,
    sparePercent: 100 * spare,
    nominal: nominal.points,
    others,
    spreadMm: Math.max(0, ...others.map((o) => spread(nominal.points, o))),
    leastRadiusMm: ok ? nominal.leastRadiusMm : state.leastRadiusMm,
    carried: (start, end) => extremeShape(spans, lengthMm, { start, end }).points,
  };
}

function shareOf(spans: readonly RodSpan[], span: RodSpan): number {
  const before = spans.slice(0, spans.indexOf(span));
  return sum(before.map((s) => s.plannedMm)) / sum(spans.map((s) => s.plannedMm));
}

/** All spans at a total length: a hose slides in its clamps, and what it has over or lacks goes where it bends. */
function shapeAt(spans: readonly RodSpan[], totalMm: number, lay: Lay): HungRod {
  const lengths = spanLengths(spans, totalMm);
  return joinedRods(spans.map((span, i) => hungRod(span.from, span.to, lengths[i]!, span.knots, lay)));
}

/** How much even a straight span takes part, against its length. */
const STRAIGHT_TAKES = 0.01;

function spanLengths(spans: readonly RodSpan[], totalMm: number): number[] {
  const gives = spans.map(
    (s) => Math.max(0, s.plannedMm - distance(s.from.point, s.to.point)) + STRAIGHT_TAKES * s.plannedMm,
  );
  const over = totalMm - sum(spans.map((s) => s.plannedMm));
  return spans.map((s, i) => s.plannedMm + (over * gives[i]!) / sum(gives));
}

/** The hose with its ends carried to an extreme; clamps stay where they are. */
function extremeShape(
  spans: readonly RodSpan[],
  lengthMm: number,
  extreme: { readonly start: RodPose; readonly end: RodPose },
): HungRod {
  const lengths = spanLengths(spans, lengthMm);
  const rods = spans.map((span, i) => {
    const from = i === 0 ? extreme.start : span.from;
    const to = i === spans.length - 1 ? extreme.end : span.to;
    return hungRod(from, to, lengths[i]!, span.knots, 'as laid');
  });
  return joinedRods(rods);
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

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const pointAt = (p: Float64Array, i: number): Vec => [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];

function tangentAt(p: Float64Array, i: number): Vec {
  const d = [0, 1, 2].map((k) => p[3 * i + 3 + k]! - p[3 * i - 3 + k]!) as [number, number, number];
  const n = Math.hypot(...d);
  return [d[0] / n, d[1] / n, d[2] / n];
}

export function runningLength(p: Float64Array): number[] {
  const along = [0];
  for (let i = 3; i + 2 < p.length; i += 3)
    along.push(along.at(-1)! + Math.hypot(p[i]! - p[i - 3]!, p[i + 1]! - p[i - 2]!, p[i + 2]! - p[i - 1]!));
  return along;
}

function nearestIndex(along: readonly number[], want: number): number {
  let best = 0;
  for (let i = 1; i < along.length; i++) if (Math.abs(along[i]! - want) < Math.abs(along[best]! - want)) best = i;
  return best;
}
