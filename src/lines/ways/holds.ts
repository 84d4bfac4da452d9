import { type Vec, addScaled, distance, movedPoint } from '#geometry';
import { fittingRule } from '#standards';
import { type Carrier, type EndMotions, motionOf } from './carriers.ts';
import type { HangProblem } from './hang-problem.ts';
import type { RodPose } from './hung-rod.ts';

/** A stretch of hose between two holds. */
export interface RodSpan {
  readonly from: RodPose;
  readonly to: RodPose;
  readonly knots: Float64Array;
  readonly plannedMm: number;
}

/** Where a hose is held, and what each hold goes with. */
export interface Holds {
  readonly spans: readonly RodSpan[];
  /** Of each hold, both ends included: one more than spans. */
  readonly carriers: readonly Carrier[];
  /** Least length, as a share of the planned one, at which what moves has its slack; 1 where none is asked. */
  readonly leastShare: number;
  /** Longest stretch, where a clamp that the spacing asks for is left out [mm]. */
  readonly overlongMm: number | null;
}

/** Slack between the last support and what moves against it [mm]. */
export const MOVER_SLACK_MM = fittingRule('slack-to-engine').value;

/** A clip reaches this far from a fixed surface to the hose's skin [mm]: a stand-off clip; common practice, no source. */
export const CLIP_REACH_MM = 40;
/** A clamp goes with a mover only if the mover comes this near the hose's skin: a longer bracket shakes [mm]. Common practice, no source. */
const RIDES_WITHIN_MM = 150;
/** What a mm of bracket beyond a clip's reach counts against a mm of hose; only the order counts. */
const BRACKET_COST = 0.1;
/** Longer than this no hose is made for the sake of its slack, as a share of the planned length. */
const MOST_SHARE = 1.15;
/** Sets of clamp places tried for slack, the cheapest first. */
const MOST_TRIED = 3;

/**
 * Where to hold the hose, in the order to try: with as many clamps as the spacing wants and `extra` more. If what moves has
 * its slack between even clamps, that alone. Else the clamps beside the moving stretch stand farther off, go with what
 * moves, or the hose is longer, whichever is cheapest; then one clamp fewer than the spacing wants; then without that slack.
 */
export function holdsToTry(problem: HangProblem, extra: number, firstShare: number): readonly Holds[] {
  const even = evenHolds(problem, extra);
  if (even.holds.leastShare <= firstShare) return [even.holds];
  const legs = legsOf(problem, extra);
  const moved = movedClamps(problem, legs).map((cuts) => heldAt(problem, cuts, null));
  const kept = [even, ...moved].filter(({ score }) => Number.isFinite(score)).sort((p, q) => p.score - q.score);
  const fewer = extra === 0 ? oneFewer(problem, legs) : [];
  return [
    ...kept.slice(0, MOST_TRIED).map(({ holds }) => holds),
    ...fewer.map(({ holds }) => holds),
    { ...even.holds, leastShare: 1 },
  ];
}

/** Clamps evenly along each leg, for hoses that are drawn whatever they lack. */
export function evenHoldsOnly(problem: HangProblem, extra: number): Holds {
  const { holds } = evenHolds(problem, extra);
  return holds;
}

const evenHolds = (problem: HangProblem, extra: number): Scored =>
  heldAt(
    problem,
    cutsOf(problem, legsOf(problem, extra), () => null),
    null,
  );

interface Leg {
  readonly from: number;
  readonly to: number;
  readonly lengthMm: number;
  /** Straight hose beyond the leg's two ends [mm]. */
  readonly outsideMm: readonly [number, number];
  clamps: number;
}

/** The curve between places where it is held, and how many clamps each leg gets. */
function legsOf(problem: HangProblem, extra: number): Leg[] {
  const along = runningLength(problem.planned);
  const stops = [0, ...problem.held.map((h) => h.knot), along.length - 1];
  const [before, after] = problem.straightsMm;
  const legs = stops.slice(1).map((to, i): Leg => {
    const lengthMm = along[to]! - along[stops[i]!]!;
    const outsideMm = [i === 0 ? before : 0, i === stops.length - 2 ? after : 0] as const;
    const clamps = Math.ceil((lengthMm + outsideMm[0] + outsideMm[1]) / problem.clampSpacingMm) - 1;
    return { from: stops[i]!, to, lengthMm, outsideMm, clamps: Math.max(0, clamps) };
  });
  for (let n = 0; n < extra; n++) {
    const widest = legs.reduce((p, q) => (q.lengthMm / (q.clamps + 1) > p.lengthMm / (p.clamps + 1) ? q : p));
    widest.clamps++;
  }
  return legs;
}

/** One stretch of a leg drawn out to a length, its other clamps evenly: the first stretch or the last. */
interface Drawn {
  readonly leg: Leg;
  readonly end: 'first' | 'last';
  readonly mm: number;
}

