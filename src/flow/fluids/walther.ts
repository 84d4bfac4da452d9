import { iceKelvin } from '#units';

/**
 * Z of the viscosity-temperature equation, the number whose double logarithm is straight over the logarithm of temperature.
 *
 *     Z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v^2)
 *
 * The exponential counts below 2 mm2/s only.
 *
 * @param viscosityCSt - kinematic viscosity [mm2/s]
 * @returns Z [mm2/s]
 * @valid 0.21 <= viscosityCSt <= 2e7
 * @source astm-d341
 * @example waltherZ(14) // 14.700
 */
export const waltherZ = (viscosityCSt: number): number =>
  viscosityCSt + 0.7 + Math.exp(-1.47 - 1.84 * viscosityCSt - 0.51 * viscosityCSt ** 2);

/**
 * Kinematic viscosity that belongs to Z; the standard's inverse, which gives the viscosity back to 0.03 %.
 *
 *     v = Y - exp(-0.7487 - 3.295 Y + 0.6119 Y^2 - 0.3193 Y^3),   Y = Z - 0.7
 *
 * @param z - Z [mm2/s]
 * @returns kinematic viscosity [mm2/s]
 * @valid 1.05 <= z <= 2e7
 * @source astm-d341
 * @example viscosityOfWaltherZ(14.7) // 14.00
 */
export function viscosityOfWaltherZ(z: number): number {
  const y = z - 0.7;
  return y - Math.exp(-0.7487 - 3.295 * y + 0.6119 * y ** 2 - 0.3193 * y ** 3);
}

/** The line log10 log10 Z = a - b log10 T, T in kelvin. */
export interface WaltherLine {
  readonly a: number;
  readonly b: number;
}

/** A viscosity that was measured. */
export interface ViscosityPoint {
  readonly temperatureC: number;
  /** Kinematic [mm2/s]. */
  readonly cSt: number;
}

const loglogZ = (viscosityCSt: number): number => Math.log10(Math.log10(waltherZ(viscosityCSt)));
const logKelvin = (temperatureC: number): number => Math.log10(temperatureC + iceKelvin);

/** The line through two points; their temperatures must differ. */
export function waltherLine(one: ViscosityPoint, other: ViscosityPoint): WaltherLine {
  const b = (loglogZ(one.cSt) - loglogZ(other.cSt)) / (logKelvin(other.temperatureC) - logKelvin(one.temperatureC));
  return { a: loglogZ(one.cSt) + b * logKelvin(one.temperatureC), b };
}

/** Kinematic viscosity on the line [mm2/s]; infinite where it leaves all numbers. */
export const viscosityOnLine = (line: WaltherLine, temperatureC: number): number =>
  viscosityOfWaltherZ(10 ** (10 ** (line.a - line.b * logKelvin(temperatureC))));

/**
 * Kinematic viscosity of a mineral oil at a temperature from two measured points.
 *
 *     log10 log10 Z = A - B log10 T,   Z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v^2)
 *
 * Between the points good to 2 % or so; below them it is an extrapolation: waxing and thickened (multigrade) oils leave the line when cold.
 *
 * @param temperatureC - asked for [C]
 * @param firstC - temperature of the first point [C]
 * @param firstCSt - viscosity there [mm2/s]
 * @param secondC - temperature of the second point [C]
 * @param secondCSt - viscosity there [mm2/s]
 * @returns kinematic viscosity [mm2/s]
 * @valid -40 <= temperatureC <= 160, 0.21 <= firstCSt <= 2e7, 0.21 <= secondCSt <= 2e7, firstC differs from secondC
 * @source astm-d341
 * @example viscosityBetween(60, 40, 100, 100, 14) // 44.51
 */
export const viscosityBetween = (
  temperatureC: number,
  firstC: number,
  firstCSt: number,
  secondC: number,
  secondCSt: number,
): number =>
  viscosityOnLine(
    waltherLine({ temperatureC: firstC, cSt: firstCSt }, { temperatureC: secondC, cSt: secondCSt }),
    temperatureC,
  );
