/** Where flow in a pipe leaves laminar, and where it is wholly turbulent. */
export const LAMINAR_TO = 2300;
const TURBULENT_FROM = 4000;

/**
 * Mean Nusselt number of laminar flow in a pipe whose wall has one temperature, entry counted.
 *
 *     Nu = 3.66 + 0.0668 Gz/(1 + 0.04 Gz^(2/3)),  Gz = Re Pr D/L
 *
 * @param graetz - Gz [-]
 * @returns Nusselt number [-]
 * @valid 0 <= graetz, reynolds below 2300
 * @source hausen-1943
 * @example laminarInside(100) // 7.25
 */
export const laminarInside = (graetz: number): number => 3.66 + (0.0668 * graetz) / (1 + 0.04 * graetz ** (2 / 3));

/**
 * Nusselt number of turbulent flow in a smooth pipe.
 *
 *     Nu = (f/8)(Re - 1000) Pr/(1 + 12.7 (f/8)^(1/2) (Pr^(2/3) - 1)),  f = (0.79 ln Re - 1.64)^-2
 *
 * @param reynolds - [-]
 * @param prandtl - [-]
 * @returns Nusselt number [-]
 * @valid 4000 <= reynolds <= 5e6, 0.5 <= prandtl <= 2000; to 10 %
 * @source gnielinski-1976
 * @example turbulentInside(1e4, 0.7) // 29.82
 */
export function turbulentInside(reynolds: number, prandtl: number): number {
  const eighth = (0.79 * Math.log(reynolds) - 1.64) ** -2 / 8;
  return (eighth * (reynolds - 1000) * prandtl) / (1 + 12.7 * Math.sqrt(eighth) * (prandtl ** (2 / 3) - 1));
}

/**
 * Nusselt number inside a line, whatever its flow: between laminar and turbulent a straight line in Re.
 *
 *     Nu = (1 - g) Nu_lam(2300) + g Nu_turb(4000),  g = (Re - 2300)/(4000 - 2300)
 *
 * @param reynolds - [-]
 * @param prandtl - [-]
 * @param boreOverLength - D/L of the line [-]
 * @returns Nusselt number [-]
 * @valid 0 <= reynolds <= 5e6, 0.5 <= prandtl <= 2000
 * @source gnielinski-1976
 * @example insideLine(1e4, 0.7, 0.01) // 29.82
 */
export function insideLine(reynolds: number, prandtl: number, boreOverLength: number): number {
  if (reynolds <= LAMINAR_TO) return laminarInside(reynolds * prandtl * boreOverLength);
  if (reynolds >= TURBULENT_FROM) return turbulentInside(reynolds, prandtl);
  const share = (reynolds - LAMINAR_TO) / (TURBULENT_FROM - LAMINAR_TO);
  const laminar = laminarInside(LAMINAR_TO * prandtl * boreOverLength);
  return (1 - share) * laminar + share * turbulentInside(TURBULENT_FROM, prandtl);
}