/** Knots at the ends, where the hose is held, and where clamps go. */
function cutsOf(problem: HangProblem, legs: readonly Leg[], drawnOf: (leg: Leg) => Drawn | null): number[] {
  const along = runningLength(problem.planned);
  const cuts = [0];
  for (const leg of legs) {
    const drawn = drawnOf(leg);
    for (let c = 1; c <= leg.clamps; c++) {
      const knot = nearestIndex(along, along[leg.from]! + clampAt(leg, c, drawn));
      if (knot > cuts.at(-1)! + 1 && knot < leg.to - 1) cuts.push(knot);
    }
    cuts.push(leg.to);
  }
  return cuts;
}

function clampAt(leg: Leg, c: number, drawn: Drawn | null): number {
  if (drawn === null) return (leg.lengthMm * c) / (leg.clamps + 1);
  const rest = (leg.lengthMm - drawn.mm) / leg.clamps;
  return drawn.end === 'last' ? rest * c : drawn.mm + rest * (c - 1);
}

/** Clamps beside an end of the hose set farther from it, as far as the spacing allows and half as far. */
function movedClamps(problem: HangProblem, legs: readonly Leg[]): number[][] {
  const along = runningLength(problem.planned);
  const knotMm = Math.max(...along.slice(1).map((s, i) => s - along[i]!));
  const out: number[][] = [];
  for (const [leg, end] of [[legs.at(-1)!, 'last'] as const, [legs[0]!, 'first'] as const]) {
    if (leg.clamps === 0) continue;
    const evenMm = leg.lengthMm / (leg.clamps + 1);
    const mostMm = problem.clampSpacingMm - leg.outsideMm[end === 'last' ? 1 : 0] - knotMm;
    if (mostMm < evenMm + 2 * knotMm) continue;
    for (const mm of [mostMm, (mostMm + evenMm) / 2])
      out.push(cutsOf(problem, legs, (l) => (l === leg ? { leg, end, mm: Math.min(mm, leg.lengthMm * 0.9) } : null)));
  }
  return out;
}

/** One clamp left out of the first or last leg, the others evenly: a stretch gets longer than the spacing. */
function oneFewer(problem: HangProblem, legs: readonly Leg[]): Scored[] {
  const sides = [...new Set([legs.at(-1)!, legs[0]!])].filter((leg) => leg.clamps > 0);
  return sides
    .map((leg) => {
      const fewer = legs.map((l) => (l === leg ? { ...l, clamps: l.clamps - 1 } : l));
      const stretchMm = (leg.lengthMm + leg.outsideMm[0] + leg.outsideMm[1]) / leg.clamps;
      return heldAt(
        problem,
        cutsOf(problem, fewer, () => null),
        stretchMm,
      );
    })
    .filter(({ score }) => Number.isFinite(score))
    .sort((p, q) => p.score - q.score);
}

interface Scored {
  readonly holds: Holds;
  /** mm of hose and brackets for the sake of slack; infinite where it cannot be had. */
  readonly score: number;
}

/** Holds at these knots, going with whatever gives the moving stretch its slack at the least cost. */
function heldAt(problem: HangProblem, cuts: readonly number[], overlongMm: number | null): Scored {
  const spans = spansAt(problem, cuts);
  const fixed = new Map(problem.held.map((held) => [cuts.indexOf(held.knot), held.carrier]));
  const plannedMm = sum(spans.map((s) => s.plannedMm));
  const give = spans.map(giveOf);
  const mounts = new Map<string, number>();
  const mountMm = (hold: number, carrier: Carrier): number => {
    const key = `${hold} ${carrier}`;
    const known = mounts.get(key) ?? problem.movement.mountMm(spans[hold]!.from.point, carrier) - problem.odMm / 2;
    mounts.set(key, known);
    return known;
  };
  let best: (Scored & { readonly order: readonly number[] }) | null = null;
  for (const carriers of carrierChoices(problem, spans.length - 1, fixed)) {
    const wants = spans.map((span, i): number => {
      const chordMm = slackChord(problem, spans, carriers, i);
      if (chordMm === null) return 0;
      return ((chordMm + MOVER_SLACK_MM - outsideOf(problem, spans, i) - span.plannedMm) * sum(give)) / give[i]!;
    });
    const overMm = Math.max(0, ...wants);
    const brackets = carriers
      .slice(1, -1)
      .map((c, i): number => (fixed.has(i + 1) ? 0 : bracketMm(problem, mountMm(i + 1, c), c)));
    const leastShare = 1 + overMm / plannedMm;
    const mountCost = BRACKET_COST * sum(brackets);
    const score = leastShare > MOST_SHARE ? Number.POSITIVE_INFINITY : overMm + mountCost;
    const order = [score, mountCost === Number.POSITIVE_INFINITY ? 1 : 0, overMm];
    if (best === null || isBefore(order, best.order))
      best = { score, order, holds: { spans, carriers, leastShare, overlongMm } };
  }
  return best!;
}

function isBefore(p: readonly number[], q: readonly number[]): boolean {
  const at = p.findIndex((v, i) => v !== q[i]);
  return at >= 0 && p[at]! < q[at]!;
}

