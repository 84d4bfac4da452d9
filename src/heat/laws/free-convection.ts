/**
 * Nusselt number of free convection from a horizontal cylinder, on its diameter.
 *
 *     Nu = (0.60 + 0.387 Ra^(1/6)/[1 + (0.559/Pr)^(9/16)]^(8/27))^2
 *
 * @param rayleigh - Ra = g beta dT D^3/(nu alpha), properties at the film temperature [-]
 * @param prandtl - [-]
 * @returns Nusselt number [-]
 * @valid 1e-5 <= rayleigh <= 1e12; to 20 %
 * @source churchill-chu-1975
 * @example freeCylinder(5.07e6, 0.697) // 23.1
 */
export function freeCylinder(rayleigh: number, prandtl: number): number {
  const root = 0.6 + (0.387 * rayleigh ** (1 / 6)) / (1 + (0.559 / prandtl) ** (9 / 16)) ** (8 / 27);
  return root * root;
}

/**
 * Nusselt number of free convection from an upright plate, on its height.
 *
 *     Nu = (0.825 + 0.387 Ra^(1/6)/[1 + (0.492/Pr)^(9/16)]^(8/27))^2
 *
 * @param rayleigh - on the height [-]
 * @param prandtl - [-]
 * @returns Nusselt number [-]
 * @valid 0.1 <= rayleigh <= 1e12
 * @source churchill-chu-1975
 * @example freeUprightPlate(1e9, 0.7) // 122.6
 */
export function freeUprightPlate(rayleigh: number, prandtl: number): number {
  const root = 0.825 + (0.387 * rayleigh ** (1 / 6)) / (1 + (0.492 / prandtl) ** (9 / 16)) ** (8 / 27);
  return root * root;
}

/** Where the level plate's law changes from laminar to turbulent: the second lies 6 % above the first there. */
const LEVEL_TURBULENT = 1e7;

/**
 * Nusselt number of free convection from a level plate whose warm face looks up (or cold face down), on area over edge.
 *
 *     Nu = 0.54 Ra^(1/4) to Ra = 1e7, then 0.15 Ra^(1/3)
 *
 * @param rayleigh - on area over edge length [-]
 * @returns Nusselt number [-]
 * @valid 1e4 <= rayleigh <= 1e11
 * @source heat-transfer-textbook
 * @example freePlateWarmUp(1e6) // 17.08
 */
export const freePlateWarmUp = (rayleigh: number): number =>
  rayleigh < LEVEL_TURBULENT ? 0.54 * rayleigh ** 0.25 : 0.15 * Math.cbrt(rayleigh);

/**
 * Nusselt number of free convection from a level plate whose warm face looks down (or cold face up), on area over edge.
 *
 *     Nu = 0.27 Ra^(1/4)
 *
 * @param rayleigh - on area over edge length [-]
 * @returns Nusselt number [-]
 * @valid 1e5 <= rayleigh <= 1e10
 * @source heat-transfer-textbook
 * @example freePlateWarmDown(1e6) // 8.538
 */
export const freePlateWarmDown = (rayleigh: number): number => 0.27 * rayleigh ** 0.25;
