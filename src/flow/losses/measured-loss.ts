import { linearQuadraticLaw } from './linear-quadratic.ts';
import type { Loss } from './loss.ts';
import { FlowError, needFluid, needPositive } from '../flow-error.ts';

/** One reading of a filter, cooler, gallery or hose end: flow, drop, and the fluid it was read with. */
export interface MeasuredPoint {
  readonly flowM3S: number;
  readonly dropPa: number;
  readonly viscosityPaS: number;
  readonly densityKgM3: number;
}

/** What the points say: dp = a mu Q + b rho Q^2. */
export interface MeasuredFit {
  /** a [1/m3]. */
  readonly viscousPerM3: number;
  /** b [1/m4]. */
  readonly inertiaPerM4: number;
  /** The largest miss of a point, as a share of its drop [-]. */
  readonly misfitShare: number;
  /** The point (from 0) that it misses most. */
  readonly misfitAt: number;
}

/** Two readings in fluids of viscosities this near may be compared for falling. */
const sameFluidShare = 0.02;
/** Where the points are all inertia, this share of the least drop is given to viscosity, so that the law rises at rest. */
const leastViscousShare = 1e-3;

/**
 * Fits dp = a mu Q + b rho Q^2 with a, b >= 0 to two points or more, by least squares of the relative misses; so the fit
 * carries over to other temperatures. Points that fall are refused by name: no such law goes through them.
 */
export function measuredFit(where: string, points: readonly MeasuredPoint[]): MeasuredFit {
  checkPoints(where, points);
  let uu = 0;
  let uv = 0;
  let vv = 0;
  let u1 = 0;
  let v1 = 0;
  for (const p of points) {
    const u = (p.viscosityPaS * p.flowM3S) / p.dropPa;
    const v = (p.densityKgM3 * p.flowM3S ** 2) / p.dropPa;
    uu += u * u;
    uv += u * v;
    vv += v * v;
    u1 += u;
    v1 += v;
  }
  const det = uu * vv - uv * uv;
  // Points that all have one ratio of the two parts cannot tell them apart: then all is given to viscosity or inertia alone.
  let a = det > 1e-12 * uu * vv ? (u1 * vv - v1 * uv) / det : -1;
  let b = det > 1e-12 * uu * vv ? (v1 * uu - u1 * uv) / det : -1;
  if (a < 0 || b < 0) [a, b] = bestAlone(uu, vv, u1, v1);
  const misses = points.map(
    (p) => Math.abs(a * p.viscosityPaS * p.flowM3S + b * p.densityKgM3 * p.flowM3S ** 2 - p.dropPa) / p.dropPa,
  );
  const misfitShare = Math.max(...misses);
  return { viscousPerM3: a, inertiaPerM4: b, misfitShare, misfitAt: misses.indexOf(misfitShare) };
}

/** Of the two one-term fits the one with the smaller sum of squares; each explains (sum)^2/square of it. */
function bestAlone(uu: number, vv: number, u1: number, v1: number): [number, number] {
  return (u1 * u1) / uu >= (v1 * v1) / vv ? [u1 / uu, 0] : [0, v1 / vv];
}

function checkPoints(where: string, points: readonly MeasuredPoint[]): void {
  if (points.length < 2)
    throw new FlowError(`${where}, measured points`, points.length, '2 points or more, each of flow and drop');
  points.forEach((p, i) => {
    needPositive(`${where}, flow of point ${i}`, p.flowM3S, 'm3/s');
    needPositive(`${where}, drop of point ${i}`, p.dropPa, 'Pa');
    needFluid(`${where}, point ${i}`, p);
  });
  const sorted = points.map((p, i) => ({ ...p, i })).sort((a, b) => a.flowM3S - b.flowM3S);
  for (const [k, p] of sorted.entries())
    for (const q of sorted.slice(k + 1)) {
      const sameFluid = Math.abs(q.viscosityPaS / p.viscosityPaS - 1) <= sameFluidShare;
      if (sameFluid && q.dropPa <= p.dropPa)
        throw new FlowError(
          `${where}, points ${p.i} and ${q.i}`,
          `${p.dropPa} Pa at ${p.flowM3S} m3/s, ${q.dropPa} Pa at ${q.flowM3S} m3/s`,
          'a drop that rises with the flow',
        );
    }
}

/** A part by its measured points. What it says of other fluids is as good as the fit; beyond the points it is extrapolated. */
export function measuredLoss(where: string, points: readonly MeasuredPoint[]): Loss & { readonly fit: MeasuredFit } {
  const fit = measuredFit(where, points);
  const least = points.reduce((a, b) => (a.flowM3S < b.flowM3S ? a : b));
  const floor = (leastViscousShare * least.dropPa) / (least.viscosityPaS * least.flowM3S);
  return {
    where,
    fit,
    under: (fluid) => {
      needFluid(where, fluid);
      const a = Math.max(fit.viscousPerM3, floor) * fluid.viscosityPaS;
      return linearQuadraticLaw(where, a, fit.inertiaPerM4 * fluid.densityKgM3);
    },
    times: [1 / (1 + fit.misfitShare), 1 + fit.misfitShare],
    source: 'builder',
    known: 'read',
  };
}
