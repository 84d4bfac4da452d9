/**
 * Flow through a restrictor of a stated discharge coefficient.
 *
 *     Q = Cd A sqrt(2 dp/rho)
 *
 * @param boreM - bore of the restrictor [m]
 * @param dropPa - drop across it [Pa]
 * @param densityKgM3 - density [kg/m3]
 * @param discharge - discharge coefficient [-]
 * @returns flow [m3/s]
 * @valid boreM > 0, dropPa >= 0, 0.5 <= discharge <= 1, Reynolds number in the bore above about 2000
 * @source geometry
 * @example 60000 * restrictorFlow(0.0015, 4e5, 850, 0.62) // 2.0167
 */
export const restrictorFlow = (boreM: number, dropPa: number, densityKgM3: number, discharge: number): number =>
  ((discharge * Math.PI * boreM * boreM) / 4) * Math.sqrt((2 * dropPa) / densityKgM3);

/**
 * Flow through an orifice plate in a pipe of not much larger bore, from the drop between its taps.
 *
 *     Q = C A sqrt(2 dp/rho) / sqrt(1 - (d/D)^4)
 *
 * @param boreM - bore of the plate [m]
 * @param pipeBoreM - bore of the pipe [m]
 * @param dropPa - drop between the taps [Pa]
 * @param densityKgM3 - density [kg/m3]
 * @param discharge - discharge coefficient [-]
 * @returns flow [m3/s]
 * @valid 0.1 <= boreM/pipeBoreM <= 0.75
 * @source iso-5167-2-2003 equation 1, a liquid
 * @example orificePlateFlow(0.03, 0.04, 13823.4, 788.4, 0.61) // 0.003088
 */
export const orificePlateFlow = (
  boreM: number,
  pipeBoreM: number,
  dropPa: number,
  densityKgM3: number,
  discharge: number,
): number => restrictorFlow(boreM, dropPa, densityKgM3, discharge) / Math.sqrt(1 - (boreM / pipeBoreM) ** 4);

/** Where the taps of an orifice plate sit: distances before and behind, in pipe bores. */
export type Taps = 'corner' | 'flange' | 'bore-and-half';

/**
 * Discharge coefficient of a sharp-edged orifice plate in a pipe (Reader-Harris and Gallagher).
 *
 *     C = 0.5961 + 0.0261 b^2 - 0.216 b^8 + 0.000521 (1e6 b/Re)^0.7 + (0.0188 + 0.0063 A) b^3.5 (1e6/Re)^0.3
 *       + (0.043 + 0.080 e^(-10 L1) - 0.123 e^(-7 L1)) (1 - 0.11 A) b^4/(1 - b^4) - 0.031 (M - 0.8 M^1.1) b^1.3
 *       + 0.011 (0.75 - b)(2.8 - D/25.4 mm) below D = 71.12 mm;  A = (19000 b/Re)^0.8, M = 2 L2/(1 - b)
 *
 * @param boreM - bore of the plate [m]
 * @param pipeBoreM - bore of the pipe [m]
 * @param reynolds - Reynolds number in the pipe [-]
 * @param taps - place of the taps [-]
 * @returns discharge coefficient [-]
 * @valid 0.1 <= boreM/pipeBoreM <= 0.75, 0.05 <= pipeBoreM <= 1, boreM >= 0.0125, reynolds >= 5000
 * @source iso-5167-2-2003 equation 4
 * @example plateDischargeCoefficient(0.0222, 0.07391, 115329, 'corner') // 0.60001
 */
export function plateDischargeCoefficient(boreM: number, pipeBoreM: number, reynolds: number, taps: Taps): number {
  const b = boreM / pipeBoreM;
  const [l1, l2] =
    taps === 'corner' ? [0, 0] : taps === 'flange' ? [0.0254 / pipeBoreM, 0.0254 / pipeBoreM] : [1, 0.47];
  const a = ((19000 * b) / reynolds) ** 0.8;
  const m = (2 * l2) / (1 - b);
  const b4 = b ** 4;
  const small = pipeBoreM < 0.07112 ? 0.011 * (0.75 - b) * (2.8 - pipeBoreM / 0.0254) : 0;
  return (
    0.5961 +
    0.0261 * b * b -
    0.216 * b4 * b4 +
    0.000521 * ((1e6 * b) / reynolds) ** 0.7 +
    (0.0188 + 0.0063 * a) * b ** 3.5 * (1e6 / reynolds) ** 0.3 +
    ((0.043 + 0.08 * Math.exp(-10 * l1) - 0.123 * Math.exp(-7 * l1)) * (1 - 0.11 * a) * b4) / (1 - b4) -
    0.031 * (m - 0.8 * m ** 1.1) * b ** 1.3 +
    small
  );
}

