/**
 * Head over the vapour pressure that a suction line leaves at a pump's inlet.
 *
 *     NPSH = (p_tank - p_vapour)/(rho g) - lift - loss
 *
 * @param tankAbsPa - absolute pressure on the liquid in the tank [Pa]
 * @param vapourAbsPa - vapour pressure [Pa]
 * @param densityKgM3 - density [kg/m3]
 * @param liftM - pump above the liquid; below zero where it is flooded [m]
 * @param lossM - head lost in the line [m]
 * @param gravityMS2 - gravity [m/s2]
 * @returns head available [m]
 * @valid tankAbsPa > vapourAbsPa >= 0
 * @source hydraulic-head
 * @example suctionHeadAvailable(101325, 3169, 997, 1.22, 1, 9.81) // 7.816
 */
export const suctionHeadAvailable = (
  tankAbsPa: number,
  vapourAbsPa: number,
  densityKgM3: number,
  liftM: number,
  lossM: number,
  gravityMS2: number,
): number => (tankAbsPa - vapourAbsPa) / (densityKgM3 * gravityMS2) - liftM - lossM;

/**
 * Static pressure at a pump's inlet: what the tank has, less lift, losses and the head of the velocity there.
 *
 *     p = p_tank - rho g lift - dp - rho V^2/2
 *
 * @param tankAbsPa - absolute pressure on the liquid in the tank [Pa]
 * @param densityKgM3 - density [kg/m3]
 * @param liftM - pump above the liquid; below zero where it is flooded [m]
 * @param dropPa - lost in the line [Pa]
 * @param velocityMS - at the inlet [m/s]
 * @returns absolute static pressure [Pa]
 * @valid densityKgM3 > 0
 * @source hydraulic-head
 * @example pumpInletAbsPa(98000, 845, -0.25, 4000, 1.99) // 94398.5
 */
export const pumpInletAbsPa = (
  tankAbsPa: number,
  densityKgM3: number,
  liftM: number,
  dropPa: number,
  velocityMS: number,
): number => tankAbsPa - densityKgM3 * 9.80665 * liftM - dropPa - (densityKgM3 * velocityMS * velocityMS) / 2;
