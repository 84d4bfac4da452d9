import type { Vec } from '#geometry';
import type { Carrier, PieceMovement } from './carriers.ts';
import type { Clearance } from './clearance.ts';

/** What hangs between two hose ends. */
export interface HangProblem {
  /** Knots of the worked-out curve, from where the hose may begin to bend to where it must be straight again: x,y,z [mm]. */
  readonly planned: Float64Array;
  /** Knots where it is led through something and held, beyond any clamp, and what that goes with. */
  readonly held: readonly { readonly knot: number; readonly carrier: Carrier }[];
  /** Direction of travel at both ends of the curve. */
  readonly leaves: Vec;
  readonly arrives: Vec;
  /** Straight hose at its two ends, beyond the curve [mm]. */
  readonly straightsMm: readonly [number, number];
  /** Hose inside the two ends [mm]: the cut length comes out in whole steps. */
  readonly insertsMm: number;
  readonly odMm: number;
  readonly minBendRadiusMm: number;
  readonly clear: Clearance;
  /** Shorter and longer than the cut length by this [mm]. */
  readonly allowanceMm: readonly [number, number];
  /** Most distance between clamps [mm]. */
  readonly clampSpacingMm: number;
  readonly movement: PieceMovement;
  /** Rods that may still be worked out for this hose; counted down. */
  readonly budget: { rods: number };
}
