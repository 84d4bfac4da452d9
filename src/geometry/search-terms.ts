import type { BodyShape } from './body-shape.ts';
import type { Vec } from './vec.ts';

/** What a body is held against: exact signed distance, and the nearest place of the surface. */
export interface Field {
  distanceWithin(x: number, y: number, z: number, limitMm: number): number;
  closest(x: number, y: number, z: number): { readonly point: Vec; readonly distance: number };
}

export interface FieldTraits {
  /** The signed distance of a convex solid lies above each of its tangent planes: one look bounds a whole cell. */
  readonly convex: boolean;
  /** No distance is less than this [mm]: 0 for an open mesh. */
  readonly floorMm: number;
}

/** The answer is attained on the body and at most this above the true least: apart, and where they overlap [mm]. */
export const APART_TOLERANCE_MM = 0.03;
export const OVERLAP_TOLERANCE_MM = 0.06;

/** Lifts off the surface that are tried for the curved bound [mm]: far is tight in the open, near between two walls. */
export const LIFTS_MM = [80, 24, 6] as const;
/** A cell centre this near the surface has no direction of its own [mm]. */
export const ON_SURFACE_MM = 1e-3;

/** The unit gradient of the signed distance at a place, from the nearest place of the surface. */
export function wayOff(x: number, y: number, z: number, on: Vec, d: number): Vec {
  return [(x - on[0]) / d, (y - on[1]) / d, (z - on[2]) / d];
}

/** What the search of a mitre needs of the search of the body. */
export interface SearchHost {
  readonly shape: BodyShape;
  readonly traits: FieldTraits;
  /** What is not below this is of no interest [mm]. */
  readonly cut: number;
  look(x: number, y: number, z: number, limit: number): number;
  /** The nearest place of the surface; the asking place counts as an answer. */
  lookClosely(x: number, y: number, z: number): { readonly point: Vec; readonly distance: number };
}
