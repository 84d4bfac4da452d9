import type { Vec } from '#geometry';
import type { ToolKind } from '#standards';

export type NutRole =
  | 'swivel nut'
  | 'adapter hex'
  | 'locknut'
  | 'tube nut'
  | 'banjo bolt'
  | 'hose clamp'
  | 'fastener'
  | 'panel fixing';

/** A place where a tool goes on. */
export interface ToolNut {
  /** The same from run to run: `O1 tank.out swivel nut`, `turbo.flange-1`. */
  readonly id: string;
  readonly role: NutRole;
  readonly line?: string;
  /** Port that its joint opens, or the joint's own label. */
  readonly port?: string;
  readonly part?: string;
  readonly fastener?: string;
  readonly panel?: string;
  /** A point of its axis [mm]; the tool's side of a screw is where the axis points. */
  readonly at: Vec;
  readonly axis: Vec;
  /** Where its flats begin and end along the axis, from `at` [mm]. */
  readonly flatsMm: readonly [number, number];
  readonly acrossFlatsMm: number;
  /** The size is a usual one, not this part's. */
  readonly isUsualSize: boolean;
  /** Tools that suit it, the handiest first. */
  readonly tools: readonly ToolKind[];
  /** Bodies of its own line that are the nut and what it is screwed on: a tool goes round them. */
  readonly ownBodies?: readonly number[];
  /** A hose clamp: its screw may stand anywhere round the hose, so far from the middle [mm]. */
  readonly roundMm?: number;
}
