import { airViscosity } from '#flow';
import { standardGravity } from '#units';

/** Discharge coefficient of a sharp-edged opening in a thin sheet where the builder gives none. Source: common-practice; ASHRAE has 0.65. */
export const USUAL_DISCHARGE = 0.62;

/**
 * Pressure by which a column of air of one density stands over a column of another.
 *
 *     dp = (rho_out - rho_in) g h
 *
 * @param outKgM3 - density outside [kg/m3]
 * @param inKgM3 - density inside [kg/m3]
 * @param heightM - height of the column [m]
 * @returns what pushes outwards at its top when it is level at its foot [Pa]
 * @valid any
 * @source two-orifice-stack
 * @example stackPressure(1.1649, 0.99992, 0.6) // 0.971
 */
export const stackPressure = (outKgM3: number, inKgM3: number, heightM: number): number =>
  (outKgM3 - inKgM3) * standardGravity * heightM;

/**
 * Area that lets as much through as two openings one behind the other.
 *
 *     1/A^2 = 1/A1^2 + 1/A2^2
 *
 * @param firstM2 - one opening [m2]
 * @param secondM2 - the other [m2]
 * @returns area of the one that does the same [m2]
 * @valid both above zero, of the same discharge coefficient, and the air still between them
 * @source ufc-3-440-06n
 * @example seriesArea(0.01, 0.04) // 0.0097014
 */
export const seriesArea = (firstM2: number, secondM2: number): number =>
  1 / Math.sqrt(1 / (firstM2 * firstM2) + 1 / (secondM2 * secondM2));

/**
 * Flow of warm air out of one of several openings, from how far it stands above the height of no pressure difference.
 *
 *     Q = Cd A sqrt(2 g dH (Ti - To)/Ti)
 *
 * @param dischargeCoefficient - of the opening [-]
 * @param areaM2 - free area [m2]
 * @param aboveM - its height above that of no pressure difference [m]
 * @param insideK - air inside [K]
 * @param outsideK - air outside [K]
 * @returns flow, at the density inside [m3/s]
 * @valid insideK >= outsideK, still air outside
 * @source ashrae-1997-ventilation equation 37
 * @example stackFlow(0.65, 0.02, 0.3, 353, 303) // 0.011868
 */
export const stackFlow = (
  dischargeCoefficient: number,
  areaM2: number,
  aboveM: number,
  insideK: number,
  outsideK: number,
): number => dischargeCoefficient * areaM2 * Math.sqrt((2 * standardGravity * aboveM * (insideK - outsideK)) / insideK);

/**
 * Exchange through a single upright opening that warm air leaves by its upper part while cold air comes in below.
 *
 *     Q = (K/3) A sqrt(g h (Ti - To)/Ti),   K = 0.40 + 0.0045 (Ti - To)
 *
 * @param areaM2 - free area [m2]
 * @param heightM - how far it reaches from its lowest to its highest place [m]
 * @param insideK - air inside [K]
 * @param outsideK - air outside [K]
 * @returns flow in each direction [m3/s]
 * @valid 0 <= insideK - outsideK <= 130 (K would pass 1 there), one opening, still air
 * @source kiel-wilson-1986
 * @example twoWayFlow(0.03, 0.1, 353, 303) // 0.00233
 */
export const twoWayFlow = (areaM2: number, heightM: number, insideK: number, outsideK: number): number => {
  const warmer = insideK - outsideK;
  return ((0.4 + 0.0045 * warmer) / 3) * areaM2 * Math.sqrt((standardGravity * heightM * warmer) / insideK);
};

/**
 * Exchange through a single opening in a level sheet with the warm air under it.
 *
 *     Q = 0.055 sqrt(g D^5 (Ti - To)/((Ti + To)/2)),   D = sqrt(4 A/pi)
 *
 * @param areaM2 - free area [m2]
 * @param insideK - air under it [K]
 * @param outsideK - air over it [K]
 * @returns flow in each direction [m3/s]
 * @valid insideK >= outsideK; sheet thinner than 0.15 of the opening
 * @source epstein-1988
 * @example levelTwoWayFlow(0.03, 353, 303) // 0.00114
 */
export const levelTwoWayFlow = (areaM2: number, insideK: number, outsideK: number): number =>
  0.055 * Math.sqrt((standardGravity * acrossM(areaM2) ** 5 * 2 * (insideK - outsideK)) / (insideK + outsideK));

/** Diameter of the round opening of this area [m]. */
export const acrossM = (areaM2: number): number => Math.sqrt((4 * areaM2) / Math.PI);

/**
 * Pressure that slow flow through a hole in a thin sheet takes, on its mean velocity: what is left of its loss as the flow dies.
 *
 *     dp = 6 pi mu v/D
 *
 * @param velocityMPerS - mean velocity in the hole [m/s]
 * @param areaM2 - of the hole [m2]
 * @param temperatureC - of the air [C]
 * @returns drop of pressure [Pa]
 * @valid Reynolds number in the hole below about 3; above it adds next to nothing
 * @source sampson-1891
 * @example creepingDrop(0.001, 0.01, 20) // 3.0e-6
 */
export const creepingDrop = (velocityMPerS: number, areaM2: number, temperatureC: number): number =>
  (6 * Math.PI * airViscosity(temperatureC) * velocityMPerS) / acrossM(areaM2);

/**
 * Air that an engine breathes, from its power.
 *
 *     m = P c AFR,   c = 0.30 kg/kWh, AFR = 12.5: 3.75 kg of air a kilowatt-hour
 *
 * @param powerKw - power of the engine [kW]
 * @returns mass flow [kg/s]
 * @valid powerKw >= 0, petrol engine near full load; to 15 %
 * @source common-practice
 * @example airOfPower(330) // 0.344
 */
export const airOfPower = (powerKw: number): number => (powerKw * 3.75) / 3600;

/**
 * Pressure of air that is brought to rest.
 *
 *     q = rho v^2/2
 *
 * @param densityKgM3 - density [kg/m3]
 * @param velocityMPerS - speed [m/s]
 * @returns pressure over that of the air about it [Pa]
 * @valid velocityMPerS below 100
 * @source two-orifice-stack
 * @example ramPressure(1.2, 20) // 240
 */
export const ramPressure = (densityKgM3: number, velocityMPerS: number): number =>
  (densityKgM3 * velocityMPerS * velocityMPerS) / 2;
