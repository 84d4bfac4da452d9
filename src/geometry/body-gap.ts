import type { Body } from './body.ts';
import { BodySearch } from './body-search.kernel.ts';
import { bodyShape, type BodyShape } from './body-shape.ts';
import type { Bounds } from './bounds.ts';
import type { Field, FieldTraits } from './search-terms.ts';
import type { Solid } from './solid.ts';
import type { Vec } from './vec.ts';

export interface BodyGap {
  /** Surface to surface [mm]; negative when they overlap: then the depth of the body's deepest place. Infinity: beyond what was asked. */
  readonly gapMm: number;
  /** The place of the body that is nearest (or deepest) [mm]. */
  readonly at: Vec;
  /** The nearest place of the other surface [mm]. */
  readonly on: Vec;
}

/** The distance between two bounds, 0 when they meet [mm]. */
export function boundsApart(a: Bounds, b: Bounds): number {
  const dx = Math.max(0, a.min[0] - b.max[0], b.min[0] - a.max[0]);
  const dy = Math.max(0, a.min[1] - b.max[1], b.min[1] - a.max[1]);
  const dz = Math.max(0, a.min[2] - b.max[2], b.min[2] - a.max[2]);
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
}

/**
 * The gap between a body and a solid, surface to surface, right to 0.05 mm.
 *
 * The body is the union of flat discs square to its path; at a corner the outer part of a ball, between the two discs, fills
 * the mitre. Flat ends stay flat: a body that stands square on a face has a gap of 0 to it. The gap is the least signed
 * distance to the solid over all places of the body. A solid without an inside (an open mesh) that the body cuts has a
 * negative gap too: how deep its surface lies in the body.
 *
 * @param body - what is held against the solid [mm]
 * @param solid - the other thing [mm]
 * @param beyondMm - gaps from here on are not worked out: they come back as Infinity [mm]
 * @returns the gap and where it is [mm]
 */
export function bodyGap(body: Body, solid: Solid, beyondMm = Infinity): BodyGap {
  const shape = bodyShape(body);
  if (boundsApart(shape.bounds, solid.bounds) >= beyondMm) return farAway(shape);
  const open = 'insideBy' in solid && solid.insideBy === 'none';
  const found = leastGap(shape, solid, { convex: solid.kind !== 'mesh', floorMm: open ? 0 : -Infinity }, beyondMm);
  return open && found.gapMm < CUT_MM ? cutDepth(shape, solid, found) : found;
}

/** An open surface nearer than this is taken to touch the body [mm]. */
const CUT_MM = 0.05;

/** The least signed distance over a body laid out, or Infinity from `beyondMm` on. */
export function leastGap(shape: BodyShape, field: Field, traits: FieldTraits, beyondMm: number): BodyGap {
  const search = new BodySearch(shape, field, traits, beyondMm);
  search.run();
  if (!search.found) return farAway(shape);
  const at: Vec = [search.bestX, search.bestY, search.bestZ];
  return { gapMm: search.best, at, on: field.closest(...at).point };
}

export function farAway(shape: BodyShape): BodyGap {
  const at: Vec = [shape.points[0]!, shape.points[1]!, shape.points[2]!];
  return { gapMm: Infinity, at, on: at };
}

/** How deep an open surface that cuts the body lies in it: radius less distance from the centreline, no more than from a flat end. */
function cutDepth(shape: BodyShape, solid: Solid, touch: BodyGap): BodyGap {
  let best = touch;
  for (let i = 0; i < shape.pieces; i++) {
    const length = shape.along[i + 1]! - shape.along[i]!;
    const steps = Math.max(1, Math.ceil(length / CUT_STEP_MM));
    for (let k = 0; k <= steps; k++) {
      const c = placeOn(shape, i, (length * k) / steps);
      const d = solid.distanceWithin(...c, shape.radiusMm);
      if (shape.radiusMm - d <= -best.gapMm) continue;
      const on = solid.closest(...c).point;
      const depth = Math.min(shape.radiusMm - d, behindEnds(shape, on));
      if (depth > -best.gapMm) best = { gapMm: -depth, at: c, on };
    }
  }
  return best;
}

/** Spacing at which the depth of a cut is looked at [mm]: a depth is already a fault, its size only ranks it. */
const CUT_STEP_MM = 1;

function placeOn(shape: BodyShape, i: number, z: number): Vec {
  const { points: p, tangents: t } = shape;
  return [p[3 * i]! + t[3 * i]! * z, p[3 * i + 1]! + t[3 * i + 1]! * z, p[3 * i + 2]! + t[3 * i + 2]! * z];
}

/** How far a place lies on the body's side of its two end planes, where it is near those ends [mm]. */
function behindEnds(shape: BodyShape, q: Vec): number {
  const { points: p, tangents: t, pieces } = shape;
  let least = Infinity;
  for (const [i, k, s] of [
    [0, 0, 1],
    [pieces, pieces - 1, -1],
  ] as const) {
    const w = [q[0] - p[3 * i]!, q[1] - p[3 * i + 1]!, q[2] - p[3 * i + 2]!] as const;
    const z = (w[0] * t[3 * k]! + w[1] * t[3 * k + 1]! + w[2] * t[3 * k + 2]!) * s;
    const off = Math.sqrt(Math.max(0, w[0] ** 2 + w[1] ** 2 + w[2] ** 2 - z * z));
    if (off <= shape.radiusMm && Math.abs(z) <= shape.radiusMm) least = Math.min(least, z);
  }
  return least;
}
