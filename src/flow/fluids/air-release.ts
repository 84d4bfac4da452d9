import { iceKelvin, standardAtmospherePa } from '#units';

/** Air that mineral oil dissolves under one atmosphere, by volume. Source: oil-under-vacuum says about a tenth; 0.09 from memory. */
export const oilBunsen = 0.09;

/**
 * Air that a liquid holds dissolved when it has stood long enough, in proportion to the pressure.
 *
 *     V = B p/101325 Pa
 *
 * @param bunsen - volume of air (0 C, 1 atm) that a volume of liquid dissolves under 1 atm; 0.09 for mineral oil [-]
 * @param pressureAbsPa - absolute pressure [Pa]
 * @returns air at 0 C and 1 atm over volume of liquid [-]
 * @valid 0 <= bunsen <= 0.5, 0 <= pressureAbsPa <= 1e7
 * @source boyle-henry
 * @example dissolvedAir(0.09, 200000) // 0.17765
 */
export const dissolvedAir = (bunsen: number, pressureAbsPa: number): number =>
  (bunsen * pressureAbsPa) / standardAtmospherePa;

/**
 * Air that comes out of a liquid full of it when the pressure falls and time is given, as it stands then.
 *
 *     V = B (p1 - p2)/p2 T/273.15 K, none when p2 >= p1
 *
 * The most that can come: in a pump inlet there is time for a part of it only.
 *
 * @param bunsen - volume of air (0 C, 1 atm) that a volume of liquid dissolves under 1 atm [-]
 * @param fromAbsPa - absolute pressure that it stood under [Pa]
 * @param toAbsPa - absolute pressure now [Pa]
 * @param temperatureC - of the liquid [C]
 * @returns free air at the lower pressure over volume of liquid [-]
 * @valid 0 <= bunsen <= 0.5, fromAbsPa > 0, toAbsPa > 0, -40 <= temperatureC <= 160
 * @source boyle-henry
 * @example releasedAir(0.09, 101300, 70000, 0) // 0.040243
 */
export const releasedAir = (bunsen: number, fromAbsPa: number, toAbsPa: number, temperatureC: number): number =>
  (Math.max(0, dissolvedAir(bunsen, fromAbsPa) - dissolvedAir(bunsen, toAbsPa)) *
    standardAtmospherePa *
    (temperatureC + iceKelvin)) /
  (toAbsPa * iceKelvin);

/**
 * Void fraction that air makes which came out of a liquid.
 *
 *     a = V/(1 + V)
 *
 * @param releasedShare - free air over volume of liquid, at the pressure asked about [-]
 * @returns void fraction [-]
 * @valid releasedShare >= 0
 * @source boyle-henry
 * @example voidOfReleased(0.040243) // 0.038686
 */
export const voidOfReleased = (releasedShare: number): number => releasedShare / (1 + releasedShare);
