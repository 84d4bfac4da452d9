import { mixtureCompressibility, mixtureDensity, qualityOfVoid } from './aeration.ts';
import type { FluidState } from './fluid-state.ts';
import {
  viscosityBeattieWhalley,
  viscosityCicchitti,
  viscosityDukler,
  viscosityMcAdams,
  viscosityOfFewBubbles,
} from './mixture-viscosity.ts';

/** Bulk modulus of mineral oil, from memory: 1.2e9 to 1.8e9 [Pa]. */
export const oilBulkPa = 1.5e9;

/** Liquid and the gas in it as one fluid. */
export interface AeratedLiquid {
  readonly voidFraction: number;
  readonly quality: number;
  readonly densityKgM3: number;
  readonly compressibilityPerPa: number;
  /** No model is right for all: they differ by a factor of two at 0.3 void, of three at 0.5. */
  readonly viscosityPaS: {
    readonly mcAdams: number;
    readonly cicchitti: number;
    readonly dukler: number;
    readonly beattieWhalley: number;
    readonly fewBubbles: number;
    readonly least: number;
    readonly most: number;
  };
}

/**
 * A liquid with gas in it at one speed, from both at their temperature and pressure, with the spread of the viscosity models.
 *
 * @param liquid - the liquid
 * @param gas - the gas, at the same pressure
 * @param voidFraction - gas by volume at this pressure, 0 to 1
 * @param pressureAbsPa - absolute, above 0 [Pa]
 * @param liquidBulkPa - bulk modulus of the liquid [Pa]
 */
export function aeratedLiquid(
  liquid: Pick<FluidState, 'densityKgM3' | 'viscosityPaS'>,
  gas: Pick<FluidState, 'densityKgM3' | 'viscosityPaS'>,
  voidFraction: number,
  pressureAbsPa: number,
  liquidBulkPa = oilBulkPa,
): AeratedLiquid {
  const quality = qualityOfVoid(voidFraction, liquid.densityKgM3, gas.densityKgM3);
  const models = {
    mcAdams: viscosityMcAdams(quality, liquid.viscosityPaS, gas.viscosityPaS),
    cicchitti: viscosityCicchitti(quality, liquid.viscosityPaS, gas.viscosityPaS),
    dukler: viscosityDukler(voidFraction, liquid.viscosityPaS, gas.viscosityPaS),
    beattieWhalley: viscosityBeattieWhalley(voidFraction, liquid.viscosityPaS, gas.viscosityPaS),
    fewBubbles: viscosityOfFewBubbles(voidFraction, liquid.viscosityPaS),
  };
  const values = Object.values(models);
  return {
    voidFraction,
    quality,
    densityKgM3: mixtureDensity(voidFraction, liquid.densityKgM3, gas.densityKgM3),
    compressibilityPerPa: mixtureCompressibility(voidFraction, pressureAbsPa, liquidBulkPa),
    viscosityPaS: { ...models, least: Math.min(...values), most: Math.max(...values) },
  };
}
