import type { Vec } from '#geometry';

/** The limits a line can fail; the words that `ways`, `plan` and `snags` use. */
export type Limit =
  | 'keep-off'
  | 'bend'
  | 'straight'
  | 'mating'
  | 'pressure'
  | 'temperature'
  | 'vacuum'
  | 'fluid'
  | 'fall'
  | 'reach'
  | 'self';

/** One broken limit: which, by how much, where. */
export interface WayFail {
  readonly limit: Limit;
  readonly valueMm?: number;
  readonly limitMm?: number;
  readonly value?: number;
  readonly limitValue?: number;
  readonly unit?: string;
  readonly part?: string;
  readonly atMm?: Vec;
  readonly text: string;
}

/** How one end of a piece is made up and turned. */
export interface WayEnd {
  /** `tank.out`, or for a joint inside the line `O1 joint 1`. */
  readonly port: string;
  /** Catalogue ids from the port to the hose. */
  readonly makeUp: readonly string[];
  readonly parts: readonly WayPart[];
  readonly angleDeg: number;
  readonly clockDeg: number | null;
  readonly clockFrom?: 'up' | 'forward';
  readonly words: string;
  readonly clockHow: string;
  /** Clock of an elbow adapter in the make-up, where there is one. */
  readonly adapterClockDeg?: number;
  readonly tightening: readonly string[];
}

export interface WayPart {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly qty: number;
}

export interface TubeBend {
  /** Mark from the tube's start to the start of this bend [mm]. */
  readonly markMm: number;
  /** Turn of the tube in the bender before this bend, clockwise looking from the start [deg]. */
  readonly turnDeg: number;
  /** Angle bent through [deg]. */
  readonly bendDeg: number;
  /** Angle to set on the bender, springback added [deg]. */
  readonly setDeg: number;
  readonly radiusMm: number;
}

/** A hose or tube between two joints. */
export interface WayPiece {
  readonly hose?: string;
  readonly tube?: { readonly odMm: number; readonly wallMm: number; readonly bendRadiusMm: number };
  readonly cutLengthMm: number;
  readonly allowanceMm: readonly [number, number];
  readonly odMm: number;
  readonly minBendRadiusMm: number;
  readonly tightestBendMm: number;
  readonly endToEndDeg: number | null;
  readonly hang?: 'free' | 'clamped';
  readonly leastLengthMm?: number;
  readonly slackPercent?: number;
  readonly bends?: readonly TubeBend[];
  readonly endPrep?: readonly string[];
}

export interface WayClamp {
  readonly alongMm: number;
  readonly atMm: Vec;
  readonly on: string;
  readonly bracket: boolean;
}

export interface WayBody {
  readonly part: string;
  readonly row?: string;
  readonly pathMm: readonly Vec[];
  readonly odMm: number;
}

export interface WayGap {
  readonly part: string;
  readonly class: string;
  readonly gapMm: number;
  readonly worstMm: number;
  readonly bestMm: number;
  readonly keepOffMm: number;
  readonly near: boolean;
  readonly atMm: Vec;
  readonly source?: string;
  /** Where the least gap is near a port: the least one away from it. */
  readonly beyond?: {
    readonly gapMm: number;
    readonly worstMm: number;
    readonly keepOffMm: number;
    readonly atMm: Vec;
  };
}

/** An open point of a way that does not make it infeasible. */
export interface WayNote {
  readonly level: 'stop' | 'fix' | 'note';
  readonly code: string;
  readonly text: string;
  readonly value?: number;
  readonly limit?: number;
  readonly unit?: string;
  readonly part?: string;
  readonly atMm?: Vec;
  readonly source?: string;
  readonly cures?: readonly string[];
}

/** One worked-out proposal for a line. */
export interface Way {
  readonly rank: number;
  readonly feasible: boolean;
  readonly cost: number;
  readonly ends: readonly [WayEnd, WayEnd];
  readonly joints: readonly WayEnd[];
  readonly pieces: readonly WayPiece[];
  readonly clamps: readonly WayClamp[];
  readonly bodies: readonly WayBody[];
  /** Adapter, end and first straight at either end of the line: what counts as near its port [mm]. */
  readonly nearMm?: readonly [number, number];
  /** How far a hose of it may lie from where it is drawn, as it hangs [mm]. */
  readonly hangSpreadMm?: number;
  readonly gaps: readonly WayGap[];
  readonly fails: readonly WayFail[];
  readonly notes: readonly WayNote[];
  readonly reasons: readonly string[];
}
