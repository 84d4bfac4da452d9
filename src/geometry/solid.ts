import type { Bounds } from './bounds.ts';
import type { PreparedMesh } from './prepared-mesh.ts';
import type { Vec } from './vec.ts';

/**
 * The contract every solid keeps: an exact signed distance in millimetres, negative inside.
 * Implementations: capsule, cylinder (flat ends), box (may be turned), mesh (closed: signed; open: never negative).
 * One shared test suite runs on all of them.
 */
export interface Solid {
  readonly kind: 'capsule' | 'cylinder' | 'box' | 'mesh';
  readonly bounds: Bounds;
  /** What it is made of, placed: for what looks at many solids at once. */
  readonly form: SolidForm;
  /** Exact signed distance from the point to the surface [mm]. */
  distance(x: number, y: number, z: number): number;
  /** As `distance`, but may return any value >= `limitMm` where the true one is >= `limitMm`; cheaper far away. */
  distanceWithin(x: number, y: number, z: number, limitMm: number): number;
  /** The closest point of the surface, and the signed distance to it. */
  closest(x: number, y: number, z: number): { readonly point: Vec; readonly distance: number };
  /** The same solid moved rigidly: p -> turn p + shift. */
  moved(motion: RigidMotion): Solid;
}

/** The numbers behind a solid, in car axes. */
export type SolidForm =
  | { readonly kind: 'capsule' | 'cylinder'; readonly a: Vec; readonly b: Vec; readonly radiusMm: number }
  | {
      readonly kind: 'box';
      readonly centre: Vec;
      /** Unit vectors along its own x, y and z. */
      readonly axes: readonly [Vec, Vec, Vec];
      readonly half: Vec;
    }
  | { readonly kind: 'mesh'; readonly prepared: PreparedMesh; readonly motion: RigidMotion };

/** p -> rows * p + shift; `rows` is a proper rotation, row by row. */
export interface RigidMotion {
  readonly rows: readonly [Vec, Vec, Vec];
  readonly shift: Vec;
}
