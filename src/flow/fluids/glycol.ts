import { iceKelvin } from '#units';
import { waterVapourPressure } from './saturation.ts';

/** Coefficients of (T - 304.878 K)^row (w - 0.308462)^column. Source: melinder-2010. */
type Coefficients = readonly (readonly number[])[];

const baseKelvin = 304.878;
const baseFraction = 0.308462;

const density: Coefficients = [
  [1034, 131.1, 0.749, -106.2, -96.23, 489.1],
  [-0.4781, -0.6876, 0.7855, 1.229, -7.211],
  [-0.002692, 0.004805, -0.003995, -0.01153],
  [4.725e-6, 1.69e-6, 4.982e-5],
];
const specificHeat: Coefficients = [
  [3737, -1799, -993.3, 2610, 1537, -16_180],
  [2.93, 10.46, 3.516, -1.189, -42.72],
  [-0.004675, -0.04147, 0.05109, -0.1643],
  [-1.389e-5, 1.847e-5, -7.138e-4],
];
const conductivity: Coefficients = [
  [0.472, -0.4286, 0.1747, 0.03017, -0.1322, 0.2678],
  [8.903e-4, -1.473e-3, 6.814e-4, -2.412e-3, 2.555e-3],
  [-1.058e-6, 1.059e-5, -3.612e-5, 4.004e-5],
  [-2.789e-9, -1.142e-8, 2.365e-8],
];
/** Of the natural logarithm of the viscosity in mPa s. */
const logViscosity: Coefficients = [
  [0.4705, 2.471, 0.03328, 1.659, 3.089, -18.65],
  [-0.0255, -0.01171, 0.01086, 0.003157, 0.01831],
  [1.782e-4, 1.052e-4, 1.051e-4, 4.063e-4],
  [-7.669e-7, -1.634e-6, -6.475e-6],
];
/** Kelvin, at w alone. */
const freezing: Coefficients = [[257.9, -80.8, -133.4, -72.93, 100.6, 11.4]];

/** The sum of the coefficients times powers, by Horner's rule. */
function polynomial(coefficients: Coefficients, temperatureC: number, massFraction: number): number {
  const t = temperatureC + iceKelvin - baseKelvin;
  const w = massFraction - baseFraction;
  return coefficients.reduceRight((total, row) => total * t + row.reduceRight((sum, c) => sum * w + c, 0), 0);
}

/** Where the correlation ends [C]; above, viscosity goes on as exp(B/T) through its last twenty kelvin. */
export const glycolFitEndsC = 100;
const slopeFromC = 80;

/**
 * Density of aqueous ethylene glycol. Pure glycol and water: coolants with inhibitors are up to 1 % denser.
 *
 *     rho = sum c_ij (T - 304.878 K)^i (w - 0.308462)^j
 *
 * @param temperatureC - of the mix [C]
 * @param massFraction - glycol in the mix by mass [-]
 * @returns density [kg/m3]
 * @valid freezing point <= temperatureC <= 100, drawn on to 130; 0 <= massFraction <= 0.6
 * @source melinder-2010
 * @example glycolDensity(20, 0.5) // 1064.9
 */
export const glycolDensity = (temperatureC: number, massFraction: number): number =>
  polynomial(density, temperatureC, massFraction);

/**
 * Specific heat of aqueous ethylene glycol.
 *
 *     c = sum c_ij (T - 304.878 K)^i (w - 0.308462)^j
 *
 * @param temperatureC - of the mix [C]
 * @param massFraction - glycol in the mix by mass [-]
 * @returns specific heat [J/(kg K)]
 * @valid freezing point <= temperatureC <= 100, drawn on to 130; 0 <= massFraction <= 0.6
 * @source melinder-2010
 * @example glycolSpecificHeat(90, 0.5) // 3616
 */
export const glycolSpecificHeat = (temperatureC: number, massFraction: number): number =>
  polynomial(specificHeat, temperatureC, massFraction);

