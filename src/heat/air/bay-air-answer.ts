import type { Vec } from '#geometry';
import type { HeatFinding } from '../finding.ts';

/** What goes through one opening. Positive is out of the bay. */
export interface OpeningFlow {
  /** As the car file names it: "panel.window", the id of a bay's opening, or a panel that is off. */
  readonly opening: string;
  readonly name: string;
  readonly panel?: string;
  readonly atMm: Vec;
  readonly faces: Vec;
  /** At the density of the air that goes through [m3/s]. */
  readonly flowM3S: number;
  /** Of that air [degC]. */
  readonly airC: number;
  /** As cut [m2], and what its mesh leaves open. */
  readonly areaM2: number;
  readonly freeM2: number;
  /** Outside it, over the still air about the car [Pa]; null: the car drives and nobody has said. */
  readonly outsidePa: number | null;
  /** Inside over outside, at its height [Pa]. */
  readonly overPa: number;
  /** Where air goes both ways at once: in each direction [m3/s]. */
  readonly bothWaysM3S?: number;
  /** What it is meant for, where the car file says. */
  readonly lets?: 'in' | 'out';
  /** A fan moves what goes through. */
  readonly fan?: boolean;
}

/** A drain: kept apart, no air is counted through it. */
export interface DrainOpening {
  readonly opening: string;
  readonly name: string;
  readonly atMm: Vec;
  readonly areaM2: number;
  /** Inside over outside at its height: where it is below 0 air is drawn in and holds back what should run out [Pa]. */
  readonly overPa: number;
}

/** What draws its air from the bay. */
export interface IntakeDraw {
  readonly part: string;
  readonly name: string;
  readonly atMm: Vec;
  readonly massKgS: number;
  readonly airC: number;
  /** Hotter than the air outside by this [K]. */
  readonly overK: number;
}

/** What more area would do, and how much is wanted. */
export interface BayAdvice {
  /** The air that the wanted areas are told for [degC]. */
  readonly wantC: number;
  /** What 50 cm2 more at an opening does to the air of the bay: below 0 cools [K]. */
  readonly per50Cm2: readonly { readonly opening: string; readonly name: string; readonly changeK: number }[];
  /** Free area that a panel alone would want for `wantC`; null: no area there does it. */
  readonly wanted: readonly {
    readonly panel: string;
    readonly name: string;
    readonly freeCm2: number;
    readonly wantCm2: number | null;
  }[];
}

/** The air of one bay in one case. */
export interface BayAir {
  readonly bay: string;
  readonly name: string;
  readonly airC: number;
  readonly outsideC: number;
  /** Typical speed past what stands in it [m/s]. */
  readonly speedMPerS: number;
  readonly how: 'worked out' | 'measured' | 'stated';
  /** Put into its air by what stands in it [W]. */
  readonly heatW: number;
  /** Coming in, and going out through openings, fan and engine together [kg/s]. */
  readonly massKgS: number;
  /** Counted as standing though the car drives, because pressures outside are wanted. */
  readonly asStanding: boolean;
  readonly openings: readonly OpeningFlow[];
  readonly drains: readonly DrainOpening[];
  readonly intakes: readonly IntakeDraw[];
  readonly advice?: BayAdvice;
  /** Why it does not settle; the temperature is then that of the air outside. */
  readonly unsettled?: string;
  readonly findings: readonly HeatFinding[];
}
