import type { Body, Vec } from '#geometry';
import type { TubeBend } from '../way.ts';
import type { FittedEnd } from './hose-piece.ts';

/** A hard tube between two joints, bent on one radius. */
export interface TubePiece {
  readonly tube: {
    readonly odMm: number;
    readonly wallMm: number;
    readonly bendRadiusMm: number;
    readonly material?: string | undefined;
  };
  /** Fittings at its ends where it has its own; null where a hose goes over its bead. */
  readonly a: FittedEnd | null;
  readonly b: FittedEnd | null;
  /** Everything solid on it, its own end fittings included, in order from the line's start. */
  readonly bodies: readonly (Body & { readonly row?: string })[];
  /** Length of tube to cut, from end to end along the centreline [mm]. */
  readonly lengthMm: number;
  readonly bends: readonly TubeBend[];
  readonly endPrep: readonly string[];
  /** The mover that it sits on and may be clipped to; null: the chassis. */
  readonly seat: string | null;
  /** Where it is held. */
  readonly supports: readonly Vec[];
  readonly cost: number;
  readonly ok: boolean;
  readonly why: readonly string[];
}
