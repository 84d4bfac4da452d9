import { type Vec, scale } from '#geometry';
import type { EndMakeUp } from '../make-up/end-make-up.ts';
import type { Clearance } from './clearance.ts';
import { type CurveWants, type CurvesFound, type HoseCurve, type SearchEffort, hoseCurves } from './curves.ts';
import type { Span, SpanEnd } from './span.ts';
import type { Tail } from './tails.ts';

/** A place where a hose is led through: held there, running along `direction` (towards B). */
export interface HeldAt {
  readonly label: string;
  readonly at: Vec;
  readonly direction: Vec;
  /** Straight on each side [mm]. */
  readonly straightMm: number;
}

/** One hose from end to end, as planned. */
export interface HoseRun {
  readonly a: Tail;
  readonly phiA: number;
  readonly b: Tail;
  readonly phiB: number;
  /** x,y,z knots from A's tail to B's tail, straights included. */
  readonly points: Float64Array;
  /** Knots where it is held: a grommet. */
  readonly held: readonly number[];
  readonly lengthMm: number;
  readonly cost: number;
  readonly ok: boolean;
  readonly residual: number;
}

export interface RunsFound {
  readonly runs: readonly HoseRun[];
  readonly leastBad: HoseRun | null;
  readonly blockedEnds: readonly string[];
  readonly unreachable: boolean;
  readonly effort: SearchEffort;
}

/** No fitting at all: the end of a leg where the hose itself goes on. */
export const NOTHING: EndMakeUp = {
  key: '',
  parts: [],
  stages: [],
  angleDeg: 0,
  fixing: 'clamped',
  cost: 0,
  insertMm: 0,
  boreMm: Number.POSITIVE_INFINITY,
  lengthMm: 0,
  clockHow: 'none',
  clockWords: '',
  before: [],
  measure: false,
  remarks: [],
};

const heldEnd = (held: HeldAt, faces: Vec): SpanEnd => ({
  label: held.label,
  at: held.at,
  faces,
  partId: null,
  moverId: null,
  makeUps: [NOTHING],
  nearItems: [],
  nearMm: 0,
  straightMm: held.straightMm,
});

/** Hose runs from A to B through the held places, cheapest first. */
export function hoseRuns(
  span: Span,
  stops: readonly HeldAt[],
  clearOf: (leg: Span) => Clearance,
  wants: CurveWants,
): RunsFound {
  const legs = legsOf(span, stops);
  const found = legs.map((leg) => hoseCurves(leg, clearOf(leg), legs.length === 1 ? wants : { ...wants, count: Math.min(3, wants.count) }));
  const effort = found.reduce((sum, f) => added(sum, f.effort), { refinements: 0, cells: 0, corridors: 0 });
  const blockedEnds = found.flatMap((f) => f.blockedEnds);
  const unreachable = found.some((f) => f.unreachable);
  const chains = combined(found, wants.count);
  const runs = chains.filter((run) => run.ok);
  const leastBad = runs.length > 0 ? null : (chains[0] ?? null);
  return { runs, leastBad, blockedEnds, unreachable, effort };
}

function legsOf(span: Span, stops: readonly HeldAt[]): Span[] {
  const legs: Span[] = [];
  let from = span.a;
  for (const stop of stops) {
    legs.push({ ...span, a: from, b: heldEnd(stop, scale(stop.direction, -1)) });
    from = heldEnd(stop, stop.direction);
  }
  legs.push({ ...span, a: from, b: span.b });
  return legs;
}

const added = (p: SearchEffort, q: SearchEffort): SearchEffort => ({
  refinements: p.refinements + q.refinements,
  cells: p.cells + q.cells,
  corridors: p.corridors + q.corridors,
});

/** The cheapest joinings of one curve a leg. */
function combined(found: readonly CurvesFound[], count: number): HoseRun[] {
  let chains: (readonly HoseCurve[])[] = [[]];
  for (const { curves, leastBad } of found) {
    const choices = curves.length > 0 ? curves : leastBad === null ? [] : [leastBad];
    chains = chains.flatMap((chain) => choices.map((curve) => [...chain, curve]));
    chains.sort((p, q) => costOf(p) - costOf(q));
    chains = chains.slice(0, Math.max(count, 4));
  }
  return chains.slice(0, count).map(joined);
}

const costOf = (chain: readonly HoseCurve[]): number => chain.reduce((sum, curve) => sum + curve.cost, 0);

function joined(chain: readonly HoseCurve[]): HoseRun {
  const points: number[] = [];
  const held: number[] = [];
  for (const [i, curve] of chain.entries()) {
    const from = i === 0 ? 0 : 3;
    if (i > 0) held.push(points.length / 3 - 1);
    for (let k = from; k < curve.shape.points.length; k++) points.push(curve.shape.points[k]!);
  }
  const first = chain[0]!;
  const last = chain.at(-1)!;
  return {
    a: first.a,
    phiA: first.shape.phiA,
    b: last.b,
    phiB: last.shape.phiB,
    points: Float64Array.from(points),
    held,
    lengthMm: chain.reduce((sum, curve) => sum + curve.shape.lengthMm, 0),
    cost: costOf(chain),
    ok: chain.every((curve) => curve.shape.ok),
    residual: Math.max(...chain.map((curve) => curve.shape.residual)),
  };
}
