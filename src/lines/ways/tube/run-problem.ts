import { type Vec, addScaled } from '#geometry';
import type { FallRule } from '../fall.ts';
import type { TubeClear } from './tube-clear.ts';

/** A pose of the tube's centreline: a place, and the direction of travel there (unit vector). */
export interface TubePose {
  readonly at: Vec;
  readonly along: Vec;
}

/** A bent tube wanted from pose to pose. */
export interface RunProblem {
  readonly start: TubePose;
  readonly end: TubePose;
  readonly radiusMm: number;
  readonly odMm: number;
  readonly mostBendDeg: number;
  /** Straight wanted at the start, between bends, and at the end [mm]. */
  readonly startMm: number;
  readonly betweenMm: number;
  readonly endMm: number;
  /** Slack of the tube's surface. */
  readonly clear: TubeClear;
  /** Slack that the planned tube keeps beyond its keep-offs [mm]. */
  readonly marginMm: number;
  /** Stouter than the tube by this, for so much at each end: a hose pushed over it, a nut [mm]. */
  readonly stout: { readonly startMm: number; readonly endMm: number; readonly byMm: number };
  readonly fall: FallRule | null;
}

/** Where the run may first turn, seen from one end. */
export const firstCorner = ({ start, startMm, radiusMm }: RunProblem, turn: number): Vec =>
  addScaled(start.at, start.along, startMm + radiusMm * turn);
export const lastCorner = ({ end, endMm, radiusMm }: RunProblem, turn: number): Vec =>
  addScaled(end.at, end.along, -(endMm + radiusMm * turn));