/** Bracket from what is clamped to, beyond a clip's reach [mm]; what moves must be near. */
function bracketMm(problem: HangProblem, mountMm: number, carrier: Carrier): number {
  const { carriers, isMoved } = problem.movement;
  if (!Number.isFinite(mountMm)) return carriers.length === 1 || !isMoved(carrier) ? MOUNT_UNKNOWN_MM : mountMm;
  if (carriers.length > 1 && isMoved(carrier) && mountMm > RIDES_WITHIN_MM) return Number.POSITIVE_INFINITY;
  return Math.max(0, mountMm - CLIP_REACH_MM);
}

/** Stands for the length of a bracket to something that is not in the car file [mm]. */
const MOUNT_UNKNOWN_MM = 300;

/** Every way that holds can go with the carriers in their order along the hose; both ends and what is led through are given. */
function* carrierChoices(
  { movement: { carriers } }: HangProblem,
  clamps: number,
  fixed: ReadonlyMap<number, Carrier>,
): Generator<readonly Carrier[]> {
  const first = carriers[0]!;
  const last = carriers.at(-1)!;
  const between = carriers.length === 3 ? carriers[1]! : null;
  let any = false;
  for (let i = clamps; i >= 0; i--)
    for (let j = clamps; j >= i; j--) {
      if (between === null && j > i) continue;
      const choice = [
        first,
        ...Array.from({ length: clamps }, (_, c): Carrier => (c < i ? first : c < j ? between! : last)),
        last,
      ];
      if (![...fixed].every(([hold, carrier]) => choice[hold] === carrier)) continue;
      any = true;
      yield choice;
      if (carriers.length === 1) return;
    }
  // Led through things out of that order: each clamp goes with what holds the hose before it.
  const choice: Carrier[] = [first];
  for (let c = 1; c <= clamps; c++) choice.push(fixed.get(c) ?? choice[c - 1]!);
  if (!any) yield [...choice, last];
}

/** Chord of a stretch whose two holds move against each other, at the worst extreme, straights included [mm]; null where no slack is asked. */
function slackChord(
  problem: HangProblem,
  spans: readonly RodSpan[],
  carriers: readonly Carrier[],
  i: number,
): number | null {
  const { extremes, supported } = problem.movement;
  const [a, b] = [carriers[i]!, carriers[i + 1]!];
  if (a === b || extremes.length === 0) return null;
  const last = i === spans.length - 1;
  const isSupported = i > 0 || supported[0] || !last || supported[1];
  if (!isSupported) return null;
  const span = spans[i]!;
  const from = i === 0 ? addScaled(span.from.point, problem.leaves, -problem.straightsMm[0]) : span.from.point;
  const to = last ? addScaled(span.to.point, problem.arrives, problem.straightsMm[1]) : span.to.point;
  const chordAt = (motions: EndMotions): number =>
    distance(movedPoint(motionOf(a, motions), from), movedPoint(motionOf(b, motions), to));
  return Math.max(distance(from, to), ...extremes.map(chordAt));
}

/** Straight hose beyond a stretch that belongs to it [mm]. */
const outsideOf = (problem: HangProblem, spans: readonly RodSpan[], i: number): number =>
  (i === 0 ? problem.straightsMm[0] : 0) + (i === spans.length - 1 ? problem.straightsMm[1] : 0);

/** Least slack of a stretch between a support and what moves against it, at this length and the worst extreme [mm]; null where none is asked. */
export function moverSlack(problem: HangProblem, { spans, carriers }: Holds, totalMm: number): number | null {
  const lengths = spanLengths(spans, totalMm);
  const slacks = spans.flatMap((_, i): number[] => {
    const chordMm = slackChord(problem, spans, carriers, i);
    return chordMm === null ? [] : [lengths[i]! + outsideOf(problem, spans, i) - chordMm];
  });
  return slacks.length === 0 ? null : Math.min(...slacks);
}

function spansAt(problem: HangProblem, cuts: readonly number[]): RodSpan[] {
  const { planned } = problem;
  const along = runningLength(planned);
  const last = planned.length / 3 - 1;
  const poseAt = (i: number): RodPose => ({
    point: pointAt(planned, i),
    direction: i === 0 ? problem.leaves : i === last ? problem.arrives : tangentAt(planned, i),
  });
  return cuts.slice(1).map((j, c): RodSpan => {
    const i = cuts[c]!;
    return {
      from: poseAt(i),
      to: poseAt(j),
      knots: planned.slice(3 * i, 3 * j + 3),
      plannedMm: along[j]! - along[i]!,
    };
  });
}

/** How much even a straight span takes part, against its length. */
const STRAIGHT_TAKES = 0.01;

const giveOf = (s: RodSpan): number =>
  Math.max(0, s.plannedMm - distance(s.from.point, s.to.point)) + STRAIGHT_TAKES * s.plannedMm;

/** Lengths of all spans at a total: a hose slides in its clamps, and what it has over or lacks goes where it bends. */
export function spanLengths(spans: readonly RodSpan[], totalMm: number): number[] {
  const gives = spans.map(giveOf);
  const over = totalMm - sum(spans.map((s) => s.plannedMm));
  return spans.map((s, i) => s.plannedMm + (over * gives[i]!) / sum(gives));
}

export const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
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
