import { type Vec, scale } from '#geometry';
import type { EndMakeUp } from '../make-up/end-make-up.ts';
import type { Carrier } from './carriers.ts';
import type { Clearance } from './clearance.ts';
import { CurveSearch, type HoseCurve, distinct, type Margins, type SearchEffort } from './curves.ts';
import type { SeedKind } from './seed-stock.ts';
import { dividedAt } from './near-line.ts';
import type { Span, SpanEnd } from './span.ts';
import type { Tail } from './tails.ts';

/** A place where a hose is led through: held there, running along `direction` (towards B). */
export interface HeldAt {
  readonly label: string;
  readonly at: Vec;
  readonly direction: Vec;
  /** Straight on each side [mm]. */
  readonly straightMm: number;
  /** What the thing it is led through goes with. */
  readonly carrier: Carrier;
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

/** Hoses from A to B through the places where they are held: one search a leg. */
export class RunSearch {
  readonly blockedEnds: readonly string[];
  private readonly legs: readonly CurveSearch[];

  constructor(span: Span, stops: readonly HeldAt[], clearOf: (leg: Span) => Clearance) {
    this.legs = legsOf(span, stops).map((leg) => new CurveSearch(leg, clearOf(leg)));
    this.blockedEnds = this.legs.flatMap((leg) => leg.blockedEnds);
  }

  get effort(): SearchEffort {
    return this.legs.reduce(
      (sum, leg) => ({ refinements: sum.refinements + leg.effort.refinements, cells: sum.cells + leg.effort.cells }),
      { refinements: 0, cells: 0 },
    );
  }

  /** Feasible runs with these margins, cheapest first. */
  runs(margins: Margins, most: number, kind: SeedKind): HoseRun[] {
    return combined(
      this.legs.map((leg) => leg.curves(margins, kind)),
      most,
    );
  }

  /** The least bad of the curves that missed since last asked, distinct: only where there is one leg. */
  misses(most: number): HoseRun[] {
    const [leg, other] = this.legs;
    if (leg === undefined || other !== undefined) return [];
    const missed = leg.misses.splice(0).filter((curve) => Number.isFinite(curve.shape.residual));
    const order = missed.sort((p, q) => p.shape.residual - q.shape.residual);
    return distinct(order.slice(0, 2 * most))
      .slice(0, most)
      .map((curve) => ({ ...joined([curve]), ok: true }));
  }

  /** The least bad run seen so far, where there is one for every leg. */
  leastBad(): HoseRun | null {
    return (
      combined(
        this.legs.map((leg) => leg.leastBadCurves()),
        1,
      )[0] ?? null
    );
  }
}

function legsOf(span: Span, stops: readonly HeldAt[]): Span[] {
  const legs: Span[] = [];
  const near =
    span.near &&
    dividedAt(
      span.near,
      stops.map((stop) => stop.at),
    );
  const legTo = (b: SpanEnd): Span => ({ ...span, a: from, b, ...(near && { near: near[legs.length]! }) });
  let from = span.a;
  for (const stop of stops) {
    legs.push(legTo(heldEnd(stop, scale(stop.direction, -1))));
    from = heldEnd(stop, stop.direction);
  }
  legs.push(legTo(span.b));
  return legs;
}

/** The cheapest joinings of one curve a leg. */
function combined(found: readonly (readonly HoseCurve[])[], most: number): HoseRun[] {
  let chains: (readonly HoseCurve[])[] = [[]];
  for (const curves of found) {
    chains = chains.flatMap((chain) => curves.map((curve) => [...chain, curve]));
    chains.sort((p, q) => costOf(p) - costOf(q));
    chains = chains.slice(0, most);
  }
  return chains.map(joined);
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
