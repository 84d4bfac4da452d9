import {
  caseOf,
  type CaseOf,
  type LiquidFlow,
  liquidFlow,
  netInto,
  type ReadyCircuit,
} from '../circuit/circuit-state.ts';
import type { Element } from '../circuit/elements.ts';
import { drainedInto } from '../dry-sump/dry-sump-state.ts';
import { froth, OUTSIDE_PA } from '../dry-sump/froth.ts';
import { deliveredShare } from './delivered-share.ts';

/** The pressure side at one engine speed, temperature and share of air in the feed. */
export interface PressurePoint {
  /** In the gallery, above the air outside [Pa]. */
  readonly galleryPa: number;
  /** Oil and air taken in by the pump, by volume at its inlet [m3/s]. */
  readonly drawnM3S: number;
  /** Of what the pump delivers, the share that arrives in each vessel asked for [-]; they add up to 1. */
  readonly shares: readonly number[];
}

/** A point before it is read; the liquid's lines are taken apart for nobody here. */
interface Solved {
  readonly liquid: LiquidFlow;
  readonly drawnM3S: number;
}

/** Steps of the grid: fine against the relief valve's opening and oil's viscosity, coarse enough for a few hundred solutions. */
const RPM_STEP = 250;
const HOT_STEP_C = 10;
/** Shares of air in the feed; at 1 nothing is delivered. */
const AIR = [0, 0.05, 0.1, 0.2, 0.35, 0.5, 0.7, 0.85, 1] as const;
const MOST_ROUNDS = 30;
/** Where the search for the pressure begins [Pa]. */
const FIRST_PA = 2e5;
/** The gallery's pressure is settled when it moves less than this [Pa]. */
const SETTLED_PA = 1;

/**
 * The pressure side as a table over rpm, temperature and air, each point solved once, when it is first asked for, from a
 * cold start: what it says does not hang on the order of asking. Between points it is linear, so that it rises where the points do.
 */
export class PressureTable {
  private readonly points = new Map<number, PressurePoint>();
  private readonly ready: ReadyCircuit;
  private readonly vessels: readonly string[];
  private readonly gallery: string | undefined;
  /** What could not be solved, in a line each. */
  readonly faults: string[] = [];

  constructor(ready: ReadyCircuit, vessels: readonly string[]) {
    this.ready = ready;
    this.vessels = vessels;
    const first = this.solved(5000, 100, 0);
    this.gallery = first?.liquid.passages
      .filter(({ flowM3S }) => flowM3S > 0)
      .toSorted((a, b) => b.dropPa * b.flowM3S - a.dropPa * a.flowM3S)[0]?.id;
    this.points.clear();
  }

  get size(): number {
    return this.points.size;
  }

  /** Between the points: [gallery Pa, drawn m3/s, shares...] into `into`. */
  at(rpm: number, oilC: number, air: number, into: Float64Array): void {
    const r = Math.max(0, rpm) / RPM_STEP;
    const t = oilC / HOT_STEP_C;
    let k = 0;
    while (k < AIR.length - 2 && air > AIR[k + 1]!) k++;
    const [r0, t0] = [Math.floor(r), Math.floor(t)];
    const [fr, ft] = [r - r0, t - t0];
    const fa = Math.min(1, Math.max(0, (air - AIR[k]!) / (AIR[k + 1]! - AIR[k]!)));
    into.fill(0);
    for (let corner = 0; corner < 8; corner++) {
      const [a, b, c] = [corner & 1, (corner >> 1) & 1, corner >> 2];
      const weight = (a === 1 ? fr : 1 - fr) * (b === 1 ? ft : 1 - ft) * (c === 1 ? fa : 1 - fa);
      if (weight === 0) continue;
      const point = this.point(r0 + a, t0 + b, k + c);
      into[0]! += weight * point.galleryPa;
      into[1]! += weight * point.drawnM3S;
      for (let i = 0; i < this.vessels.length; i++) into[2 + i]! += weight * point.shares[i]!;
    }
  }

  private point(r: number, t: number, k: number): PressurePoint {
    const key = (r * 1000 + t + 200) * AIR.length + k;
    const had = this.points.get(key);
    if (had !== undefined) return had;
    const made = this.made(r * RPM_STEP, t * HOT_STEP_C, AIR[k]!);
    this.points.set(key, made);
    return made;
  }

