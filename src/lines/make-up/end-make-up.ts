import type { Fixing, HoseEndAngleDeg } from '#standards';
import type { Stage } from './stage.ts';

/** How the last thing that has a clock is held at it. */
export type ClockHow = 'swivel' | 'locknut' | 'banjo' | 'taper' | 'crimped-pair' | 'none';

/** One row of a make-up's parts list. */
export interface MakeUpPart {
  readonly id: string;
  readonly name: string;
  readonly kind: 'adapter' | 'hose-end' | 'clamp' | 'seal';
  readonly qty: number;
}

/** One way to make up a line's end: every part from the port face to the hose, in order, and its shape. */
export interface EndMakeUp {
  /** The parts' ids in order; two make-ups of one end never share it. */
  readonly key: string;
  /** In order from the port; seals stand before the part that they seal. */
  readonly parts: readonly MakeUpPart[];
  readonly stages: readonly Stage[];
  /** Of the hose end; an elbow adapter's angle is in its stages. */
  readonly angleDeg: HoseEndAngleDeg;
  readonly fixing: Fixing | 'clamped' | 'tube';
  /** What it costs against a shorter route [mm of line]. */
  readonly cost: number;
  /** How far the hose goes into the socket, or over the spigot [mm]. */
  readonly insertMm: number;
  /** The least bore along the chain [mm]. */
  readonly boreMm: number;
  /** Along the centreline from the port face to where the hose comes free [mm]. */
  readonly lengthMm: number;
  readonly clockHow: ClockHow;
  /** The same in words, for the card. */
  readonly clockWords: string;
  /** Parts that must be in before the part with the port is mounted. */
  readonly before: readonly string[];
  /** Some dimension is a usual part's: measure the part in your hand. */
  readonly measure: boolean;
  /** What the builder should know about this make-up, one line each. */
  readonly remarks: readonly string[];
}
