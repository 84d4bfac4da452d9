import { standardAtmospherePa } from '#units';

/**
 * Share of a mixture's volume that is gas, gas and liquid at one speed.
 *
 *     a = 1/(1 + ((1 - x)/x) rho_g/rho_l)
 *
 * @param quality - gas in the mixture by mass [-]
 * @param liquidKgM3 - density of the liquid [kg/m3]
 * @param gasKgM3 - density of the gas [kg/m3]
 * @returns void fraction [-]
 * @valid 0 <= quality <= 1, liquidKgM3 > 0, gasKgM3 > 0
 * @source two-phase-mixtures
 * @example voidOfQuality(0.4, 800, 2.5) // 0.995334
 */
export const voidOfQuality = (quality: number, liquidKgM3: number, gasKgM3: number): number =>
  quality / (quality + ((1 - quality) * gasKgM3) / liquidKgM3);

/**
 * Share of a mixture's mass that is gas, gas and liquid at one speed.
 *
 *     x = a rho_g/(a rho_g + (1 - a) rho_l)
 *
 * @param voidFraction - gas in the mixture by volume [-]
 * @param liquidKgM3 - density of the liquid [kg/m3]
 * @param gasKgM3 - density of the gas [kg/m3]
 * @returns quality [-]
 * @valid 0 <= voidFraction <= 1, liquidKgM3 > 0, gasKgM3 > 0
 * @source two-phase-mixtures
 * @example qualityOfVoid(0.2, 845, 1) // 2.9577e-4
 */
export const qualityOfVoid = (voidFraction: number, liquidKgM3: number, gasKgM3: number): number =>
  (voidFraction * gasKgM3) / (voidFraction * gasKgM3 + (1 - voidFraction) * liquidKgM3);

/**
 * Density of a mixture of gas and liquid at one speed.
 *
 *     rho = a rho_g + (1 - a) rho_l
 *
 * @param voidFraction - gas in the mixture by volume [-]
 * @param liquidKgM3 - density of the liquid [kg/m3]
 * @param gasKgM3 - density of the gas [kg/m3]
 * @returns density [kg/m3]
 * @valid 0 <= voidFraction <= 1, liquidKgM3 > 0, gasKgM3 > 0
 * @source two-phase-mixtures
 * @example mixtureDensity(0.2, 845, 1) // 676.2
 */
export const mixtureDensity = (voidFraction: number, liquidKgM3: number, gasKgM3: number): number =>
  voidFraction * gasKgM3 + (1 - voidFraction) * liquidKgM3;

/**
 * Void fraction at a pressure from that at standard atmosphere: free air squeezed by Boyle, nothing dissolved or released.
 *
 *     a = b/(b + 1 - a1),   b = a1 101325 Pa/p
 *
 * @param voidAtAtmosphere - void fraction at 101325 Pa [-]
 * @param pressureAbsPa - absolute pressure [Pa]
 * @returns void fraction [-]
 * @valid 0 <= voidAtAtmosphere <= 1, pressureAbsPa > 0
 * @source boyle-henry
 * @example voidAtPressure(0.1, 500000) // 0.022021
 */
export function voidAtPressure(voidAtAtmosphere: number, pressureAbsPa: number): number {
  const gas = (voidAtAtmosphere * standardAtmospherePa) / pressureAbsPa;
  return gas / (gas + 1 - voidAtAtmosphere);
}

/**
 * How much a mixture of gas and liquid gives under pressure, the gas kept at its temperature.
 *
 *     beta = a/p + (1 - a)/K
 *
 * @param voidFraction - gas in the mixture by volume, at this pressure [-]
 * @param pressureAbsPa - absolute pressure [Pa]
 * @param liquidBulkPa - bulk modulus of the liquid; 1.5e9 for oil [Pa]
 * @returns compressibility [1/Pa]
 * @valid 0 <= voidFraction <= 1, pressureAbsPa > 0, liquidBulkPa > 0
 * @source boyle-henry
 * @example mixtureCompressibility(0.02, 500000, 1.5e9) // 4.065e-8
 */
export const mixtureCompressibility = (voidFraction: number, pressureAbsPa: number, liquidBulkPa: number): number =>
  voidFraction / pressureAbsPa + (1 - voidFraction) / liquidBulkPa;
