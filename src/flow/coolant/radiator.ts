import type { Passage } from '#car';
import { airDensity, airSpecificHeat } from '../fluids/air.ts';
import type { FluidState } from '../fluids/fluid-state.ts';
import { crossFlowEffectiveness, ntuOfEffectiveness } from './effectiveness.ts';

/** Share of a core's resistance to heat that lies on its air side, at the measured point. From memory. */
export const AIR_SIDE_SHARE = 0.8;
/** Heat transfer goes with the air's speed and the water's flow to these powers. From memory: louvred fins; turbulent tubes. */
export const AIR_POWER = 0.6;
export const WATER_POWER = 0.8;

/** What air comes to a core. */
export interface CoreAir {
  readonly airC: number;
  readonly absPa: number;
  /** At the core; absent: as where its duty was measured [m/s]. */
  readonly mPerS?: number;
}

/** A radiator as it works: the share of the entry difference that it takes off the water at a flow. */
export interface Radiator {
  /** Heat for each kelvin of entry difference at a flow of water [W/K]. */
  readonly heatPerK: (flowM3S: number, fluid: FluidState, air: CoreAir) => number;
  /** UA at the measured point [W/K]. */
  readonly uaWPerK: number;
  readonly airMPerS: number | undefined;
  readonly note?: string;
}

/**
 * Conductance of a core away from its measured point.
 *
 *     1/UA = (a (v0/v)^0.6 + (1 - a) (Q0/Q)^0.8)/UA0,   a = 0.8 the air side's share
 *
 * @param uaWPerK - at the measured point [W/K]
 * @param airRatio - air speed over the measured [-]
 * @param flowRatio - water flow over the measured [-]
 * @returns conductance [W/K]
 * @valid 0.05 <= airRatio, flowRatio <= 20
 * @source from-memory
 * @example coreConductance(3000, 0.5, 1) // 2123.78
 */
export const coreConductance = (uaWPerK: number, airRatio: number, flowRatio: number): number =>
  airRatio <= 0 || flowRatio <= 0
    ? 0
    : uaWPerK / (AIR_SIDE_SHARE * airRatio ** -AIR_POWER + (1 - AIR_SIDE_SHARE) * flowRatio ** -WATER_POWER);

/** The measured point is held at this air and pressure. */
const MEASURED_AIR_C = 25;
const MEASURED_ABS_PA = 101_325;

/** Heat that a stream of air takes for each kelvin [W/K]. */
const airCapacity = (air: CoreAir, mPerS: number, coreM2: number): number =>
  airDensity(air.airC, air.absPa) * mPerS * coreM2 * airSpecificHeat(air.airC);

/** A radiator from its one measured point, or in a line why it cannot be one. */
export function radiatorOf(duty: NonNullable<Passage['duty']>, where: string, fluid: FluidState): Radiator | string {
  const { airMPerS, coreM2 } = duty;
  const flow0 = duty.flowLMin / 60_000;
  const perK0 = (duty.heatKw * 1000) / duty.entryDifferenceK;
  const water0 = fluid.densityKgM3 * fluid.specificHeatJKgK * flow0;
  const measured: CoreAir = { airC: MEASURED_AIR_C, absPa: MEASURED_ABS_PA };
  const withAir = airMPerS !== undefined && coreM2 !== undefined;
  const air0 = withAir ? airCapacity(measured, airMPerS, coreM2) : Number.POSITIVE_INFINITY;
  const [least, most] = [Math.min(water0, air0), Math.max(water0, air0)];
  const ntu = ntuOfEffectiveness(perK0 / least, (n) => crossFlowEffectiveness(n, least / most));
  if (ntu === undefined)
    return `${where}, duty: ${duty.heatKw} kW at ${duty.entryDifferenceK} K; allowed: below ${((least * duty.entryDifferenceK) / 1000).toFixed(1)} kW, all that ${air0 < water0 ? 'its air' : 'its water'} can carry`;
  const uaWPerK = ntu * least;
  return {
    uaWPerK,
    airMPerS,
    heatPerK: (flowM3S, now, air) => {
      const water = now.densityKgM3 * now.specificHeatJKgK * Math.abs(flowM3S);
      if (water <= 0) return 0;
      const speed = air.mPerS ?? airMPerS ?? 0;
      const stream = withAir ? airCapacity(air, speed, coreM2) : Number.POSITIVE_INFINITY;
      if (stream <= 0) return 0;
      const ua = coreConductance(uaWPerK, withAir ? speed / airMPerS : 1, Math.abs(flowM3S) / flow0);
      const [low, high] = [Math.min(water, stream), Math.max(water, stream)];
      return low * crossFlowEffectiveness(ua / low, low / high);
    },
    ...(withAir
      ? {}
      : { note: `${where}: no air speed or core face with its duty; air is taken to keep its temperature` }),
  };
}
