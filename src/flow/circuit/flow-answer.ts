import type { Case, Circuit, Vessel } from '#car';
import type { Vec } from '#geometry';
import type { FluidState } from '../fluids/fluid-state.ts';
import type { TankInCase, TankUnderG } from '../dry-sump/tank-answer.ts';
import type { CoolantAnswer, CoolantHeights } from './coolant-answer.ts';
import type { FuelAnswer } from './fuel-answer.ts';
import type { FlowFinding } from '../finding.ts';

/** Laminar below 2000, turbulent above 4000; between, either may be. */
export type Regime = 'laminar' | 'between' | 'turbulent';

/** What one piece of a line costs. */
export interface PieceLoss {
  readonly what: string;
  readonly row?: string;
  readonly boreMm: number;
  readonly turnDeg: number;
  readonly dropPa: number;
  /** The true loss lies between these multiples. */
  readonly times: readonly [least: number, most: number];
}

/** A line in one case. Flow is positive from its `from` to its `to`; pressures are above the air outside. */
export interface LineFlow {
  readonly line: string;
  readonly carries: 'liquid' | 'oil and air' | 'gas' | 'drain';
  readonly flowM3S: number;
  readonly velocityMS: number;
  readonly reynolds: number;
  readonly regime: Regime;
  readonly fromPa: number;
  readonly toPa: number;
  /** Lost to friction and fittings; without static head. */
  readonly dropPa: number;
  readonly pieces: readonly PieceLoss[];
  /** Share of gas by volume, where it carries both. */
  readonly voidShare?: number;
  /** What it holds [m3]. */
  readonly volumeM3: number;
  readonly assumed: readonly string[];
}

/** A way through a part, or a pump, in one case. */
export interface ThroughFlow {
  readonly id: string;
  readonly words: string;
  readonly flowM3S: number;
  readonly dropPa: number;
  readonly fromPa: number;
  readonly toPa: number;
}

export interface PumpFlow extends ThroughFlow {
  /** What it sweeps [m3/s]; absent where it is known by a curve. */
  readonly sweptM3S?: number;
  readonly reliefM3S: number;
}

/** A vessel in one case. */
export interface VesselFlow {
  readonly part: string;
  readonly kind: Vessel['kind'];
  readonly fillM3: number;
  readonly volumeM3: number | null;
  readonly gasPa: number;
  readonly mouths: readonly { readonly port: string; readonly share: number; readonly headMm: number }[];
}

/** A scavenge stage in one case. Pressures above the air outside. */
export interface StageFlow {
  readonly id: string;
  readonly words: string;
  readonly drains: string;
  /** What it sweeps [m3/s]. */
  readonly sweptM3S: number;
  /** Oil that it gets: its share of what comes into the pan or pot. */
  readonly oilM3S: number;
  /** Air that it takes along, at its inlet. */
  readonly airM3S: number;
  readonly voidShare: number;
  readonly inletPa: number;
  /** The inlet with the thinnest and the thickest froth that models give. */
  readonly inletSpreadPa: readonly [least: number, most: number];
  readonly outletPa: number;
  /** Oil that comes and that it cannot carry. */
  readonly leftM3S: number;
  /** It pulls deeper than there is air to pull: what it sweeps does not all arrive. */
  readonly starved: boolean;
}

/** A circuit in one case. */
export interface CircuitState {
  readonly circuit: string;
  readonly case: Case;
  /** Null, like the fluid, where the case could not be worked out. */
  readonly temperatureC: number | null;
  readonly fluid: FluidState | null;
  readonly pull: Vec;
  readonly lines: readonly LineFlow[];
  readonly passages: readonly ThroughFlow[];
  readonly pumps: readonly PumpFlow[];
  readonly vessels: readonly VesselFlow[];
  /** Scavenge stages of a dry sump. */
  readonly stages?: readonly StageFlow[];
  /** Tanks of a dry sump at the g of this case. */
  readonly tanks?: readonly TankInCase[];
  /** Temperatures, boiling margin and traps of a water circuit. */
  readonly coolant?: CoolantAnswer;
  /** Lift, pot, rail and pump inlets of a fuel circuit. */
  readonly fuel?: FuelAnswer;
  readonly findings: readonly FlowFinding[];
}

/** A circuit in all cases that were asked. */
export interface CircuitFlow {
  readonly circuit: string;
  readonly name: string;
  readonly kind: Circuit['kind'];
  readonly states: readonly CircuitState[];
  /** Tanks of a dry sump at any g: pictures, greatest g, least fill. */
  readonly tanks?: readonly TankUnderG[];
  /** Heights, fill order and what runs by itself, of a water circuit. */
  readonly heights?: CoolantHeights;
  /** What holds in every case: what the circuit lacks, its ratios. Findings of a case stand with its state. */
  readonly findings: readonly FlowFinding[];
}

/** Every circuit of the car that flows. */
export interface FlowAnswer {
  readonly circuits: readonly CircuitFlow[];
}
