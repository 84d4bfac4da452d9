import type { Vec } from '#geometry';

/** A pump of the fuel circuit in one case. */
export interface FuelPump {
  readonly pump: string;
  readonly words: string;
  readonly flowM3S: number;
  /** Static at its inlet, above the air outside [Pa]. */
  readonly inletPa: number;
  /** Inlet over the vapour pressure [kPa]. */
  readonly overVapourKpa: number;
  /** The mouth that it draws from stands so far over the fuel: it draws none. */
  readonly dry?: { readonly line: string; readonly spot: string; readonly overMm: number };
}

/** The fuel of a car in one case. Pressures above the air outside, unless absolute. */
export interface FuelAnswer {
  readonly outsideAbsPa: number;
  readonly temperatureC: number;
  readonly vapourAbsPa: number;
  /** What the engine burns [m3/s]; null: not stated. */
  readonly burnM3S: number | null;
  readonly liftM3S: number;
  readonly pressureM3S: number;
  /** Back through the regulator [m3/s]. */
  readonly returnM3S: number;
  readonly railPa: number | null;
  /** What the return line loses [Pa]. */
  readonly returnLossPa: number;
  /** What the pot stands at, full and shut [Pa]; null: no pot. */
  readonly potPa: number | null;
  /** How long the pot lasts with the lift dead, at the burn [s]. */
  readonly potS: number | null;
  readonly pumps: readonly FuelPump[];
  readonly vent: FuelVent | null;
}

/** The vent of the cell: air in, fuel not out. */
export interface FuelVent {
  readonly line: string;
  /** Depression in the cell at the burn [Pa]. */
  readonly depressionPa: number;
  readonly attitudes: readonly (FuelStands & {
    readonly words: string;
    readonly rollDeg: number;
    readonly pitchDeg: number;
  })[];
  /** The same at the g of the case. */
  readonly inCase: FuelStands;
}

/** How fuel stands in a vent. */
export interface FuelStands {
  /** Fuel stands at the mouth of the vent in the cell. */
  readonly mouthCovered: boolean;
  /** Highest point of the vent over the fuel's surface [mm]; below zero: fuel runs out. */
  readonly highestOverMm: number;
  readonly highestAtMm: Vec;
}
