import { add, addScaled, scale, type Vec } from './vec.ts';

/**
 * Where a hose leaves an end fitting, as a function of the clock angle phi [rad]:
 *
 *     radial(phi) = up cos(phi) + right sin(phi)
 *     tail        = origin + axis * riseMm + radial * offsetMm
 *     direction   = axis cos(angleRad) + radial sin(angleRad)
 *
 * `axis`, `up` and `right` are unit vectors square to each other; the hose leaves the tail along `direction`.
 */
export interface EndPose {
  /** A point on the axis the end screws onto [mm]. */
  readonly origin: Vec;
  /** Outward along that axis. */
  readonly axis: Vec;
  readonly up: Vec;
  readonly right: Vec;
  /** Tail point along the axis from `origin` [mm]. */
  readonly riseMm: number;
  /** Tail point sideways from the axis [mm]; 0 for a straight end. */
  readonly offsetMm: number;
  /** The end's bend angle [rad]; 0 for a straight end. */
  readonly angleRad: number;
  /** Clock to start from [rad]. */
  readonly phiRad: number;
  /** May the clock be turned? */
  readonly free: boolean;
  /** Length that must be straight out of the tail [mm]. */
  readonly straightMm: number;
  /**
   * Places on the end's own body that must keep clear too: triples along the axis from `origin` [mm], sideways [mm],
   * slack wanted there [mm]. Only they tell a turning clock about the fitting.
   */
  readonly bodySamples?: Float64Array;
}

/** Tail point and the direction the hose leaves in, at a clock angle. */
export function tailPose(end: EndPose, phiRad: number): { readonly point: Vec; readonly direction: Vec } {
  const radial = add(scale(end.up, Math.cos(phiRad)), scale(end.right, Math.sin(phiRad)));
  const onAxis = addScaled(end.origin, end.axis, end.riseMm);
  return {
    point: addScaled(onAxis, radial, end.offsetMm),
    direction: add(scale(end.axis, Math.cos(end.angleRad)), scale(radial, Math.sin(end.angleRad))),
  };
}

/** A pose that cannot be turned: a point and the direction the hose leaves it in. */
export function fixedPose(point: Vec, direction: Vec, straightMm = 0): EndPose {
  const zero: Vec = [0, 0, 0];
  return {
    origin: point,
    axis: direction,
    up: zero,
    right: zero,
    riseMm: 0,
    offsetMm: 0,
    angleRad: 0,
    phiRad: 0,
    free: false,
    straightMm,
  };
}
