import { type Refined, type Vec, distance, refined } from '#geometry';
import type { Clearance } from './clearance.ts';
import { type SeedKind, SeedStock } from './seed-stock.ts';
import type { Seed } from './seeds.ts';
import type { Span } from './span.ts';
import { type Tail, tails } from './tails.ts';

/** A worked-out curve of the hose between two made-up ends. */
export interface HoseCurve {
  readonly a: Tail;
  readonly b: Tail;
  readonly shape: Refined;
  /** Length of the curve plus the lengths and costs of its ends [mm]. */
  readonly cost: number;
  readonly from: Seed['from'];
}

/** What the search did; counted, never timed, so that it comes out the same every time. */
export interface SearchEffort {
  readonly refinements: number;
  readonly cells: number;
}

/** Margins that a curve is planned with, so that the hose as it hangs still keeps its limits. */
export interface Margins {
  readonly marginMm: number;
  /** Bend radius asked over the hose's least, as a factor. */
  readonly radiusFactor: number;
}

/** Curves with the same ends that lie nearer than this to each other on average are one curve [mm]. */
const SAME_MM = 30;
/** Beyond its margin a hose would rather have this much room [mm], at this price a mm of hose. */
const THIN_MM = 6;
const THIN_WEIGHT = 0.002;

/** The curves a hose may take from A to B: seeds are found once, and refined with whatever margins are asked. */
export class CurveSearch {
  readonly span: Span;
  /** Ends that cannot even be fitted up without touching what is near. */
  readonly blockedEnds: readonly string[];
  leastBad: HoseCurve | null = null;
  /** Curves that came to nothing, as refined: a hung hose near one may still keep its limits. */
  readonly misses: HoseCurve[] = [];
  refinements = 0;
  private readonly clear: Clearance;
  private readonly stock: SeedStock;
  /** Searches with other limits often come to a seed again: by its numbers. */
  private readonly known = new Map<string, HoseCurve>();
  private readonly tailNumbers = new Map<Tail, number>();

  constructor(span: Span, clear: Clearance) {
    this.span = span;
    this.clear = clear;
    const tailsA = tails(span.a, span.odMm, span.far);
    const tailsB = tails(span.b, span.odMm, span.far);
    for (const tail of [...tailsA, ...tailsB]) this.tailNumbers.set(tail, this.tailNumbers.size);
    this.blockedEnds = [tailsA.length === 0 ? span.a.label : null, tailsB.length === 0 ? span.b.label : null].filter(
      (e) => e !== null,
    );
    this.stock = new SeedStock(span, clear, tailsA, tailsB);
  }

  get effort(): SearchEffort {
    return { refinements: this.refinements, cells: this.stock.cells };
  }

  /** Feasible curves with these margins from seeds of a kind, cheapest first, distinct. */
  curves(margins: Margins, kind: SeedKind): HoseCurve[] {
    if (this.blockedEnds.length > 0) return [];
    const seeds = this.stock.of(kind, margins.radiusFactor);
    return distinct(seeds.map((seed) => this.refinedFrom(seed, margins)).filter((curve) => this.keeps(curve)));
  }

  /** The least bad curve there is to show. */
  leastBadCurves(): HoseCurve[] {
    return this.leastBad === null ? this.curves(NO_MARGINS, 'direct') : [this.leastBad];
  }

  private keeps(curve: HoseCurve): boolean {
    if (curve.shape.ok) return true;
    if (this.leastBad === null || badness(curve) < badness(this.leastBad)) this.leastBad = curve;
    this.misses.push(curve);
    return false;
  }

  private refinedFrom(seed: Seed, margins: Margins): HoseCurve {
    const ends = [this.tailNumbers.get(seed.a), seed.phiA, this.tailNumbers.get(seed.b), seed.phiB];
    const key = [...ends, margins.marginMm, margins.radiusFactor, ...seed.line.flat()].join(' ');
    const curve = this.known.get(key) ?? this.workedOut(seed, margins);
    this.known.set(key, curve);
    return curve;
  }

