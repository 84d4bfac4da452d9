import { iceKelvin, pascalsPerPsi } from '#units';

/**
 * Density of petrol at a temperature from its density at 15 C.
 *
 *     rho = rho15 exp(-a dT (1 + 0.8 a dT)),   a = (346.4228 + 0.4388 rho15)/rho15^2,   dT = T - 15
 *
 * @param temperatureC - of the petrol [C]
 * @param densityAt15KgM3 - as stated on its sheet [kg/m3]
 * @returns density [kg/m3]
 * @valid -30 <= temperatureC <= 80, 653 <= densityAt15KgM3 <= 800
 * @source api-mpms-11-1 petrol, constants recalled
 * @example petrolDensity(40, 745) // 722.2
 */
export function petrolDensity(temperatureC: number, densityAt15KgM3: number): number {
  const swell = ((346.4228 + 0.4388 * densityAt15KgM3) / densityAt15KgM3 ** 2) * (temperatureC - 15);
  return densityAt15KgM3 * Math.exp(-swell * (1 + 0.8 * swell));
}

/** Molar masses [kg/kmol]. */
const ethanolMolar = 46.069;
const isoOctaneMolar = 114.231;

/**
 * Density of ethanol.
 *
 *     rho = 46.069 x 1.6288/0.27469^(1 + (1 - T/514)^0.23178)
 *
 * @param temperatureC - of the ethanol [C]
 * @returns density [kg/m3]
 * @valid -100 <= temperatureC <= 200
 * @source perry-liquids table 2-32
 * @example ethanolDensity(20) // 790
 */
export const ethanolDensity = (temperatureC: number): number =>
  (ethanolMolar * 1.6288) / 0.27469 ** (1 + (1 - (temperatureC + iceKelvin) / 514) ** 0.23178);

/**
 * Dynamic viscosity of ethanol.
 *
 *     mu = exp(7.875 + 781.98/T - 3.0418 ln T)
 *
 * @param temperatureC - of the ethanol [C]
 * @returns dynamic viscosity [Pa s]
 * @valid -73 <= temperatureC <= 167
 * @source perry-liquids table 2-313
 * @example ethanolViscosity(20) // 0.00119
 */
export function ethanolViscosity(temperatureC: number): number {
  const kelvin = temperatureC + iceKelvin;
  return Math.exp(7.875 + 781.98 / kelvin - 3.0418 * Math.log(kelvin));
}

/**
 * Dynamic viscosity of iso-octane, which stands in for petrol (0.4 to 0.7 mPa s at 20 C).
 *
 *     mu = exp(-12.928 + 1137.5/T + 0.25725 ln T)
 *
 * @param temperatureC - of the fuel [C]
 * @returns dynamic viscosity [Pa s]
 * @valid -100 <= temperatureC <= 150
 * @source perry-liquids table 2-313
 * @example isoOctaneViscosity(20) // 0.000507
 */
export function isoOctaneViscosity(temperatureC: number): number {
  const kelvin = temperatureC + iceKelvin;
  return Math.exp(-12.928 + 1137.5 / kelvin + 0.25725 * Math.log(kelvin));
}

/**
 * Specific heat of ethanol.
 *
 *     c = (102640 - 139.63 T - 0.030341 T^2 + 0.0020386 T^3)/46.069
 *
 * @param temperatureC - of the ethanol [C]
 * @returns specific heat [J/(kg K)]
 * @valid -100 <= temperatureC <= 110
 * @source perry-liquids table 2-153
 * @example ethanolSpecificHeat(25) // 2439
 */
export function ethanolSpecificHeat(temperatureC: number): number {
  const kelvin = temperatureC + iceKelvin;
  return (102_640 - 139.63 * kelvin - 0.030341 * kelvin ** 2 + 0.0020386 * kelvin ** 3) / ethanolMolar;
}

