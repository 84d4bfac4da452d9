import type { LossLaw } from '../network/loss-law.ts';
import { FlowError, needFluid, needNotNegative, needPositive } from '../flow-error.ts';
import type { Flowing } from '../losses/loss.ts';

/**
 * Displacement of an external gear pump from its gears.
 *
 *     V = pi/4 (Do^2 - Di^2) L
 *
 * @param outsideM - over the teeth [m]
 * @param insideM - over the roots [m]
 * @param widthM - width of the gears [m]
 * @returns displacement per turn [m3]
 * @valid 0 < insideM < outsideM, widthM > 0
 * @source geometry
 * @example 1e6 * gearDisplacement(0.075, 0.05, 0.025) // 61.36
 */
export const gearDisplacement = (outsideM: number, insideM: number, widthM: number): number =>
  (Math.PI / 4) * (outsideM * outsideM - insideM * insideM) * widthM;

/**
 * Displacement of a lobe pump from the chambers that it carries over in a turn.
 *
 *     V = n V_chamber
 *
 * @param chamberM3 - volume of one chamber [m3]
 * @param chambersPerTurn - chambers carried over per turn of the shaft, both rotors together [-]
 * @returns displacement per turn [m3]
 * @valid chamberM3 > 0, chambersPerTurn > 0
 * @source geometry
 * @example 1e6 * lobeDisplacement(0.45e-6, 4) // 1.8
 */
export const lobeDisplacement = (chamberM3: number, chambersPerTurn: number): number => chamberM3 * chambersPerTurn;

/**
 * Slip constant of a displacement pump from its volumetric efficiency at one stated point.
 *
 *     k = (1 - eta) V n mu/dp
 *
 * @param displacementM3 - per turn [m3]
 * @param turnsPerS - speed [1/s]
 * @param volumetricEfficiency - flow over displacement times speed [-]
 * @param risePa - pressure rise there [Pa]
 * @param viscosityPaS - viscosity there [Pa s]
 * @returns slip constant [m3]
 * @valid 0 < volumetricEfficiency < 1, all above zero
 * @source wilson-slip
 * @example 1e12 * slipConstant(25e-6, 50, 0.94666667, 4e5, 0.012) // 2
 */
export const slipConstant = (
  displacementM3: number,
  turnsPerS: number,
  volumetricEfficiency: number,
  risePa: number,
  viscosityPaS: number,
): number => ((1 - volumetricEfficiency) * displacementM3 * turnsPerS * viscosityPaS) / risePa;

/**
 * Flow of a displacement pump with laminar slip.
 *
 *     Q = V n - k dp/mu
 *
 * @param displacementM3 - per turn [m3]
 * @param turnsPerS - speed [1/s]
 * @param slipM3 - slip constant [m3]
 * @param risePa - pressure rise [Pa]
 * @param viscosityPaS - viscosity [Pa s]
 * @returns flow [m3/s]
 * @valid slip below about a third of V n; suction not starved
 * @source wilson-slip
 * @example 60000 * displacementPumpFlow(25e-6, 50, 2e-12, 4e5, 0.012) // 71
 */
export const displacementPumpFlow = (
  displacementM3: number,
  turnsPerS: number,
  slipM3: number,
  risePa: number,
  viscosityPaS: number,
): number => displacementM3 * turnsPerS - (slipM3 * risePa) / viscosityPaS;

/** A stage of a displacement pump, from its inlet (first end) to its outlet. */
export interface DisplacementPump {
  readonly where: string;
  readonly displacementM3: number;
  /** Turns of the pump per turn of the engine. */
  readonly driveRatio: number;
  /** Its slip constant [m3], or one point it was measured at. */
  readonly slip:
    | { readonly constantM3: number }
    | {
        readonly volumetricEfficiency: number;
        readonly atTurnsPerS: number;
        readonly atRisePa: number;
        readonly atViscosityPaS: number;
      };
}

/** The slip constant of a pump, from whichever way it is stated. */
export function slipOf(pump: DisplacementPump): number {
  const { where, slip } = pump;
  needPositive(`${where}, displacement`, pump.displacementM3, 'm3');
  if ('constantM3' in slip) {
    needPositive(`${where}, slip constant`, slip.constantM3, 'm3');
    return slip.constantM3;
  }
  if (!(slip.volumetricEfficiency > 0 && slip.volumetricEfficiency < 1))
    throw new FlowError(`${where}, volumetric efficiency`, slip.volumetricEfficiency, 'above 0, below 1');
  needPositive(`${where}, speed of the efficiency`, slip.atTurnsPerS, '1/s');
  needPositive(`${where}, pressure rise of the efficiency`, slip.atRisePa, 'Pa');
  needPositive(`${where}, viscosity of the efficiency`, slip.atViscosityPaS, 'Pa s');
  const { volumetricEfficiency, atTurnsPerS, atRisePa, atViscosityPaS } = slip;
  return slipConstant(pump.displacementM3, atTurnsPerS, volumetricEfficiency, atRisePa, atViscosityPaS);
}

/** A displacement pump at an engine speed as a law: dp = (Q - V n) mu/k, a straight line below zero while it pumps. */
export function displacementPumpLaw(pump: DisplacementPump, engineTurnsPerS: number, fluid: Flowing): LossLaw {
  const { where } = pump;
  needPositive(`${where}, drive ratio`, pump.driveRatio, '');
  needNotNegative(`${where}, engine speed`, engineTurnsPerS, '1/s');
  needFluid(where, fluid);
  const slope = fluid.viscosityPaS / slipOf(pump);
  const swept = pump.displacementM3 * pump.driveRatio * engineTurnsPerS;
  return (flowM3S) => ({ dropPa: (flowM3S - swept) * slope, slope });
}
