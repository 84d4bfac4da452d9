import { celsiusFromF } from '#units';
import {
  ethanolConductivity,
  ethanolDensity,
  ethanolSpecificHeat,
  ethanolVapourPressure,
  ethanolViscosity,
  isoOctaneConductivity,
  isoOctaneSpecificHeat,
  isoOctaneViscosity,
  petrolDensity,
  petrolVapourPressure,
} from './fuel-liquids.ts';

/** What is taken for petrol when nothing is stated; the density is the middle of EN 228, from memory. */
export const usualPetrolAt15KgM3 = 745;
/** Stated viscosities of fuel are taken at this temperature [C]. */
export const statedViscosityC = 20;
const statedDensityC = 15;
/** Reid vapour pressure is measured at 100 degF [C]. */
export const reidC = celsiusFromF(100);

/** Reid vapour pressure of usual blends [kPa] over ethanol by volume; of petrol itself the summer's 60 kPa. Source: ethanol-reid. */
const usualReid = [
  [0, 60],
  [0.1, 67],
  [0.2, 67],
  [0.815, 43.3],
  [1, 15.7],
] as const;

/**
 * Reid vapour pressure of a usual blend when none is stated.
 *
 *     R = 60 kPa at E0, 67 at E10 to E20, 43.3 at E81.5, 15.7 at E100, straight between
 *
 * @param ethanolFraction - ethanol in the blend by volume [-]
 * @returns Reid vapour pressure [kPa]
 * @valid 0 <= ethanolFraction <= 1; the real figure is 45 to 100 by season and maker
 * @source ethanol-reid
 * @example usualReidOf(0.1) // 67.0
 */
export function usualReidOf(ethanolFraction: number): number {
  const above = usualReid.findIndex(([fraction]) => fraction >= ethanolFraction);
  const [toFraction, toKpa] = usualReid[Math.max(above, 1)] ?? [1, 15.7];
  const [fromFraction, fromKpa] = usualReid[Math.max(above, 1) - 1] ?? [0, 60];
  return fromKpa + ((toKpa - fromKpa) * (ethanolFraction - fromFraction)) / (toFraction - fromFraction);
}

/**
 * Density of a blend at a temperature: volumes add, and what is stated at 15 C scales the whole.
 *
 *     rho = rho15 (e rho_e(T) + (1 - e) rho_p(T))/(e rho_e(15) + (1 - e) 745)
 *
 * @param temperatureC - of the fuel [C]
 * @param ethanolFraction - ethanol in the blend by volume [-]
 * @param densityAt15KgM3 - of the blend as stated [kg/m3]
 * @returns density [kg/m3]
 * @valid -30 <= temperatureC <= 80, 0 <= ethanolFraction <= 1, 650 <= densityAt15KgM3 <= 850
 * @source api-mpms-11-1 and perry-liquids; own choice of mixing, to 0.5 %
 * @example blendDensity(40, 0.1, 750) // 727
 */
export const blendDensity = (temperatureC: number, ethanolFraction: number, densityAt15KgM3: number): number =>
  (densityAt15KgM3 * unstatedDensity(temperatureC, ethanolFraction)) / unstatedDensity(statedDensityC, ethanolFraction);

const unstatedDensity = (temperatureC: number, ethanolFraction: number): number =>
  ethanolFraction * ethanolDensity(temperatureC) +
  (1 - ethanolFraction) * petrolDensity(temperatureC, usualPetrolAt15KgM3);

/** Density of a blend of usual petrol at 15 C [kg/m3]. */
export const usualBlendAt15KgM3 = (ethanolFraction: number): number => unstatedDensity(statedDensityC, ethanolFraction);

/**
 * Dynamic viscosity of a blend: logarithms add by volume, iso-octane for petrol; good to 30 %.
 *
 *     ln mu = e ln mu_e(T) + (1 - e) ln mu_o(T)
 *
 * @param temperatureC - of the fuel [C]
 * @param ethanolFraction - ethanol in the blend by volume [-]
 * @returns dynamic viscosity [Pa s]
 * @valid -30 <= temperatureC <= 80, 0 <= ethanolFraction <= 1
 * @source perry-liquids; own choice of mixing
 * @example blendViscosity(20, 0.1) // 0.00055
 */
export const blendViscosity = (temperatureC: number, ethanolFraction: number): number =>
  ethanolViscosity(temperatureC) ** ethanolFraction * isoOctaneViscosity(temperatureC) ** (1 - ethanolFraction);

/** Ethanol in a blend by mass [-]. */
const ethanolByMass = (ethanolFraction: number): number => {
  const ethanol = ethanolFraction * ethanolDensity(statedDensityC);
  return ethanol / (ethanol + (1 - ethanolFraction) * usualPetrolAt15KgM3);
};

/**
 * Specific heat of a blend: adds by mass, iso-octane for petrol; good to 5 %.
 *
 *     c = m c_e(T) + (1 - m) c_o(T), m of ethanol by mass
 *
 * @param temperatureC - of the fuel [C]
 * @param ethanolFraction - ethanol in the blend by volume [-]
 * @returns specific heat [J/(kg K)]
 * @valid -30 <= temperatureC <= 80, 0 <= ethanolFraction <= 1
 * @source perry-liquids; own choice of mixing
 * @example blendSpecificHeat(20, 0.1) // 2101
 */
export function blendSpecificHeat(temperatureC: number, ethanolFraction: number): number {
  const mass = ethanolByMass(ethanolFraction);
  return mass * ethanolSpecificHeat(temperatureC) + (1 - mass) * isoOctaneSpecificHeat(temperatureC);
}

/**
 * Thermal conductivity of a blend: adds by mass, iso-octane for petrol; good to 25 %.
 *
 *     k = m k_e(T) + (1 - m) k_o(T), m of ethanol by mass
 *
 * @param temperatureC - of the fuel [C]
 * @param ethanolFraction - ethanol in the blend by volume [-]
 * @returns thermal conductivity [W/(m K)]
 * @valid -30 <= temperatureC <= 80, 0 <= ethanolFraction <= 1
 * @source perry-liquids; own choice of mixing
 * @example blendConductivity(20, 0.1) // 0.107
 */
export function blendConductivity(temperatureC: number, ethanolFraction: number): number {
  const mass = ethanolByMass(ethanolFraction);
  return mass * ethanolConductivity(temperatureC) + (1 - mass) * isoOctaneConductivity(temperatureC);
}

/**
 * Vapour pressure of a blend from its Reid vapour pressure: it rises with heat as petrol's does, with much ethanol as ethanol's.
 *
 *     p = P(T)^(1-e) (P(37.8) E(T)/E(37.8))^e,  P of petrol of this Reid pressure, E of ethanol
 *
 * @param temperatureC - of the fuel [C]
 * @param ethanolFraction - ethanol in the blend by volume [-]
 * @param reidKpa - Reid vapour pressure of the blend [kPa]
 * @returns absolute pressure [Pa]
 * @valid -30 <= temperatureC <= 80, 0 <= ethanolFraction <= 1, 10 <= reidKpa <= 110
 * @source epa-ap-42-7-1; own choice of mixing, unproven
 * @example blendVapourPressure(37.778, 0, 68.948) // 73477
 */
export function blendVapourPressure(temperatureC: number, ethanolFraction: number, reidKpa: number): number {
  const asPetrol = petrolVapourPressure(temperatureC, reidKpa);
  const asEthanol =
    (petrolVapourPressure(reidC, reidKpa) * ethanolVapourPressure(temperatureC)) / ethanolVapourPressure(reidC);
  return asPetrol ** (1 - ethanolFraction) * asEthanol ** ethanolFraction;
}