  private workedOut(seed: Seed, margins: Margins): HoseCurve {
    this.refinements++;
    const shape = refined({
      a: { ...seed.a.pose, phiRad: seed.phiA },
      b: { ...seed.b.pose, phiRad: seed.phiB },
      minBendRadiusMm: this.span.minBendRadiusMm * margins.radiusFactor,
      seed: seed.line.flat(),
      field: this.clear,
      finestField: { slackAndGradient: (x, y, z, out) => this.clear.closely(x, y, z, out) },
      marginMm: margins.marginMm,
      thinMm: THIN_MM,
      thinWeight: THIN_WEIGHT,
      odMm: this.span.odMm,
      stepMm: Math.min(MOST_STEP_MM, Math.max(LEAST_STEP_MM, this.span.minBendRadiusMm / STEPS_PER_RADIUS)),
      maxIterations: MOST_ITERATIONS,
      milestones: MILESTONES,
    });
    const ends = seed.a.makeUp.lengthMm + seed.a.makeUp.cost + seed.b.makeUp.lengthMm + seed.b.makeUp.cost;
    return { a: seed.a, b: seed.b, shape, cost: shape.lengthMm + ends, from: seed.from };
  }
}

const NO_MARGINS: Margins = { marginMm: 0, radiusFactor: 1 };

/** Knots of a planned curve: it is hung as a rod of its own knots afterwards. */
const STEPS_PER_RADIUS = 9;
const LEAST_STEP_MM = 7;
const MOST_STEP_MM = 16;
/** A refinement that gets there takes 15 to 60. */
const MOST_ITERATIONS = 120;
/** Nine in ten of those that come to nothing miss one of these, and one in thirty of the others: measured on planted bays. */
export const MILESTONES = [
  { iteration: 16, slackMm: 25, shape: 4 },
  { iteration: 24, slackMm: 11, shape: 0.7 },
  { iteration: 36, slackMm: 4, shape: 0.35 },
  { iteration: 50, slackMm: 1, shape: 0.05 },
  { iteration: 75, slackMm: 0.3, shape: 0.015 },
] as const;

const badness = (c: HoseCurve): number => (Number.isFinite(c.shape.residual) ? c.shape.residual : 1e9) + c.cost * 1e-6;

/** The curves that differ in their ends or in where they go, cheapest first. */
export function distinct(curves: readonly HoseCurve[]): HoseCurve[] {
  const kept: HoseCurve[] = [];
  for (const curve of [...curves].sort((p, q) => p.cost - q.cost))
    if (!kept.some((other) => isSame(curve, other))) kept.push(curve);
  return kept;
}

function isSame(p: HoseCurve, q: HoseCurve): boolean {
  const ends =
    p.a.makeUp === q.a.makeUp &&
    p.b.makeUp === q.b.makeUp &&
    p.a.adapterClockRad === q.a.adapterClockRad &&
    p.b.adapterClockRad === q.b.adapterClockRad;
  return ends && meanDistance(p.shape.points, q.shape.points) < SAME_MM;
}

/** Mean distance of places at equal shares of both lengths [mm]. */
function meanDistance(p: Float64Array, q: Float64Array): number {
  const places = 16;
  let sum = 0;
  for (let n = 0; n <= places; n++) sum += distance(placeAt(p, n / places), placeAt(q, n / places));
  return sum / (places + 1);
}

function placeAt(points: Float64Array, share: number): Vec {
  const last = points.length / 3 - 1;
  const at = share * last;
  const i = Math.min(last - 1, Math.floor(at));
  const t = at - i;
  const mix = (k: number) => points[i * 3 + k]! * (1 - t) + points[i * 3 + 3 + k]! * t;
  return [mix(0), mix(1), mix(2)];
}
