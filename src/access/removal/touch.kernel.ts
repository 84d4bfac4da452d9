import type { Vec } from '#geometry';
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
/** No place of a way is there. */
const NEVER = -1;

/** The stretch of a way that `passesBy` last found within the bounds: from, to [mm]. */
let enters = 0;
let leaves = 0;
/** Of the balls that hold the one looked at, outermost first: the node after the last they hold, and where on the way they first touch [mm]. */
const lasts: number[] = [];
const starts: number[] = [];

/** How deep the balls of a mover stand in an obstacle where it is now [mm]; 0 or less: apart by at least that. */
export function depthIn({ nodes, skips }: Mover, { pieces, bounds }: Obstacle, floorMm = -Infinity): number {
  let deepest = floorMm;
  let i = 0;
  while (i < skips.length) {
    const at = i * BALL;
    const x = nodes[at]!;
    const y = nodes[at + 1]!;
    const z = nodes[at + 2]!;
    const r = nodes[at + 3]!;
    const skip = skips[i]!;
    const isBall = skip === i + 1;
    let isNear = false;
    if (offBounds(bounds.min, bounds.max, x, y, z) < r - deepest)
      for (const piece of pieces) {
        if (offBounds(piece.bounds.min, piece.bounds.max, x, y, z) >= r - deepest) continue;
        const depth = r - piece.distanceWithin(x, y, z, r - deepest);
        if (depth <= deepest) continue;
        isNear = true;
        if (!isBall) break;
        deepest = depth;
      }
    i = isNear ? i + 1 : skip;
  }
  return deepest;
}

/**
 * Whether the mover touches an obstacle when it is pulled straight along a unit direction. False: no place of it comes nearer than the
 * cover stands out.
 *
 * @param lengthMm - how far it is pulled [mm]
 * @param allowedMm - how deep a ball may be in the obstacle: as deep as it was where it began, and a little [mm]
 */
export function touchesAlong(
  { nodes, skips }: Mover,
  { pieces }: Obstacle,
  [dx, dy, dz]: Vec,
  lengthMm: number,
  allowedMm: number,
): boolean {
  for (const piece of pieces) {
    const { min, max } = piece.bounds;
    let deep = 0;
    let i = 0;
    while (i < skips.length) {
      while (deep > 0 && i >= lasts[deep - 1]!) deep--;
      const at = i * BALL;
      const x = nodes[at]!;
      const y = nodes[at + 1]!;
      const z = nodes[at + 2]!;
      const skip = skips[i]!;
      const isBall = skip === i + 1;
      // Steps may miss a scratch of what lies within: a ball about others is looked at that much earlier.
      const near = nodes[at + 3]! - allowedMm + (isBall || piece.isConvex ? 0 : LEAST_STEP_MM);
      let touchedAt = NEVER;
      if (!passesBy(min, max, x, y, z, dx, dy, dz, lengthMm, near)) {
        const from = deep === 0 ? enters : Math.max(enters, starts[deep - 1]!);
        touchedAt = piece.isConvex
          ? convexTouch(piece, x, y, z, dx, dy, dz, from, leaves, near)
          : stepTouch(piece, x, y, z, dx, dy, dz, from, leaves, near);
      }
      if (touchedAt === NEVER) {
        i = skip;
        continue;
      }
      if (isBall) return true;
      lasts[deep] = skip;
      starts[deep++] = touchedAt;
      i++;
    }
  }
  return false;
}

/** True where the ball about a mover never comes into the bounds of an obstacle on its straight way: looked at before anything else. */
export const passesClear = (
  { middle: [x, y, z], reachMm }: Mover,
  { bounds: { min, max } }: Obstacle,
  [dx, dy, dz]: Vec,
  lengthMm: number,
): boolean => passesBy(min, max, x, y, z, dx, dy, dz, lengthMm, reachMm);

/** Golden section: the distance to a convex piece falls, then rises. Told is where its balls may begin to touch it: all the way. */
function convexTouch(
  piece: Piece,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
  from: number,
  to: number,
  near: number,
): number {
  if (from === 0 && piece.distanceWithin(x, y, z, near) < near) return 0;
  let low = from;
  let high = to;
  let p = high - GOLDEN * (high - low);
  let q = low + GOLDEN * (high - low);
  let dp = piece.distanceWithin(x + p * dx, y + p * dy, z + p * dz, Infinity);
  let dq = piece.distanceWithin(x + q * dx, y + q * dy, z + q * dz, Infinity);
  for (let k = 0; k < LOOKS; k++) {
    if (dp < near || dq < near) return from;
    // Nowhere between can it be nearer than this: a distance changes by no more than the way.
    if (Math.min(dp, dq) - (high - low) >= near) return NEVER;
    if (dp <= dq) {
      high = q;
      q = p;
      dq = dp;
      p = high - GOLDEN * (high - low);
      dp = piece.distanceWithin(x + p * dx, y + p * dy, z + p * dz, Infinity);
    } else {
      low = p;
      p = q;
      dp = dq;
      q = low + GOLDEN * (high - low);
      dq = piece.distanceWithin(x + q * dx, y + q * dy, z + q * dz, Infinity);
    }
  }
  return NEVER;
}

/** Steps as long as the distance allows; told is where it first touches. */
function stepTouch(
  piece: Piece,
  x: number,
  y: number,
  z: number,
  dx: number,
  dy: number,
  dz: number,
  from: number,
  to: number,
  near: number,
): number {
  let t = from;
  while (t <= to) {
    const off = piece.distanceWithin(x + t * dx, y + t * dy, z + t * dz, near + FAR_STEP_MM) - near;
    if (off < 0) return t;
    t += Math.max(off, LEAST_STEP_MM);
  }
  return NEVER;
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

/** True where the straight way of a point never comes into the bounds grown by `near`; else `enters` and `leaves` say where it is in them. */
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
  enters = from;
  leaves = to;
  return false;
}
