import { add, movedDirection, type RigidMotion, scale, sub, type Vec } from '#geometry';

/** A turn as a unit quaternion. */
export type Turn = readonly [w: number, x: number, y: number, z: number];

/** Where a part has been brought: its middle shifted, and turned about its middle. */
export interface Pose {
  readonly shift: Vec;
  readonly turn: Turn;
}

export const inPlace: Pose = { shift: [0, 0, 0], turn: [1, 0, 0, 0] };

/** A turn about a unit axis [rad]. */
export function turnAbout(axis: Vec, angleRad: number): Turn {
  const s = Math.sin(angleRad / 2);
  return [Math.cos(angleRad / 2), axis[0] * s, axis[1] * s, axis[2] * s];
}

/** Angle between two turns [rad]. */
export function angleBetween(a: Turn, b: Turn): number {
  const c = Math.abs(a[0] * b[0] + a[1] * b[1] + a[2] * b[2] + a[3] * b[3]);
  return 2 * Math.acos(Math.min(1, c));
}

/** Between two poses: the middle goes straight, the turn goes evenly. */
export function poseBetween(a: Pose, b: Pose, share: number): Pose {
  const shift = add(a.shift, scale(sub(b.shift, a.shift), share));
  const dots = a.turn.reduce((sum, v, i) => sum + v * b.turn[i]!, 0);
  const to = dots < 0 ? b.turn.map((v) => -v) : [...b.turn];
  const angle = Math.acos(Math.min(1, Math.abs(dots)));
  const [p, q] =
    angle < 1e-9
      ? [1 - share, share]
      : [Math.sin((1 - share) * angle) / Math.sin(angle), Math.sin(share * angle) / Math.sin(angle)];
  const mixed = a.turn.map((v, i) => p * v + q * to[i]!);
  const size = Math.hypot(...mixed);
  return { shift, turn: mixed.map((v) => v / size) as unknown as Turn };
}

/** The pose as a motion of the whole car's axes, for a part whose middle is at `middle`. */
export function motionOf({ shift, turn: [w, x, y, z] }: Pose, middle: Vec): RigidMotion {
  const rows: RigidMotion['rows'] = [
    [1 - 2 * (y * y + z * z), 2 * (x * y - w * z), 2 * (x * z + w * y)],
    [2 * (x * y + w * z), 1 - 2 * (x * x + z * z), 2 * (y * z - w * x)],
    [2 * (x * z - w * y), 2 * (y * z + w * x), 1 - 2 * (x * x + y * y)],
  ];
  const about = sub(middle, movedDirection({ rows, shift: [0, 0, 0] }, middle));
  return { rows, shift: add(about, shift) };
}
