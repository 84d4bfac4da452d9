/**
 * Nusselt number of a cylinder across a stream, on its diameter.
 *
 *     Nu = 0.3 + 0.62 Re^(1/2) Pr^(1/3)/[1 + (0.4/Pr)^(2/3)]^(1/4) [1 + (Re/282000)^(5/8)]^(4/5)
 *
 * @param reynolds - on the diameter, properties at the film temperature [-]
 * @param prandtl - [-]
 * @returns Nusselt number [-]
 * @valid reynolds * prandtl >= 0.2; other correlations lie up to 16 % off
 * @source churchill-bernstein-1977
 * @example crossFlowCylinder(6071, 0.7) // 40.637
 */
export const crossFlowCylinder = (reynolds: number, prandtl: number): number =>
  0.3 +
  ((0.62 * Math.sqrt(reynolds) * Math.cbrt(prandtl)) / (1 + (0.4 / prandtl) ** (2 / 3)) ** 0.25) *
    (1 + (reynolds / 282_000) ** 0.625) ** 0.8;

/** Reynolds number at which the layer on a plate turns turbulent. */
const PLATE_TURBULENT = 5e5;

/**
 * Mean Nusselt number of a plate along a stream, on its length.
 *
 *     Nu = 0.664 Re^(1/2) Pr^(1/3) to Re = 5e5, then (0.037 Re^(4/5) - 871) Pr^(1/3)
 *
 * @param reynolds - on the length along the stream [-]
 * @param prandtl - [-]
 * @returns Nusselt number [-]
 * @valid 0 <= reynolds <= 1e8, 0.6 <= prandtl <= 60
 * @source heat-transfer-textbook
 * @example forcedPlate(1e5, 0.7) // 186.4
 */
export const forcedPlate = (reynolds: number, prandtl: number): number =>
  (reynolds < PLATE_TURBULENT ? 0.664 * Math.sqrt(reynolds) : 0.037 * reynolds ** 0.8 - 871) * Math.cbrt(prandtl);

/**
 * Nusselt number where a stream and buoyancy act together.
 *
 *     Nu^3 = Nu_forced^3 + Nu_free^3
 *
 * @param forced - Nusselt number by the stream alone [-]
 * @param free - by buoyancy alone, on the same length [-]
 * @returns Nusselt number [-]
 * @valid forced >= 0, free >= 0; buoyancy with or across the stream, not against it
 * @source heat-transfer-textbook
 * @example mixedConvection(10, 10) // 12.599
 */
export const mixedConvection = (forced: number, free: number): number => Math.cbrt(forced ** 3 + free ** 3);