  private made(rpm: number, oilC: number, air: number): PressurePoint {
    const even = this.vessels.map(() => 1 / this.vessels.length);
    if (rpm === 0) return { galleryPa: 0, drawnM3S: 0, shares: even };
    const solved = this.solved(rpm, oilC, Math.min(air, 0.98));
    if (solved === undefined) return { galleryPa: 0, drawnM3S: 0, shares: even };
    const { liquid, drawnM3S } = solved;
    const drained = drainedInto(this.ready, liquid);
    const arrive = this.vessels.map((part) =>
      Math.max(0, Math.max(0, netInto(this.ready, liquid, part)) + (drained.get(part) ?? 0)),
    );
    const sum = arrive.reduce((a, b) => a + b, 0);
    return {
      galleryPa: air === 1 ? 0 : Math.max(0, this.galleryOf(liquid)),
      drawnM3S: Math.max(0, drawnM3S),
      shares: sum > 0 ? arrive.map((m3s) => m3s / sum) : even,
    };
  }

  private galleryOf(liquid: LiquidFlow): number {
    return liquid.passages.find(({ id }) => id === this.gallery)?.fromPa ?? 0;
  }

  /**
   * The liquid part with so much air in the feed; the air is squeezed by the pressure that it meets. More pressure squeezes more,
   * which lets less through: where both agree is closed in on by secants, held between what was too little and too much.
   */
  private solved(rpm: number, oilC: number, air: number): Solved | undefined {
    const asked = caseOf(this.ready, { id: 'lap', engineRpm: rpm, oilC });
    if (typeof asked === 'string') return this.fault(asked);
    let pa = FIRST_PA;
    let [low, high] = [0, Number.POSITIVE_INFINITY];
    let before: { readonly pa: number; readonly off: number } | undefined;
    let last: Solved | undefined;
    for (let round = 0; round < MOST_ROUNDS; round++) {
      const share = deliveredShare(air, OUTSIDE_PA, OUTSIDE_PA + pa);
      const liquid = liquidFlow(squeezed(this.ready, share), aerated(asked, air, pa), () => 0, last?.liquid.answer);
      if ('why' in liquid) return this.fault(liquid.why);
      const delivered = liquid.pumps.reduce((sum, { flowM3S, reliefM3S }) => sum + flowM3S - reliefM3S, 0);
      last = { liquid, drawnM3S: delivered / share };
      const off = Math.max(0, this.galleryOf(liquid)) - pa;
      if (air === 0 || Math.abs(off) < SETTLED_PA) return last;
      if (off > 0) low = pa;
      else high = pa;
      const next = before === undefined ? pa + off / 2 : pa - (off * (pa - before.pa)) / (off - before.off);
      before = { pa, off };
      const middle = Number.isFinite(high) ? (low + high) / 2 : pa + off / 2;
      pa = next > low && next < high ? next : middle;
    }
    return last;
  }

  private fault(why: string): undefined {
    if (!this.faults.includes(why)) this.faults.push(why);
    return undefined;
  }
}

/** The pumps of a circuit delivering a share of what they sweep. */
function squeezed(ready: ReadyCircuit, share: number): ReadyCircuit {
  if (share === 1) return ready;
  const liquid = ready.sorted.liquid.map((element): Element => {
    if (element.kind !== 'pump') return element;
    return {
      ...element,
      law: (fluid, at, temperatureC) => {
        const law = element.law(fluid, at, temperatureC);
        return (flowM3S) => {
          const { dropPa, slope } = law(flowM3S / share);
          return { dropPa, slope: slope / share };
        };
      },
    };
  });
  return { ...ready, sorted: { ...ready.sorted, liquid } };
}

function aerated(asked: CaseOf, air: number, pa: number): CaseOf {
  if (air === 0) return asked;
  const abs = OUTSIDE_PA + pa;
  const { fluid } = froth(asked.fluid, asked.temperatureC, 1 - air, (air * OUTSIDE_PA) / abs, abs);
  return { ...asked, fluid };
}
