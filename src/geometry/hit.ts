import type { Solid } from './solid.ts';
import { addScaled, norm, scale, type Vec } from './vec.ts';
import { GeometryError } from './geometry-error.ts';

/** Where a straight ray first meets a surface. */
export interface Hit {
  /** How far along the ray [mm]. */
  readonly alongMm: number;
  readonly point: Vec;
}

/** A solid that also answers where a ray first meets its surface. */
export interface HittableSolid extends Solid {
  /**
   * The first crossing of the surface, going in or coming out, within `maxMm` of the origin; null if there is none.
   *
   * @param direction - any length above zero
   */
  firstHit(origin: Vec, direction: Vec, maxMm: number): Hit | null;
  moved(motion: Parameters<Solid['moved']>[0]): HittableSolid;
}

/** The unit direction of a ray; checked here, at the border. */
export function rayDirection(direction: Vec): Vec {
  const length = norm(direction);
  if (!(length > 0 && Number.isFinite(length))) throw new GeometryError('ray', direction, 'a direction, not zero');
  return scale(direction, 1 / length);
}

/** The hit of a convex solid that the ray is inside of from `enters` to `leaves`; null where that is behind or too far. */
export function hitOfInterval(origin: Vec, along: Vec, enters: number, leaves: number, maxMm: number): Hit | null {
  if (!(enters <= leaves)) return null;
  const t = enters >= 0 ? enters : leaves;
  return t >= 0 && t <= maxMm ? { alongMm: t, point: addScaled(origin, along, t) } : null;
}

/** Where x0 + t dx lies within [low, high]. */
export function slabInterval(x0: number, dx: number, low: number, high: number): [number, number] {
  if (dx === 0) return x0 >= low && x0 <= high ? [-Infinity, Infinity] : [Infinity, -Infinity];
  const a = (low - x0) / dx;
  const b = (high - x0) / dx;
  return a < b ? [a, b] : [b, a];
}

/** Where a t^2 + 2 b t + c <= 0, for a >= 0. */
export function quadraticInterval(a: number, b: number, c: number): [number, number] {
  if (a === 0) return c <= 0 ? [-Infinity, Infinity] : [Infinity, -Infinity];
  const disc = b * b - a * c;
  if (disc < 0) return [Infinity, -Infinity];
  const q = b > 0 ? -b - Math.sqrt(disc) : -b + Math.sqrt(disc);
  if (q === 0) return [0, 0];
  const r1 = q / a;
  const r2 = c / q;
  return r1 < r2 ? [r1, r2] : [r2, r1];
}
