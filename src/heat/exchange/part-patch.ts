import type { Solid } from '#geometry';
import { type Patch, patchOf, solidPieces } from './patch.ts';

/** All of a part's outside as one patch; what of it lies inside another solid comes out as `covered` of the exchange. */
export const partPatch = (surface: number, emissivity: number, solids: readonly Solid[]): Patch =>
  patchOf(surface, emissivity, solids.flatMap(solidPieces));
