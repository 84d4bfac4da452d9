import { addScaled, dot, norm, scale, type Vec } from './vec.ts';

/** How far a chord may stand off its arc, and how long it may be: the bodies of a line are drawn no coarser [mm]. */
const SAGITTA_MM = 0.05;
const STEP_MM = 3;

/** Longest chord of an arc that stays within the sagitta and the step [mm]. */
export function arcStep(radiusMm: number, sagittaMm = SAGITTA_MM, stepMm = STEP_MM): number {
  // sagitta s of chord c on radius r: c = 2 sqrt(2 r s - s^2)
  return Math.min(stepMm, 2 * Math.sqrt(Math.max(2 * radiusMm * sagittaMm - sagittaMm ** 2, 0)));
}

/**
 * Points of a circular arc: from `start`, leaving along `direction`, bending towards `towards` (its part square to the
 * direction counts) by `angleRad` on `radiusMm`. Every point lies on the arc, ends included; x,y,z triples.
 *
 * @returns at least two points; the direction at the end with them
 */
export function arcPath(
  start: Vec,
  direction: Vec,
  towards: Vec,
  radiusMm: number,
  angleRad: number,
  sagittaMm = SAGITTA_MM,
  stepMm = STEP_MM,
): { readonly points: Float64Array; readonly direction: Vec } {
  const square = addScaled(towards, direction, -dot(towards, direction));
  const side = scale(square, 1 / Math.max(norm(square), 1e-12));
  const count = Math.max(1, Math.ceil((radiusMm * angleRad) / arcStep(radiusMm, sagittaMm, stepMm) - 1e-9));
  const points = new Float64Array(3 * (count + 1));
  for (let i = 0; i <= count; i++) {
    const a = (angleRad * i) / count;
    const p = addScaled(addScaled(start, direction, radiusMm * Math.sin(a)), side, radiusMm * (1 - Math.cos(a)));
    points.set(p, 3 * i);
  }
  return { points, direction: addScaled(scale(direction, Math.cos(angleRad)), side, Math.sin(angleRad)) };
}

/** The polyline with points added on its long pieces, so that none is longer than `mostMm`; no point is moved. */
export function subdivided(points: ArrayLike<number>, mostMm: number): Float64Array {
  const out: number[] = [points[0]!, points[1]!, points[2]!];
  for (let i = 3; i + 2 < points.length; i += 3) {
    const d = Math.hypot(points[i]! - points[i - 3]!, points[i + 1]! - points[i - 2]!, points[i + 2]! - points[i - 1]!);
    const count = Math.max(1, Math.ceil(d / mostMm - 1e-9));
    for (let k = 1; k < count; k++) {
      for (let e = 0; e < 3; e++) out.push(points[i - 3 + e]! + ((points[i + e]! - points[i - 3 + e]!) * k) / count);
    }
    out.push(points[i]!, points[i + 1]!, points[i + 2]!);
  }
  return Float64Array.from(out);
}