/**
 * Specific heat of iso-octane, which stands in for petrol.
 *
 *     c = (95275 + 696.7 T - 1.3765 T^2 + 0.0021734 T^3)/114.231
 *
 * @param temperatureC - of the fuel [C]
 * @returns specific heat [J/(kg K)]
 * @valid -100 <= temperatureC <= 240
 * @source perry-liquids table 2-153
 * @example isoOctaneSpecificHeat(20) // 2066
 */
export function isoOctaneSpecificHeat(temperatureC: number): number {
  const kelvin = temperatureC + iceKelvin;
  return (95_275 + 696.7 * kelvin - 1.3765 * kelvin ** 2 + 0.0021734 * kelvin ** 3) / isoOctaneMolar;
}

/**
 * Thermal conductivity of ethanol.
 *
 *     k = 0.2468 - 0.000264 T
 *
 * @param temperatureC - of the ethanol [C]
 * @returns thermal conductivity [W/(m K)]
 * @valid -100 <= temperatureC <= 80
 * @source perry-liquids table 2-315
 * @example ethanolConductivity(20) // 0.1694
 */
export const ethanolConductivity = (temperatureC: number): number => 0.2468 - 0.000264 * (temperatureC + iceKelvin);

/**
 * Thermal conductivity of iso-octane, which stands in for petrol (with its aromatics a fifth higher).
 *
 *     k = 0.1659 - 0.00022686 T
 *
 * @param temperatureC - of the fuel [C]
 * @returns thermal conductivity [W/(m K)]
 * @valid -100 <= temperatureC <= 99
 * @source perry-liquids table 2-315
 * @example isoOctaneConductivity(20) // 0.0994
 */
export const isoOctaneConductivity = (temperatureC: number): number => 0.1659 - 0.00022686 * (temperatureC + iceKelvin);

const rankine = (temperatureC: number): number => (temperatureC + iceKelvin) * 1.8;
/** Root of the slope of the distillation curve at 10 % [degF per %], 3 for motor petrol. */
const rootSlope = Math.sqrt(3);

/**
 * True vapour pressure of motor petrol from its Reid vapour pressure.
 *
 *     ln P = A - B/T,  A = 15.64 - 1.854 S^0.5 - (0.8742 - 0.328 S^0.5) ln R,  B = 8742 - 1042 S^0.5 - (1049 - 179.4 S^0.5) ln R
 *
 * with P and R in psi, T in degrees Rankine, S = 3. To some 5 % up to 40 C, drawn on to 80.
 *
 * @param temperatureC - of the petrol [C]
 * @param reidKpa - Reid vapour pressure, at 37.8 C [kPa]
 * @returns absolute pressure [Pa]
 * @valid -30 <= temperatureC <= 80, 20 <= reidKpa <= 110
 * @source epa-ap-42-7-1 notes to table 7.1-2
 * @example petrolVapourPressure(15.556, 68.948) // 35755
 */
export function petrolVapourPressure(temperatureC: number, reidKpa: number): number {
  const logReid = Math.log((reidKpa * 1000) / pascalsPerPsi);
  const a = 15.64 - 1.854 * rootSlope - (0.8742 - 0.328 * rootSlope) * logReid;
  const b = 8742 - 1042 * rootSlope - (1049 - 179.4 * rootSlope) * logReid;
  return pascalsPerPsi * Math.exp(a - b / rankine(temperatureC));
}

/** Millimetre of mercury [Pa]. */
const pascalsPerMmHg = 133.322;

/**
 * Vapour pressure of ethanol.
 *
 *     log10 p = 8.247 - 1670.4/(T + 232.96), p in mm of mercury, T in C
 *
 * @param temperatureC - of the ethanol [C]
 * @returns absolute pressure [Pa]
 * @valid 0 <= temperatureC <= 78; drawn on to -30 and 80
 * @source epa-ap-42-7-1 table 7.1-3
 * @example ethanolVapourPressure(78.3) // 101234
 */
export const ethanolVapourPressure = (temperatureC: number): number =>
  pascalsPerMmHg * 10 ** (8.247 - 1670.4 / (temperatureC + 232.96));
