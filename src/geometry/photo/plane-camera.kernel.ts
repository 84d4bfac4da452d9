import type { Point2 } from '../outline/outline.ts';

/**
 * A camera that looks at a bench, as eleven plain numbers: turn (a rotation vector over `base` [rad]), shift [mm], logarithm
 * of the focal length, middle of the lens off the middle of the picture, and the two radial terms. Lengths in the picture
 * are in half diagonals of it, so that the terms mean the same for every picture size: k1 = 0.1 moves a corner by a tenth.
 *
 *     m = F (x, y)/z with (x, y, z) = R X + t;   m_seen = m (1 + k1 |m|^2 + k2 |m|^4) + c;   pixel = middle + D m_seen
 *
 * The bench is Z = 0 with Z towards the camera; the camera's own axes are right, down, forward. Source: hartley-zisserman-2004,
 * zhang-2000.
 */
export const CAMERA_TERMS = 11;
/** Places in the parameter list. */
export const CAMERA_TERM = { turn: 0, shift: 3, logF: 6, cx: 7, cy: 8, k1: 9, k2: 10 } as const;

export interface PictureSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

export type Matrix3 = Float64Array;

/** A camera with its rotation worked out, ready for many points. */
export interface PlaneCamera {
  readonly rotation: Matrix3;
  readonly shift: readonly [number, number, number];
  /** Where it is [mm]. */
  readonly centre: readonly [number, number, number];
  readonly f: number;
  readonly middle: Point2;
  readonly halfDiagonal: number;
  readonly k1: number;
  readonly k2: number;
}

/** Rotation by a vector [rad]: Rodrigues' formula. */
export function rotationBy(x: number, y: number, z: number): Matrix3 {
  const angle = Math.hypot(x, y, z);
  // sin(a)/a and (1 - cos(a))/a^2, by their series where the angle is small
  const s = angle < 1e-6 ? 1 - (angle * angle) / 6 : Math.sin(angle) / angle;
  const c = angle < 1e-6 ? 0.5 - (angle * angle) / 24 : (1 - Math.cos(angle)) / (angle * angle);
  return Float64Array.of(
    1 - c * (y * y + z * z),
    c * x * y - s * z,
    c * x * z + s * y,
    c * x * y + s * z,
    1 - c * (x * x + z * z),
    c * y * z - s * x,
    c * x * z - s * y,
    c * y * z + s * x,
    1 - c * (x * x + y * y),
  );
}

export function matrixProduct(a: Matrix3, b: Matrix3): Matrix3 {
  const out = new Float64Array(9);
  for (let i = 0; i < 3; i++)
    for (let j = 0; j < 3; j++)
      out[3 * i + j] = a[3 * i]! * b[j]! + a[3 * i + 1]! * b[3 + j]! + a[3 * i + 2]! * b[6 + j]!;
  return out;
}

/** The camera of a parameter list; `base` is the rotation that the list's turn is applied to. */
export function planeCamera(terms: ArrayLike<number>, base: Matrix3, size: PictureSize): PlaneCamera {
  const r = matrixProduct(rotationBy(terms[0]!, terms[1]!, terms[2]!), base);
  const [tx, ty, tz] = [terms[3]!, terms[4]!, terms[5]!];
  const halfDiagonal = Math.hypot(size.widthPx, size.heightPx) / 2;
  return {
    rotation: r,
    shift: [tx, ty, tz],
    centre: [
      -(r[0]! * tx + r[3]! * ty + r[6]! * tz),
      -(r[1]! * tx + r[4]! * ty + r[7]! * tz),
      -(r[2]! * tx + r[5]! * ty + r[8]! * tz),
    ],
    f: Math.exp(terms[CAMERA_TERM.logF]!),
    middle: [
      size.widthPx / 2 + terms[CAMERA_TERM.cx]! * halfDiagonal,
      size.heightPx / 2 + terms[CAMERA_TERM.cy]! * halfDiagonal,
    ],
    halfDiagonal,
    k1: terms[CAMERA_TERM.k1]!,
    k2: terms[CAMERA_TERM.k2]!,
  };
}

/** Where a point [mm] is seen [pixels, the middle of the first pixel at 0.5]; NaN behind the camera. */
export function seenAt(camera: PlaneCamera, x: number, y: number, z: number): Point2 {
  const r = camera.rotation;
  const depth = r[6]! * x + r[7]! * y + r[8]! * z + camera.shift[2];
  if (depth <= 0) return [Number.NaN, Number.NaN];
  const mx = (camera.f * (r[0]! * x + r[1]! * y + r[2]! * z + camera.shift[0])) / depth;
  const my = (camera.f * (r[3]! * x + r[4]! * y + r[5]! * z + camera.shift[1])) / depth;
  const q = mx * mx + my * my;
  const bent = camera.halfDiagonal * (1 + q * (camera.k1 + q * camera.k2));
  return [camera.middle[0] + mx * bent, camera.middle[1] + my * bent];
}

/** Newton steps to undo the lens: the error squares at each step, and lenses bend by a tenth at most. */
const NEWTON_STEPS = 8;
const NEWTON_ENOUGH = 1e-12;

/** Where the ray through a pixel meets the plane at height `z` [mm]; NaN where it does not. */
export function onPlane(camera: PlaneCamera, px: number, py: number, z: number): Point2 {
  const dx = (px - camera.middle[0]) / camera.halfDiagonal;
  const dy = (py - camera.middle[1]) / camera.halfDiagonal;
  const seen = Math.hypot(dx, dy);
  let radius = seen;
  for (let i = 0; i < NEWTON_STEPS; i++) {
    const q = radius * radius;
    const step =
      (radius * (1 + q * (camera.k1 + q * camera.k2)) - seen) / (1 + q * (3 * camera.k1 + 5 * q * camera.k2));
    radius -= step;
    if (Math.abs(step) < NEWTON_ENOUGH) break;
  }
  const share = seen > 0 ? radius / seen : 1;
  const [mx, my] = [(dx * share) / camera.f, (dy * share) / camera.f];
  const r = camera.rotation;
  const wx = r[0]! * mx + r[3]! * my + r[6]!;
  const wy = r[1]! * mx + r[4]! * my + r[7]!;
  const wz = r[2]! * mx + r[5]! * my + r[8]!;
  const along = (z - camera.centre[2]) / wz;
  if (!(along > 0)) return [Number.NaN, Number.NaN];
  return [camera.centre[0] + along * wx, camera.centre[1] + along * wy];
}
