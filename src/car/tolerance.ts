import { FACING_KNOWN_DEG, TAPE_KNOWN_TO_MM } from './usual-tolerance.ts';
import { findPort } from './lookups.ts';
import type { Car, Part, Shape } from './schema/car.ts';

export interface Tolerance {
  readonly knownToMm: number;
  readonly facingKnownDeg: number;
}

/** How well one solid of a part is known [+-mm]: its own value, its mesh's, else the part's, else the usual one. */
export function shapeKnownToMm(part: Part, shape: Shape): number {
  return shape.knownToMm ?? shape.mesh?.knownToMm ?? part.knownToMm ?? TAPE_KNOWN_TO_MM;
}

/** How well a part's solids are placed, the worst of them [+-mm], and its ports face [+-deg]. */
export function partTolerance(part: Part): Tolerance {
  const solids = part.shapes.map((shape) => shapeKnownToMm(part, shape));
  return {
    knownToMm: solids.length === 0 ? (part.knownToMm ?? TAPE_KNOWN_TO_MM) : Math.max(...solids),
    facingKnownDeg: part.facingKnownDeg ?? FACING_KNOWN_DEG,
  };
}

/** How well a port is known: its own values, else the part's, else the usual ones. Absent where there is no such port. */
export function portTolerance(car: Car, portRef: string): Tolerance | undefined {
  const found = findPort(car, portRef);
  if (found === undefined) return undefined;
  const part = partTolerance(found.part);
  const knownToMm = found.port.knownToMm ?? found.part.knownToMm ?? TAPE_KNOWN_TO_MM;
  return { knownToMm, facingKnownDeg: found.port.facingKnownDeg ?? part.facingKnownDeg };
}
