import type { Case } from '#car';
import type { SpaceOfBay } from './bay-space.ts';

/** Air outside where a case does not say [degC]. Source: common-practice. */
export const USUAL_AIR_C = 25;

/** Heat that what stands in a bay puts into its air: `heatW` at `atC`, less `slopeWPerK` for each degree that it is hotter. */
export interface HeatIntoAir {
  readonly heatW: number;
  readonly atC: number;
  readonly slopeWPerK: number;
}

export interface BayAirAsk {
  readonly space: SpaceOfBay;
  readonly case: Case;
  readonly heat: HeatIntoAir;
  /** Most power of all cases [kW]: what an intake draws follows the power. */
  readonly mostPowerKw?: number;
  /** Names of parts, for what draws air. */
  readonly partNames?: ReadonlyMap<string, string>;
  /** Panels that are off; absent: those of the case. */
  readonly coversOff?: readonly string[];
  /** The fan stands still. */
  readonly fanStands?: boolean;
  /** Works out what more area does, and findings: once a case, not at every minute of a soak. */
  readonly advises?: boolean;
  /** Share of what the air is worked out to carry off that it does, as readings say; absent: all of it. */
  readonly carriedShare?: number;
  /** Bay air that areas are wanted for [degC]. */
  readonly wantC?: number;
}
