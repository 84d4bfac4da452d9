import { iceKelvin } from '#units';

// n1 to n10 of equations 29 to 31. Source: iapws-if97.
const n1 = 0.11670521452767e4;
const n2 = -0.72421316703206e6;
const n3 = -0.17073846940092e2;
const n4 = 0.1202082470247e5;
const n5 = -0.32325550322333e7;
const n6 = 0.1491510861353e2;
const n7 = -0.48232657361591e4;
const n8 = 0.40511340542057e6;
const n9 = -0.23855557567849;
const n10 = 0.65017534844798e3;
const megapascal = 1e6;

/**
 * Vapour pressure of water: it boils when the pressure falls below.
 *
 *     p = (2 C/(-B + sqrt(B^2 - 4 A C)))^4,   A, B, C quadratic in t = T + n9/(T - n10)
 *
 * Below 0 C it is that of water still liquid, drawn on: 125 Pa at -20 C.
 *
 * @param temperatureC - of the water [C]
 * @returns absolute pressure [Pa]
 * @valid 0 <= temperatureC <= 350; drawn on to -50
 * @source iapws-if97 region 4, equation 30
 * @example waterVapourPressure(100) // 101418
 */
export function waterVapourPressure(temperatureC: number): number {
  const kelvin = temperatureC + iceKelvin;
  const t = kelvin + n9 / (kelvin - n10);
  const a = t ** 2 + n1 * t + n2;
  const b = n3 * t ** 2 + n4 * t + n5;
  const c = n6 * t ** 2 + n7 * t + n8;
  return megapascal * ((2 * c) / (-b + Math.sqrt(b ** 2 - 4 * a * c))) ** 4;
}

/**
 * Temperature at which water boils at a pressure.
 *
 *     T = (n10 + D - sqrt((n10 + D)^2 - 4 (n9 + n10 D)))/2,   D = 2 G/(-F - sqrt(F^2 - 4 E G))
 *
 * with E, F, G quadratic in b = (p/1 MPa)^(1/4).
 *
 * @param pressureAbsPa - absolute pressure on the water [Pa]
 * @returns boiling point [C]
 * @valid 611.213 <= pressureAbsPa <= 2.2e7
 * @source iapws-if97 region 4, equation 31
 * @example boilingPointOfWater(101325) // 99.974
 */
export function boilingPointOfWater(pressureAbsPa: number): number {
  const b = (pressureAbsPa / megapascal) ** 0.25;
  const e = b ** 2 + n3 * b + n6;
  const f = n1 * b ** 2 + n4 * b + n7;
  const g = n2 * b ** 2 + n5 * b + n8;
  const d = (2 * g) / (-f - Math.sqrt(f ** 2 - 4 * e * g));
  return (n10 + d - Math.sqrt((n10 + d) ** 2 - 4 * (n9 + n10 * d))) / 2 - iceKelvin;
}
