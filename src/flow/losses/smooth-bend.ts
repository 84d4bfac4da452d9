/**
 * How much more than an endless coil a single smooth bend loses, its wake in the straight behind it counted in.
 *
 *     a(45) = 1 + 5.13 (D/R)^1.47
 *     a(90) = 0.95 + 4.42 (D/R)^1.96, 1 where R/D >= 9.85
 *     a(180) = 1 + 5.06 (D/R)^4.52;  straight lines between them; a(45) below 45, a(180) above 180 degrees
 *
 * @param angleDeg - angle bent through [deg]
 * @param radiusOverBore - centreline radius over bore [-]
 * @returns factor on the loss of a coil of the same length [-]
 * @valid 0 < angleDeg <= 360, 1 <= radiusOverBore <= 50
 * @source ito-1960
 * @example singleBendFactor(90, 2) // 2.086
 */
export function singleBendFactor(angleDeg: number, radiusOverBore: number): number {
  if (radiusOverBore > 50) return 1;
  const d = 1 / radiusOverBore;
  const a45 = 1 + 5.13 * d ** 1.47;
  const a90 = radiusOverBore < 9.85 ? 0.95 + 4.42 * d ** 1.96 : 1;
  const a180 = 1 + 5.06 * d ** 4.52;
  if (angleDeg <= 45) return a45;
  if (angleDeg >= 180) return a180;
  return angleDeg < 90 ? a45 + ((a90 - a45) * (angleDeg - 45)) / 45 : a90 + ((a180 - a90) * (angleDeg - 90)) / 90;
}

/**
 * Whole loss of a smooth bend in turbulent flow, the friction of its own length counted in, on the velocity head.
 *
 *     K = 0.00431 a angle Re^-0.17 (R/D)^0.84
 *
 * @param angleDeg - angle bent through [deg]
 * @param radiusOverBore - centreline radius over bore [-]
 * @param reynolds - Reynolds number [-]
 * @returns loss coefficient [-]
 * @valid 0 < angleDeg <= 360, 1 <= radiusOverBore <= 50, 2e4 <= reynolds <= 4e5, Re (D/R)^2 > 364
 * @source ito-1960
 * @example smoothBendLossCoefficient(90, 2, 1e5) // 0.2046
 */
export const smoothBendLossCoefficient = (angleDeg: number, radiusOverBore: number, reynolds: number): number =>
  0.00431 * singleBendFactor(angleDeg, radiusOverBore) * angleDeg * reynolds ** -0.17 * radiusOverBore ** 0.84;

/**
 * Laminar friction of a curved tube over that of a straight one.
 *
 *     f_c/f_s = 1 + 0.033 (log10 De)^4 above De = 1, else 1;  De = Re sqrt(D/(2R))
 *
 * @param dean - Dean number [-]
 * @returns ratio of the friction factors [-]
 * @valid 0 <= dean <= 3000
 * @source mishra-gupta-1979
 * @example curvedLaminarRatio(300) // 2.24
 */
export const curvedLaminarRatio = (dean: number): number => (dean <= 1 ? 1 : 1 + 0.033 * Math.log10(dean) ** 4);
