/**
 * What reaches the pressure side of each litre of oil and air that a pump takes in: the air is squeezed there.
 *
 *     k = (1 - a) + a p1/p2
 *
 * @param voidAtInlet - air by volume at the inlet [-]
 * @param inletAbsPa - absolute pressure at the inlet [Pa]
 * @param outletAbsPa - absolute pressure behind the pump [Pa]
 * @returns volume behind the pump over volume at its inlet [-]
 * @valid 0 <= voidAtInlet <= 1, 0 < inletAbsPa <= outletAbsPa
 * @source boyle-henry
 * @example deliveredShare(0.5, 101325, 506625) // 0.6
 */
export const deliveredShare = (voidAtInlet: number, inletAbsPa: number, outletAbsPa: number): number =>
  1 - voidAtInlet + (voidAtInlet * inletAbsPa) / outletAbsPa;
