/**
 * Resistance of a round wall, for a metre of it.
 *
 *     R' = ln(r2/r1)/(2 pi k)
 *
 * @param innerM - inside radius [m]
 * @param outerM - outside radius [m]
 * @param conductivityWPerMK - of the wall [W/(m K)]
 * @returns resistance of a metre [m K/W]
 * @valid 0 < innerM <= outerM
 * @source heat-conduction
 * @example roundWallResistance(0.0111, 0.0155, 0.2) // 0.2657
 */
export const roundWallResistance = (innerM: number, outerM: number, conductivityWPerMK: number): number =>
  Math.log(outerM / innerM) / (2 * Math.PI * conductivityWPerMK);

/**
 * Temperature of a body that is one temperature throughout, while it cools in surroundings that stay as they are.
 *
 *     T = Tinf + (T0 - Tinf) exp(-t/tau),  tau = m c/(h A)
 *
 * @param startC - at first [degC]
 * @param aroundC - of the surroundings [degC]
 * @param seconds - since then [s]
 * @param timeConstantS - tau [s]
 * @returns temperature [degC]
 * @valid Biot number h L/k below 0.1
 * @source lumped-cooling
 * @example lumpedTemperature(100, 60, 60, 376.2) // 94.10
 */
export const lumpedTemperature = (startC: number, aroundC: number, seconds: number, timeConstantS: number): number =>
  aroundC + (startC - aroundC) * Math.exp(-seconds / timeConstantS);

/**
 * Biot number: how much a body holds heat back inside against how its surface lets it in.
 *
 *     Bi = h L/k,  L = volume over surface
 *
 * @param filmWPerM2K - h [W/(m2 K)]
 * @param volumeOverSurfaceM - L [m]
 * @param conductivityWPerMK - k of the solid [W/(m K)]
 * @returns Biot number [-]; below 0.1 one temperature stands for the whole body
 * @valid all above 0
 * @source lumped-cooling
 * @example biot(200, 0.005, 180) // 0.005556
 */
export const biot = (filmWPerM2K: number, volumeOverSurfaceM: number, conductivityWPerMK: number): number =>
  (filmWPerM2K * volumeOverSurfaceM) / conductivityWPerMK;
