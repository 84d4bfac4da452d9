import type { Point2 } from '../outline/outline.ts';
import { CAMERA_TERM, CAMERA_TERMS, type Matrix3, type PictureSize } from './plane-camera.kernel.ts';
import { solved } from './least-squares.kernel.ts';

/** A camera to begin with: its parameter list, and the rotation that the list's turn (nought here) is applied to. */
export interface FirstCamera {
  readonly terms: Float64Array;
  readonly base: Matrix3;
}

/**
 * The projective map that takes points of the bench to where they are seen, its last number 1.
 *
 *     (u, v) = ((h0 x + h1 y + h2) / w, (h3 x + h4 y + h5) / w),  w = h6 x + h7 y + 1
 *
 * Least squares over four points or more; undefined where three of them are in one line. Source: hartley-zisserman-2004,
 * chapter 4. The caller brings both sides to about +-1, so that the squares compare.
 */
export function homography(from: readonly Point2[], to: readonly Point2[]): Float64Array | undefined {
  const normal = new Float64Array(64);
  const right = new Float64Array(8);
  const take = (row: readonly number[], value: number): void => {
    for (let i = 0; i < 8; i++) {
      right[i]! += row[i]! * value;
      for (let j = 0; j < 8; j++) normal[8 * i + j]! += row[i]! * row[j]!;
    }
  };
  from.forEach(([x, y], i) => {
    const [u, v] = to[i]!;
    take([x, y, 1, 0, 0, 0, -u * x, -u * y], u);
    take([0, 0, 0, x, y, 1, -v * x, -v * y], v);
  });
  const h = solved(normal, right);
  return h === undefined ? undefined : Float64Array.of(...h, 1);
}

/** Focal lengths tried, in half diagonals: 12 to 120 mm on a full frame, where 21.6 mm is half the diagonal. */
const LEAST_F = 0.55;
const MOST_F = 5.5;

/**
 * A camera from four corners or more and where they are seen, without lens bend. The focal length is the one asked for, or,
 * where the view is oblique enough to tell, the one that makes the two axes of the bench square and equally long
 * (zhang-2000, section 3.1).
 */
export function firstCamera(
  corners: readonly Point2[],
  seen: readonly Point2[],
  size: PictureSize,
  focal: { readonly f: number; readonly isKnown: boolean },
): FirstCamera | undefined {
  const half = Math.hypot(size.widthPx, size.heightPx) / 2;
  const reach = Math.max(...corners.flatMap(([x, y]) => [Math.abs(x), Math.abs(y)]));
  const h = homography(
    corners.map(([x, y]): Point2 => [x / reach, y / reach]),
    seen.map(([u, v]): Point2 => [(u - size.widthPx / 2) / half, (v - size.heightPx / 2) / half]),
  );
  if (h === undefined) return undefined;
  const f = focal.isKnown ? focal.f : (focalOf(h) ?? focal.f);
  // columns of K^-1 H: two axes of the bench and its origin, as the camera sees them, up to one scale
  const a = [h[0]! / f, h[3]! / f, h[6]!];
  const b = [h[1]! / f, h[4]! / f, h[7]!];
  const t = [h[2]! / f, h[5]! / f, h[8]!];
  const scale = 2 / (Math.hypot(...a) + Math.hypot(...b));
  const base = nearestRotation(
    a.map((value) => value * scale),
    b.map((value) => value * scale),
  );
  const terms = new Float64Array(CAMERA_TERMS);
  t.forEach((value, i) => (terms[CAMERA_TERM.shift + i] = value * scale * reach));
  terms[CAMERA_TERM.logF] = Math.log(f);
  return terms[CAMERA_TERM.shift + 2]! > 0 ? { terms, base } : undefined;
}

function focalOf(h: Float64Array): number | undefined {
  // h1' w h2 = 0 and h1' w h1 = h2' w h2 with w = diag(1/f^2, 1/f^2, 1); the one that says more of the two together
  const p = h[0]! * h[1]! + h[3]! * h[4]!;
  const q = h[6]! * h[7]!;
  const r = h[0]! ** 2 + h[3]! ** 2 - h[1]! ** 2 - h[4]! ** 2;
  const s = h[6]! ** 2 - h[7]! ** 2;
  const square = -(p * q + r * s) / (q * q + s * s + 1e-12);
  const f = Math.sqrt(square);
  return f >= LEAST_F && f <= MOST_F ? f : undefined;
}

/** Two axes made square and of length one, moved equally; the third across them. */
function nearestRotation(a: readonly number[], b: readonly number[]): Matrix3 {
  const unit = (v: readonly number[]): number[] => {
    const length = Math.hypot(...v);
    return v.map((value) => value / length);
  };
  const [p, q] = [unit(a), unit(b)];
  const sum = unit(p.map((value, i) => value + q[i]!));
  const gap = unit(p.map((value, i) => value - q[i]!));
  const x = sum.map((value, i) => (value + gap[i]!) * Math.SQRT1_2);
  const y = sum.map((value, i) => (value - gap[i]!) * Math.SQRT1_2);
  const z = [x[1]! * y[2]! - x[2]! * y[1]!, x[2]! * y[0]! - x[0]! * y[2]!, x[0]! * y[1]! - x[1]! * y[0]!];
  return Float64Array.of(x[0]!, y[0]!, z[0]!, x[1]!, y[1]!, z[1]!, x[2]!, y[2]!, z[2]!);
}