/**
 * Thermal conductivity of aqueous ethylene glycol.
 *
 *     k = sum c_ij (T - 304.878 K)^i (w - 0.308462)^j
 *
 * @param temperatureC - of the mix [C]
 * @param massFraction - glycol in the mix by mass [-]
 * @returns thermal conductivity [W/(m K)]
 * @valid freezing point <= temperatureC <= 100, drawn on to 130; 0 <= massFraction <= 0.6
 * @source melinder-2010
 * @example glycolConductivity(90, 0.5) // 0.4315
 */
export const glycolConductivity = (temperatureC: number, massFraction: number): number =>
  polynomial(conductivity, temperatureC, massFraction);

/**
 * Dynamic viscosity of aqueous ethylene glycol. The measurements behind it end at 40 C: to 100 C hold it good to 15 %.
 *
 *     ln mu = sum c_ij (T - 304.878 K)^i (w - 0.308462)^j, mu in mPa s; above 100 C ln mu = a + B/T through 80 and 100 C
 *
 * @param temperatureC - of the mix [C]
 * @param massFraction - glycol in the mix by mass [-]
 * @returns dynamic viscosity [Pa s]
 * @valid freezing point <= temperatureC <= 100, drawn on to 130; 0 <= massFraction <= 0.6
 * @source melinder-2010
 * @example glycolViscosity(90, 0.5) // 0.0008195
 */
export function glycolViscosity(temperatureC: number, massFraction: number): number {
  const logAt = (celsius: number): number => polynomial(logViscosity, celsius, massFraction);
  if (temperatureC <= glycolFitEndsC) return 1e-3 * Math.exp(logAt(temperatureC));
  const per = (celsius: number): number => 1 / (celsius + iceKelvin);
  const slope = (logAt(slopeFromC) - logAt(glycolFitEndsC)) / (per(slopeFromC) - per(glycolFitEndsC));
  return 1e-3 * Math.exp(logAt(glycolFitEndsC) + slope * (per(temperatureC) - per(glycolFitEndsC)));
}

/**
 * Temperature at which the first ice forms in aqueous ethylene glycol.
 *
 *     T = sum c_j (w - 0.308462)^j
 *
 * @param massFraction - glycol in the mix by mass [-]
 * @returns freezing point [C]
 * @valid 0 <= massFraction <= 0.6
 * @source melinder-2010
 * @example glycolFreezingPoint(0.5) // -36.0
 */
export const glycolFreezingPoint = (massFraction: number): number => polynomial(freezing, 0, massFraction) - iceKelvin;

/** Molar masses [g/mol]. */
const waterMolarG = 18.015;
const glycolMolarG = 62.068;

/**
 * Vapour pressure of aqueous ethylene glycol by Raoult's law, the glycol's own vapour neglected (2 % of the whole at 50 % and 110 C).
 *
 *     p = x p_water(T),   x = ((1 - w)/18.015)/((1 - w)/18.015 + w/62.068)
 *
 * @param temperatureC - of the mix [C]
 * @param massFraction - glycol in the mix by mass [-]
 * @returns absolute pressure [Pa]
 * @valid -40 <= temperatureC <= 130, 0 <= massFraction <= 0.6
 * @source raoult
 * @example glycolVapourPressure(100, 0.5) // 78604
 */
export function glycolVapourPressure(temperatureC: number, massFraction: number): number {
  const water = (1 - massFraction) / waterMolarG;
  const glycol = massFraction / glycolMolarG;
  return (water / (water + glycol)) * waterVapourPressure(temperatureC);
}

/** Densities at 20 C [kg/m3]. */
const pureGlycolKgM3 = 1113.2;
const pureWaterKgM3 = 998.2;

/**
 * Mass fraction of glycol in a coolant that was mixed by volume at 20 C.
 *
 *     w = 1113.2 v/(1113.2 v + 998.2 (1 - v))
 *
 * @param volumeFraction - glycol poured in, over glycol and water poured in [-]
 * @returns mass fraction of glycol [-]
 * @valid 0 <= volumeFraction <= 1
 * @source from-memory densities at 20 C
 * @example glycolMassFraction(0.5) // 0.527
 */
export function glycolMassFraction(volumeFraction: number): number {
  const glycol = volumeFraction * pureGlycolKgM3;
  return glycol / (glycol + (1 - volumeFraction) * pureWaterKgM3);
}
