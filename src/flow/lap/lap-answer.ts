import type { TankWave } from '../tank/first-wave.ts';
import type { FlowFinding } from '../finding.ts';

/** A moment of the lap. Pressures above the air outside. */
export interface LapMoment {
  readonly timeS: number;
  readonly rpm: number;
  readonly oilC: number;
  readonly tankM3: number;
  /** In each pan and pot, in the order of `LapAnswer.vessels`. */
  readonly vesselsM3: readonly number[];
  /** Of the outlet's bore, the share that stands bare and draws air [-]. */
  readonly drawnAir: number;
  /** Air in what reaches the pump [-]. */
  readonly feedAir: number;
  readonly galleryPa: number;
  /** What the gallery would have with no air in the feed. */
  readonly airlessPa: number;
  readonly longitudinalG: number;
  readonly lateralG: number;
}

/** A stretch of time on end. */
export interface LapStretch {
  readonly fromS: number;
  readonly toS: number;
}

/** A log run through a dry sump. */
export interface LapAnswer {
  readonly circuit: string;
  readonly tank: string;
  readonly outlet: string;
  readonly vessels: readonly string[];
  readonly seconds: number;
  readonly samples: number;
  /** For plots: of each stretch of equal length the moment with the lowest gallery pressure beside no air, at most as many as asked. */
  readonly rows: readonly LapMoment[];
  readonly worst: {
    readonly lowestTank: LapMoment;
    readonly lowestPressure: LapMoment;
    /** Where the most is lost to air. */
    readonly mostLost: LapMoment;
    /** The least for its engine speed, of the hot oil. */
    readonly lowestForRpm: LapMoment;
    readonly fullest: readonly { readonly vessel: string; readonly moment: LapMoment }[];
    /** Stretches in which air is drawn, longest first, and their sum [s]. */
    readonly air: readonly LapStretch[];
    readonly airS: number;
  };
  readonly wave: TankWave | null;
  /** How it was reckoned. */
  readonly steps: { readonly taken: number; readonly refused: number; readonly tolerance: number };
  /** Of the oil, the most that the sum of all vessels and the feed was off from its start [-]. */
  readonly volumeOff: number;
  readonly tablePoints: number;
  readonly findings: readonly FlowFinding[];
  /** What the model does not know, a line each. */
  readonly limits: readonly string[];
}

/** Why a lap could not be run, in one line. */
export interface LapRefused {
  readonly why: string;
}
