import { type Refined, type Vec, distance, refined } from '#geometry';
import { type Clearance, corridorGrid } from './clearance.ts';
import { type Seed, corridorSeeds, detourSeeds, shots } from './seeds.ts';
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

/** Shots refined, corridors searched and pairs of ends tried along each. */
const SHOTS = 24;
const FEW = { corridors: 3, pairs: 6 } as const;
/** The same where neither those nor wide curves led to a hose. */
const MANY = { corridors: 9, pairs: 12 } as const;
/** The box searched round both ends, tried in turn [mm]. */
const ROUND_MM = [250, 600] as const;
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
  cells = 0;
  private readonly clear: Clearance;
  private readonly tailsA: readonly Tail[];
  private readonly tailsB: readonly Tail[];
  private readonly shots: readonly Seed[];
  private corridorSeeds: readonly Seed[] | null = null;
  private wideSeeds: readonly Seed[] | null = null;

  constructor(span: Span, clear: Clearance) {
    this.span = span;
    this.clear = clear;
    this.tailsA = tails(span.a, span.odMm, span.far);
    this.tailsB = tails(span.b, span.odMm, span.far);
    this.blockedEnds = [
      this.tailsA.length === 0 ? span.a.label : null,
      this.tailsB.length === 0 ? span.b.label : null,
    ].filter((e) => e !== null);
    this.shots = this.blockedEnds.length > 0 ? [] : shots(span, this.tailsA, this.tailsB);
  }

  get effort(): SearchEffort {
    return { refinements: this.refinements, cells: this.cells };
  }

  /** Feasible curves with these margins, cheapest first, distinct: the direct ones as batch 0, then those that go wide, a batch at a time. */
  curves(margins: Margins, batch: number): HoseCurve[] {
    if (this.blockedEnds.length > 0) return [];
    const seeds =
      batch === 0
        ? [...this.shots.slice(0, SHOTS), ...this.corridors()]
        : batch > BATCHES
          ? this.corridorsBy(MANY)
          : this.wide().slice((batch - 1) * BATCH, batch * BATCH);
    return distinct(seeds.map((seed) => this.refinedFrom(seed, margins)).filter((curve) => this.keeps(curve)));
  }

  /** The least bad curve there is to show. */
  leastBadCurves(): HoseCurve[] {
    return this.leastBad === null ? this.curves(NO_MARGINS, 0) : [this.leastBad];
  }

  private keeps(curve: HoseCurve): boolean {
    if (curve.shape.ok) return true;
    if (this.leastBad === null || badness(curve) < badness(this.leastBad)) this.leastBad = curve;
    this.misses.push(curve);
    return false;
  }

  private wide(): readonly Seed[] {
    this.wideSeeds ??= [
      ...detourSeeds(this.span, this.clear, this.tailsA, this.tailsB),
      ...this.shots.slice(SHOTS, 2 * SHOTS),
    ].sort((p, q) => p.hope - q.hope);
    return this.wideSeeds;
  }

  private corridors(): readonly Seed[] {
    if (this.corridorSeeds !== null) return this.corridorSeeds;
    const seeds = this.corridorsBy(FEW);
    this.corridorSeeds = seeds;
    return seeds;
  }

  private corridorsBy(want: { readonly corridors: number; readonly pairs: number }): readonly Seed[] {
    for (const round of ROUND_MM) {
      const grid = corridorGrid(this.span, this.clear, round);
      this.cells += grid.blocked.length;
      const seeds = corridorSeeds(this.span, this.clear, grid, this.tailsA, this.tailsB, want);
      if (seeds.length > 0) return seeds;
    }
    return [];
  }

  private refinedFrom(seed: Seed, margins: Margins): HoseCurve {
    this.refinements++;
    const shape = refined({
      a: { ...seed.a.pose, phiRad: seed.phiA },
      b: { ...seed.b.pose, phiRad: seed.phiB },
      minBendRadiusMm: this.span.minBendRadiusMm * margins.radiusFactor,
      seed: seed.line.flat(),
      field: this.clear,
      marginMm: margins.marginMm,
      thinMm: THIN_MM,
      thinWeight: THIN_WEIGHT,
      odMm: this.span.odMm,
      stepMm: Math.min(MOST_STEP_MM, Math.max(LEAST_STEP_MM, this.span.minBendRadiusMm / STEPS_PER_RADIUS)),
      maxIterations: MOST_ITERATIONS,
    });
    const ends = seed.a.makeUp.lengthMm + seed.a.makeUp.cost + seed.b.makeUp.lengthMm + seed.b.makeUp.cost;
    return { a: seed.a, b: seed.b, shape, cost: shape.lengthMm + ends, from: seed.from };
  }
}

const NO_MARGINS: Margins = { marginMm: 0, radiusFactor: 1 };

/** Wide seeds refined at a time, and how many times. */
const BATCH = 36;
export const BATCHES = 4;
/** Knots of a planned curve: it is hung as a rod of its own knots afterwards. */
const STEPS_PER_RADIUS = 9;
const LEAST_STEP_MM = 7;
const MOST_STEP_MM = 16;
/** A refinement that gets there takes 15 to 60. */
const MOST_ITERATIONS = 90;

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
