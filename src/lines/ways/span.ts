import type { Solid, Vec } from '#geometry';
import type { EndMakeUp } from '../make-up/end-make-up.ts';
import type { NearHose } from './near-line.ts';

/** Reads the slack (distance to the nearest keep-off [mm]) and its gradient: out = slack, d/dx, d/dy, d/dz. */
export interface SlackReading {
  slackAndGradient(x: number, y: number, z: number, out: Float64Array): void;
  /** The same on the true surfaces of parts. */
  closely(x: number, y: number, z: number, out: Float64Array): void;
  /** Slack at the centre of the coarse cell that holds the place: for corridors. */
  coarse(x: number, y: number, z: number): number;
  /** Slack to placed lines alone: they are kept off beside a port as anywhere. */
  toLines?(x: number, y: number, z: number, out: Float64Array): void;
}

/** A part close to a port, and how near the line may come to it there. */
export interface NearItem {
  readonly part: string;
  readonly solid: Solid;
  /** Least surface gap beside the port [mm]; For the port's own part how deep its face sits in it, as a negative: only its solid counts. */
  readonly keepOffMm: number;
  readonly own: boolean;
}

/** One end of a piece of hose or tube: a port, or a joint inside the line. */
export interface SpanEnd {
  /** `tank.out`, or `O1 joint 1`. */
  readonly label: string;
  readonly at: Vec;
  /** Unit vector, outward. */
  readonly faces: Vec;
  readonly partId: string | null;
  readonly moverId: string | null;
  readonly makeUps: readonly EndMakeUp[];
  readonly nearItems: readonly NearItem[];
  /** Slack to everything that `nearItems` does not relax; absent: nothing else is near. */
  readonly rest?: Pick<SlackReading, 'slackAndGradient' | 'closely'>;
  /** The near rules hold for this much of the line at least [mm]. */
  readonly nearMm: number;
  /** The same end with every keep-off beside it eased to not touching: to tell what stands in the way where nothing fits. */
  readonly eased?: () => SpanEnd;
  /** Straight of hose out of this end [mm]; `straightOut` of the hose if absent. */
  readonly straightMm?: number;
}

/** A piece of hose that wants a way. */
export interface Span {
  readonly a: SpanEnd;
  readonly b: SpanEnd;
  readonly odMm: number;
  /** Least centreline bend radius [mm]. */
  readonly minBendRadiusMm: number;
  /** Slack to everything at its full keep-off, other lines included. */
  readonly far: SlackReading;
  /** How it lay before, where it did. */
  readonly near?: NearHose;
}

/** Length that stays straight out of a hose end [mm]: one OD, at least 25.4 (free-length term of the bend test, SAE J343). */
export const straightOut = (odMm: number): number => Math.max(odMm, 25.4);
