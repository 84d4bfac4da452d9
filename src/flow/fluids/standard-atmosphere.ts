import { iceKelvin, standardAtmospherePa, standardGravity } from '#units';
import { airGasConstantJKgK } from './air.ts';

/** Earth's radius that the atmosphere was drawn up with [m]. */
const earthRadiusM = 6_356_766;
const seaLevelKelvin = 288.15;
/** Cooling with height [K/m]. */
const lapseKM = 0.0065;

/** Height in a field of steady gravity that needs the same work [m]. */
const geopotentialM = (altitudeM: number): number => (earthRadiusM * altitudeM) / (earthRadiusM + altitudeM);

/**
 * Temperature of the standard atmosphere. A hot day is another matter: use the day's own.
 *
 *     T = 288.15 K - 0.0065 H,   H = 6356766 z/(6356766 + z)
 *
 * @param altitudeM - height above sea level [m]
 * @returns temperature [C]
 * @valid -500 <= altitudeM <= 11000
 * @source us-standard-atmosphere
 * @example standardTemperature(2000) // 2.00
 */
export const standardTemperature = (altitudeM: number): number =>
  seaLevelKelvin - lapseKM * geopotentialM(altitudeM) - iceKelvin;

/**
 * Pressure of the standard atmosphere; the weather adds or takes 3 %.
 *
 *     p = 101325 Pa (T/288.15 K)^(g/(R 0.0065))
 *
 * @param altitudeM - height above sea level [m]
 * @returns absolute pressure [Pa]
 * @valid -500 <= altitudeM <= 11000
 * @source us-standard-atmosphere
 * @example standardPressure(2000) // 79501
 */
export const standardPressure = (altitudeM: number): number =>
  standardAtmospherePa *
  ((standardTemperature(altitudeM) + iceKelvin) / seaLevelKelvin) ** (standardGravity / (airGasConstantJKgK * lapseKM));
