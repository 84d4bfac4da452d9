import { standardAtmospherePa } from '#units';
import { aeratedLiquid } from '../fluids/aerated-oil.ts';
import { airDensity, airViscosity } from '../fluids/air.ts';
import type { FluidState } from '../fluids/fluid-state.ts';

/** Oil and air going the same way at the same speed. */
export interface Froth {
  readonly fluid: FluidState;
  readonly voidShare: number;
  /** The thinnest and thickest that models of its viscosity give, as fluids. */
  readonly thinnest: FluidState;
  readonly thickest: FluidState;
}

/** Below this share of air a flow is taken as liquid: models of froth are then all one. */
const LEAST_VOID = 1e-6;

/** The air outside where no case says [Pa]. */
export const OUTSIDE_PA = standardAtmospherePa;

/**
 * Oil and air flowing together, each by volume at this pressure. Homogeneous model; the viscosity is Beattie and Whalley's, the
 * models' spread is carried along.
 */
export function froth(oil: FluidState, temperatureC: number, oilM3S: number, airM3S: number, absPa: number): Froth {
  const voidShare = airM3S / Math.max(oilM3S + airM3S, 1e-12);
  if (voidShare < LEAST_VOID) return { fluid: oil, voidShare: 0, thinnest: oil, thickest: oil };
  const air = { densityKgM3: airDensity(temperatureC, absPa), viscosityPaS: airViscosity(temperatureC) };
  const mix = aeratedLiquid(oil, air, Math.min(voidShare, 0.999), absPa);
  const as = (viscosityPaS: number): FluidState => ({ ...oil, densityKgM3: mix.densityKgM3, viscosityPaS });
  return {
    fluid: as(mix.viscosityPaS.beattieWhalley),
    voidShare,
    thinnest: as(mix.viscosityPaS.least),
    thickest: as(mix.viscosityPaS.most),
  };
}
