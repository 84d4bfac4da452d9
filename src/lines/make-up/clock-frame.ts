import { type Vec, addScaled, cross, dot, norm, scale } from '#geometry';

/** The clock face of a port: `up` is twelve o'clock, `right` is three, seen looking into the port. */
export interface ClockFrame {
  /** Twelve o'clock, a unit vector in the port plane. */
  readonly up: Vec;
  /** Three o'clock: up x faces. */
  readonly right: Vec;
  /** What twelve o'clock stands for: the car's up, or its front where the port itself looks up or down. */
  readonly from: 'up' | 'forward';
}

/** Within this of straight up or down, twelve o'clock is forward [deg]. */
const uprightDeg = 30;
/** A tie at exactly 30 degrees goes to `forward` whatever the last digit of `faces`. */
const tieGrace = 1e-9;

/**
 * The clock face of a port that faces the unit vector `faces`: the car's +Z laid on the port plane, or -X where the port faces
 * within 30 degrees of straight up or down.
 */
export function clockFrame(faces: Vec): ClockFrame {
  const upright = Math.abs(faces[2]) >= Math.cos((uprightDeg * Math.PI) / 180) - tieGrace;
  const twelve: Vec = upright ? [-1, 0, 0] : [0, 0, 1];
  const inPlane = addScaled(twelve, faces, -dot(twelve, faces));
  const up = scale(inPlane, 1 / norm(inPlane));
  return { up, right: cross(up, faces), from: upright ? 'forward' : 'up' };
}

/** The direction that a clock angle points to. */
export const clockDirection = (frame: ClockFrame, clockRad: number): Vec =>
  addScaled(scale(frame.up, Math.cos(clockRad)), frame.right, Math.sin(clockRad));

/** A sideways offset shorter than this has no clock [mm]. */
const straightMm = 1e-6;

/** The clock of a sideways offset, 0 <= deg < 360, or null for a straight end. */
export function clockDeg(frame: ClockFrame, sideways: Vec): number | null {
  const x = dot(sideways, frame.right);
  const y = dot(sideways, frame.up);
  if (Math.sqrt(x * x + y * y) < straightMm) return null;
  return wholeTurn((Math.atan2(x, y) * 180) / Math.PI);
}

/** Into 0 <= deg < 360; never -0 and never 360. */
export function wholeTurn(deg: number): number {
  const turned = ((deg % 360) + 360) % 360;
  return turned === 0 || turned >= 360 ? 0 : turned;
}