/**
 * How much less a gas flows through an orifice plate because it expands.
 *
 *     e = 1 - (0.351 + 0.256 b^4 + 0.93 b^8) (1 - (p2/p1)^(1/k))
 *
 * @param boreOverPipe - bore of the plate over that of the pipe [-]
 * @param pressureRatio - absolute pressure behind over that before [-]
 * @param isentropic - ratio of specific heats [-]
 * @returns factor on the flow; 1 for a liquid [-]
 * @valid 0.1 <= boreOverPipe <= 0.75, 0.75 <= pressureRatio <= 1
 * @source iso-5167-2-2003 equation 5
 * @example plateExpansibility(0.5, 0.9, 1.4) // 0.9731
 */
export const plateExpansibility = (boreOverPipe: number, pressureRatio: number, isentropic: number): number =>
  1 - (0.351 + 0.256 * boreOverPipe ** 4 + 0.93 * boreOverPipe ** 8) * (1 - pressureRatio ** (1 / isentropic));

/**
 * Share of an orifice plate's tap drop that is lost for good.
 *
 *     w = (sqrt(1 - b^4 (1 - C^2)) - C b^2) / (sqrt(1 - b^4 (1 - C^2)) + C b^2)
 *
 * @param boreOverPipe - bore of the plate over that of the pipe [-]
 * @param discharge - discharge coefficient [-]
 * @returns lost share [-]
 * @valid 0.1 <= boreOverPipe <= 0.75
 * @source iso-5167-2-2003 equation 7
 * @example plateLostShare(0.5, 0.61) // 0.7307
 */
export function plateLostShare(boreOverPipe: number, discharge: number): number {
  const b2 = boreOverPipe * boreOverPipe;
  const root = Math.sqrt(1 - b2 * b2 * (1 - discharge * discharge));
  return (root - discharge * b2) / (root + discharge * b2);
}

/**
 * How much less a relief valve certified in water passes in a thick liquid.
 *
 *     Kv = 1/(0.9935 + 2.878/Re^0.5 + 342.75/Re^1.5)
 *
 * @param reynolds - Reynolds number in the valve's bore [-]
 * @returns factor on the flow [-]
 * @valid 30 <= reynolds <= 1e6
 * @source api-520 viscosity correction
 * @example reliefViscosityFactor(4525) // 0.963939
 */
export const reliefViscosityFactor = (reynolds: number): number =>
  1 / (0.9935 + 2.878 / Math.sqrt(reynolds) + 342.75 / reynolds ** 1.5);

/**
 * Area that a certified liquid relief valve needs.
 *
 *     A = Q / (Kd Kw Kv sqrt(2 dp/rho))
 *
 * @param flowM3S - flow to pass [m3/s]
 * @param dropPa - set pressure with its overpressure, less the pressure behind [Pa]
 * @param densityKgM3 - density [kg/m3]
 * @param discharge - rated discharge coefficient Kd [-]
 * @param backPressureFactor - Kw, 1 without bellows [-]
 * @param viscosityFactor - Kv [-]
 * @returns area [m2]
 * @valid all above zero
 * @source api-520 certified liquid valves
 * @example 1e6 * reliefArea(6814 / 60000, 1724e3 * 1.1 - 345e3, 900, 0.65, 0.97, 1) // 3068
 */
export const reliefArea = (
  flowM3S: number,
  dropPa: number,
  densityKgM3: number,
  discharge: number,
  backPressureFactor: number,
  viscosityFactor: number,
): number => flowM3S / (discharge * backPressureFactor * viscosityFactor * Math.sqrt((2 * dropPa) / densityKgM3));
