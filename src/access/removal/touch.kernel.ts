import type { Obstacle, Piece } from './obstacle.ts';
import type { Mover } from './mover.ts';
import { BALL } from './sphere-cover.kernel.ts';

/** A step along a way is never shorter than this [mm]: what is missed by it is less than a scratch. */
const LEAST_STEP_MM = 1.5;
/** Further than this nothing needs to be known to take a step [mm]. */
const FAR_STEP_MM = 120;
/** Looks at a convex piece along a way: each narrows where it is nearest by a third. */
const LOOKS = 16;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** How deep the balls of a mover stand in an obstacle where it is now [mm]; 0 or less: apart by at least that. */
export function depthIn({ balls }: Mover, { pieces, bounds }: Obstacle, floorMm = -Infinity): number {
  let deepest = floorMm;
  for (let i = 0; i < balls.length; i += BALL) {
    const [x, y, z, r] = [balls[i]!, balls[i + 1]!, balls[i + 2]!, balls[i + 3]!];
    if (offBounds(bounds.min, bounds.max, x, y, z) >= r - deepest) continue;
    for (const piece of pieces) {
      if (offBounds(piece.bounds.min, piece.bounds.max, x, y, z) >= r - deepest) continue;
      deepest = Math.max(deepest, r - piece.distanceWithin(x, y, z, r - deepest));
    }
  }
  return deepest;
}

/** Where a ball of a mover first goes too deep into an obstacle: how far along, and the middle of the ball. */
export interface Touch {
  readonly alongMm: number;
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

/**
 * The first touch when the mover is pulled straight along a unit direction, or null: then no place of it comes nearer than the
 * cover stands out.
 *
 * @param lengthMm - how far it is pulled [mm]
 * @param allowedMm - how deep a ball may be in the obstacle: as deep as it was where it began, and a little [mm]
 * @param isFirst - false: any touch will do
 */
export function touchAlong(
  { balls }: Mover,
  { pieces, bounds }: Obstacle,
  dx: number,
  dy: number,
  dz: number,
  lengthMm: number,
  allowedMm: number,
  isFirst = false,
): Touch | null {
  let best: Touch | null = null;
  let length = lengthMm;
  for (let i = 0; i < balls.length; i += BALL) {
    const [x, y, z, r] = [balls[i]!, balls[i + 1]!, balls[i + 2]!, balls[i + 3]!];
    const near = r - allowedMm;
    if (near <= -1e9 || passesBy(bounds.min, bounds.max, x, y, z, dx, dy, dz, length, near)) continue;
    for (const piece of pieces) {
      if (passesBy(piece.bounds.min, piece.bounds.max, x, y, z, dx, dy, dz, length, near)) continue;
      const t = piece.isConvex
        ? convexTouch(piece, x, y, z, dx, dy, dz, length, near, isFirst)
        : stepTouch(piece, x, y, z, dx, dy, dz, length, near);
      if (t < 0) continue;
      best = { alongMm: t, x: x + t * dx, y: y + t * dy, z: z + t * dz };
      if (!isFirst) return best;
      length = t;
    }
  }
  return best;
}

/** Golden section: the distance to a convex piece falls, then rises. Below 0: no touch. */
function convexTouch(
  piece: Piece,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
  length: number,
  near: number,
  isFirst: boolean,
): number {
  const at = (t: number): number => piece.distanceWithin(x + t * dx, y + t * dy, z + t * dz, Infinity);
  let [low, high] = [0, length];
  const start = at(0);
  if (start < near) return 0;
  let p = high - GOLDEN * (high - low);
  let q = low + GOLDEN * (high - low);
  let [dp, dq] = [at(p), at(q)];
  let hit = -1;
  for (let k = 0; k < LOOKS && hit < 0; k++) {
    if (dp < near) hit = p;
    else if (dq < near) hit = q;
    // Nowhere between can it be nearer than this: a distance changes by no more than the way.
    else if (Math.min(dp, dq) - (high - low) >= near) return -1;
    else if (dp <= dq) {
      high = q;
      [q, dq] = [p, dp];
      p = high - GOLDEN * (high - low);
      dp = at(p);
    } else {
      low = p;
      [p, dp] = [q, dq];
      q = low + GOLDEN * (high - low);
      dq = at(q);
    }
  }
  if (hit < 0) return -1;
  if (!isFirst) return hit;
  let outside = 0;
  for (let k = 0; k < LOOKS; k++) {
    const middle = (outside + hit) / 2;
    if (at(middle) < near) hit = middle;
    else outside = middle;
  }
  return hit;
}

/** Steps as long as the distance allows. Below 0: no touch. */
function stepTouch(
  piece: Piece,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
  length: number,
  near: number,
): number {
  let t = 0;
  while (t <= length) {
    const off = piece.distanceWithin(x + t * dx, y + t * dy, z + t * dz, near + FAR_STEP_MM) - near;
    if (off < 0) return t;
    t += Math.max(off, LEAST_STEP_MM);
  }
  return -1;
}

function offBounds(
  min: readonly [number, number, number],
  max: readonly [number, number, number],
  x: number,
  y: number,
  z: number,
): number {
  const ox = Math.max(min[0] - x, 0, x - max[0]);
  const oy = Math.max(min[1] - y, 0, y - max[1]);
  const oz = Math.max(min[2] - z, 0, z - max[2]);
  return Math.sqrt(ox * ox + oy * oy + oz * oz);
}

/** True where the straight way of a point never comes into the bounds grown by `near`. */
function passesBy(
  min: readonly [number, number, number],
  max: readonly [number, number, number],
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
  length: number,
  near: number,
): boolean {
  let from = 0;
  let to = length;
  for (let k = 0; k < 3; k++) {
    const p = k === 0 ? x : k === 1 ? y : z;
    const d = k === 0 ? dx : k === 1 ? dy : dz;
    const low = min[k as 0]! - near;
    const high = max[k as 0]! + near;
    if (Math.abs(d) < 1e-12) {
      if (p < low || p > high) return true;
      continue;
    }
    const a = (low - p) / d;
    const b = (high - p) / d;
    from = Math.max(from, Math.min(a, b));
    to = Math.min(to, Math.max(a, b));
    if (from > to) return true;
  }
  return false;
}
