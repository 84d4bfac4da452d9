import { type Refined, type Vec, distance, refined } from '#geometry';
import { type Clearance, corridorGrid } from './clearance.ts';
import { type Seed, corridorSeeds, shots } from './seeds.ts';
import type { Span } from './span.ts';
import { type Tail, tails } from './tails.ts';

/** A worked-out curve of the hose between two made-up ends. */
export interface HoseCurve {
  readonly a: Tail;
  readonly b: Tail;
  readonly shape: Refined;
  /** Length of the line from face to face plus what its ends cost [mm]. */
  readonly cost: number;
  readonly from: Seed['from'];
}

/** What the search did; counted, never timed, so that it comes out the same every time. */
export interface SearchEffort {
  readonly refinements: number;
  readonly cells: number;
  readonly corridors: number;
}

export interface CurvesFound {
  /** Feasible ones, cheapest first, distinct. */
  readonly curves: readonly HoseCurve[];
  /** The least bad one where none is feasible. */
  readonly leastBad: HoseCurve | null;
  /** Ends that cannot even be fitted up without touching what is near. */
  readonly blockedEnds: readonly string[];
  /** True where even the widest reading of the grid leaves no corridor from A to B. */
  readonly unreachable: boolean;
  readonly effort: SearchEffort;
}

export interface CurveWants {
  /** How many distinct curves to look for. */
  readonly count: number;
  /** Stop at the first feasible curve. */
  readonly first?: boolean;
  /** Refinements allowed in all. */
  readonly refinements: number;
  /** Margin added to every limit so that the hose as it hangs still keeps them. */
  readonly marginMm: number;
  /** Bend radius asked over the hose's least, as a factor. */
  readonly radiusFactor: number;
}

/** Shots refined before the grid is looked at, corridors searched and pairs of ends tried along each. */
const FIRST_SHOTS = 10;
const CORRIDORS = 3;
const PAIRS = 6;
/** The box searched round both ends, tried in turn [mm]. */
const ROUND_MM = [250, 600] as const;
/** Curves nearer than this to each other on average are one curve [mm]. */
const SAME_MM = 35;

/** The best few distinct curves for a hose from A to B. */
export function hoseCurves(span: Span, clear: Clearance, wants: CurveWants): CurvesFound {
  const tailsA = tails(span.a, span.odMm, null);
  const tailsB = tails(span.b, span.odMm, null);
  const blockedEnds = [tailsA.length === 0 ? span.a.label : null, tailsB.length === 0 ? span.b.label : null].filter((e) => e !== null);
  const search = new Search(span, clear, wants);
  if (blockedEnds.length > 0) return search.result(blockedEnds, false);
  const direct = shots(span, tailsA, tailsB);
  search.tryAll(direct.slice(0, FIRST_SHOTS));
  let reached = false;
  for (const round of ROUND_MM) {
    if (search.done(reached)) break;
    const cellMm = Math.max(10, Math.min(24, span.odMm * 0.7));
    const grid = corridorGrid(span, clear, cellMm, round, -cellMm * OPTIMISM);
    const seeds = corridorSeeds(span, clear, grid, tailsA, tailsB, { corridors: CORRIDORS, pairs: PAIRS });
    search.cells += grid.blocked.length;
    search.corridors += seeds.length;
    reached ||= seeds.length > 0;
    search.tryAll(seeds);
  }
  if (search.found.length === 0) search.tryAll(direct.slice(FIRST_SHOTS, 4 * FIRST_SHOTS));
  return search.result([], !reached && search.found.length === 0);
}

/** A cell counts as open if its centre lacks no more than this share of a cell: the hose may pass beside the centre. */
const OPTIMISM = 0.5;

class Search {
  readonly found: HoseCurve[] = [];
  leastBad: HoseCurve | null = null;
  refinements = 0;
  cells = 0;
  corridors = 0;
  private readonly tried = new Set<string>();
  private readonly span: Span;
  private readonly clear: Clearance;
  private readonly wants: CurveWants;

  constructor(span: Span, clear: Clearance, wants: CurveWants) {
    this.span = span;
    this.clear = clear;
    this.wants = wants;
  }

  done(reached: boolean): boolean {
    if (this.wants.first === true && this.found.length > 0) return true;
    if (this.refinements >= this.wants.refinements) return true;
    return reached && distinct(this.found, this.wants.count).length >= this.wants.count;
  }

  tryAll(seeds: readonly Seed[]): void {
    for (const seed of seeds) {
      if (this.refinements >= this.wants.refinements) return;
      if (this.wants.first === true && this.found.length > 0) return;
      const key = `${seed.a.makeUp.angleDeg} ${seed.phiA.toFixed(2)} ${seed.b.makeUp.angleDeg} ${seed.phiB.toFixed(2)} ${seed.line.length} ${seed.from === 'shot' ? '' : Math.round(seed.hope)}`;
      if (this.tried.has(key)) continue;
      this.tried.add(key);
      this.take(seed);
    }
  }

  private take(seed: Seed): void {
    const { span, wants } = this;
    this.refinements++;
    const shape = refined({
      a: { ...seed.a.pose, phiRad: seed.phiA },
      b: { ...seed.b.pose, phiRad: seed.phiB },
      minBendRadiusMm: span.minBendRadiusMm * wants.radiusFactor,
      seed: seed.line.flat(),
      field: this.clear,
      marginMm: wants.marginMm,
      thinMm: THIN_MM,
      thinWeight: THIN_WEIGHT,
      odMm: span.odMm,
    });
    const cost = shape.lengthMm + seed.a.makeUp.cost + seed.b.makeUp.cost;
    const curve: HoseCurve = { a: seed.a, b: seed.b, shape, cost, from: seed.from };
    if (shape.ok) this.found.push(curve);
    else if (this.leastBad === null || badness(curve) < badness(this.leastBad)) this.leastBad = curve;
  }

  result(blockedEnds: readonly string[], unreachable: boolean): CurvesFound {
    const curves = distinct(this.found, this.wants.count);
    const effort = { refinements: this.refinements, cells: this.cells, corridors: this.corridors };
    return { curves, leastBad: curves.length > 0 ? null : this.leastBad, blockedEnds, unreachable, effort };
  }
}

/** Beyond its margin a hose would rather have this much room [mm], at this price a mm of hose. */
const THIN_MM = 6;
const THIN_WEIGHT = 0.002;

const badness = (c: HoseCurve): number => (Number.isFinite(c.shape.residual) ? c.shape.residual : 1e9) + c.cost * 1e-6;

/** The cheapest few that differ in their ends or in where they go. */
export function distinct(curves: readonly HoseCurve[], count: number): HoseCurve[] {
  const kept: HoseCurve[] = [];
  for (const curve of [...curves].sort((p, q) => p.cost - q.cost)) {
    if (kept.length >= count) break;
    if (!kept.some((other) => isSame(curve, other))) kept.push(curve);
  }
  return kept;
}

function isSame(p: HoseCurve, q: HoseCurve): boolean {
  const ends = p.a.makeUp === q.a.makeUp && p.b.makeUp === q.b.makeUp && p.a.adapterClockRad === q.a.adapterClockRad;
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
