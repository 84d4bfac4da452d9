import { needPositive, needWithin } from '../flow-error.ts';

/** The wetted part of a part-full round pipe. */
export interface PartFull {
  readonly areaM2: number;
  readonly wettedM: number;
  /** Area over wetted wall [m]. */
  readonly hydraulicRadiusM: number;
  readonly surfaceWidthM: number;
  /** Half the angle that the wetted wall spans, 0 dry to pi full [rad]. */
  readonly halfAngleRad: number;
}

/** Area, wetted wall and surface of a round pipe filled to a depth. */
export function partFull(boreM: number, depthM: number): PartFull {
  needPositive('drain, bore', boreM, 'm');
  needWithin('drain, depth', depthM, 0, boreM, 'm');
  const halfAngleRad = Math.acos(1 - (2 * depthM) / boreM);
  const areaM2 = (boreM * boreM * (halfAngleRad - Math.sin(halfAngleRad) * Math.cos(halfAngleRad))) / 4;
  const wettedM = boreM * halfAngleRad;
  return {
    areaM2,
    wettedM,
    hydraulicRadiusM: wettedM > 0 ? areaM2 / wettedM : 0,
    surfaceWidthM: boreM * Math.sin(halfAngleRad),
    halfAngleRad,
  };
}

/**
 * Turbulent flow of water in a part-full channel by Manning's roughness; for rough walls and large Reynolds numbers only.
 *
 *     Q = A R^(2/3) S^(1/2)/n
 *
 * @param areaM2 - wetted area [m2]
 * @param hydraulicRadiusM - wetted area over wetted wall [m]
 * @param slope - sine of the fall [-]
 * @param manning - Manning's roughness [s/m^(1/3)]
 * @returns flow [m3/s]
 * @valid turbulent water, 0.009 <= manning <= 0.03
 * @source manning-1891
 * @example manningFlow(0.026591962, 0.060784026, 0.001, 0.013) // 0.01
 */
export const manningFlow = (areaM2: number, hydraulicRadiusM: number, slope: number, manning: number): number =>
  (areaM2 * hydraulicRadiusM ** (2 / 3) * Math.sqrt(slope)) / manning;

/**
 * Turbulent flow in a part-full channel by the rough-pipe law on four hydraulic radii; explicit, as the slope is given.
 *
 *     Q = -2 A w log10( e/(3.7 d) + 2.51 nu/(d w) ),  d = 4 R, w = sqrt(2 g d S)
 *
 * @param areaM2 - wetted area [m2]
 * @param hydraulicRadiusM - wetted area over wetted wall [m]
 * @param slope - sine of the fall [-]
 * @param roughnessM - wall roughness [m]
 * @param kinematicM2S - kinematic viscosity [m2/s]
 * @returns flow [m3/s]
 * @valid Reynolds number 4 V R/nu above 4000
 * @source colebrook-1939
 * @example 60000 * turbulentDrainFlow(1e-4, 0.004, 0.5, 3e-6, 1e-6) // 15.92
 */
export function turbulentDrainFlow(
  areaM2: number,
  hydraulicRadiusM: number,
  slope: number,
  roughnessM: number,
  kinematicM2S: number,
): number {
  const d = 4 * hydraulicRadiusM;
  const w = Math.sqrt(2 * 9.80665 * d * slope);
  return -2 * areaM2 * w * Math.log10(roughnessM / (3.7 * d) + (2.51 * kinematicM2S) / (d * w));
}
