import { findPort } from './lookups.ts';
import type { Car, Part } from './schema/car.ts';

/** A place taken with tape and square, where nothing is said [+-mm]. Common practice, no source. */
export const TAPE_KNOWN_TO_MM = 5;

/** A facing judged by eye, protractor or level, where nothing is said [+-deg]. Common practice, no source. */
export const FACING_KNOWN_DEG = 5;

export interface Tolerance {
  readonly knownToMm: number;
  readonly facingKnownDeg: number;
}

/** How well a part's shapes are placed [+-mm] and its ports face [+-deg]. */
export function partTolerance(part: Part): Tolerance {
  return { knownToMm: part.knownToMm ?? TAPE_KNOWN_TO_MM, facingKnownDeg: part.facingKnownDeg ?? FACING_KNOWN_DEG };
}

/** How well a port is known: its own values, else the part's, else the usual ones. Absent where there is no such port. */
export function portTolerance(car: Car, portRef: string): Tolerance | undefined {
  const found = findPort(car, portRef);
  if (found === undefined) return undefined;
  const part = partTolerance(found.part);
  return { knownToMm: found.port.knownToMm ?? part.knownToMm, facingKnownDeg: found.port.facingKnownDeg ?? part.facingKnownDeg };
}
