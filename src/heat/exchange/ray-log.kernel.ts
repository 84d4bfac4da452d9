import type { Bounds } from '#geometry';
import { LEFT_SCENE, type RayPath, SURFACE_MASK } from './exchange-row.kernel.ts';

/** Steps over the longest side of the log's bounds. */
const STEPS = 65000;
/** Room about boxes for rounding points to steps and for the little that rays start off a surface, in steps and millimetres. */
const ROOM_STEPS = 2;
const ROOM_MM = 0.1;

/**
 * All rays of one patch as they went, so that after a change only those are traced again that met what has gone or would meet what has
 * come. Points are kept in steps of some hundredths of a millimetre: they only say which rays to look at again.
 */
export interface RayLog {
  /** Everything in the scene lies in these, with room for what moves. */
  readonly bounds: Bounds;
  readonly stepMm: number;
  /** Of each ray the place of its first flight; one more at the end. */
  readonly firsts: Uint32Array;
  /** What each flight met, see `exchange-row.kernel.ts`. */
  ends: Uint16Array;
  /** Of each ray where it starts and where each flight ends: ray r's are from 3 * (firsts[r] + r) on. */
  points: Uint16Array;
}

/** An empty log for so many rays, with room for `flights` to begin with. */
export function newRayLog(bounds: Bounds, rays: number, flights: number): RayLog {
  const side = Math.max(...bounds.max.map((v, axis) => v - bounds.min[axis]!));
  return {
    bounds,
    stepMm: side / STEPS,
    firsts: new Uint32Array(rays + 1),
    ends: new Uint16Array(flights),
    points: new Uint16Array(3 * (flights + rays)),
  };
}

/** Writes ray `ray` down; rays come in order. */
export function logRay(log: RayLog, ray: number, path: RayPath): void {
  const from = log.firsts[ray]!;
  const to = from + path.flights;
  makeRoom(log, to);
  const { bounds, stepMm, ends, points } = log;
  const inverse = 1 / stepMm;
  ends.set(path.ends.subarray(0, path.flights), from);
  let at = 3 * (from + ray);
  for (let k = 0; k <= path.flights; k++) {
    const left = k > 0 && path.ends[k - 1] === LEFT_SCENE;
    const far = left ? wayOut(bounds, path.points, 3 * (k - 1), 3 * k) : 0;
    for (let axis = 0; axis < 3; axis++) {
      const v = left ? path.points[3 * (k - 1) + axis]! + far * path.points[3 * k + axis]! : path.points[3 * k + axis]!;
      const step = (v - bounds.min[axis]!) * inverse + 0.5;
      points[at++] = step < 0 ? 0 : step > 65535 ? 65535 : step;
    }
  }
  log.firsts[ray + 1] = to;
}

/** Takes ray `ray` over from another log of the same patch and bounds, surfaces renumbered. */
export function copyRay(log: RayLog, ray: number, old: RayLog, renumbered: Int32Array): void {
  const from = log.firsts[ray]!;
  const oldFrom = old.firsts[ray]!;
  const flights = old.firsts[ray + 1]! - oldFrom;
  makeRoom(log, from + flights);
  for (let k = 0; k < flights; k++) {
    const end = old.ends[oldFrom + k]!;
    log.ends[from + k] = end === LEFT_SCENE ? end : (end & ~SURFACE_MASK) | renumbered[end & SURFACE_MASK]!;
  }
  const oldAt = 3 * (oldFrom + ray);
  const at = 3 * (from + ray);
  for (let i = 0; i < 3 * (flights + 1); i++) log.points[at + i] = old.points[oldAt + i]!;
  log.firsts[ray + 1] = from + flights;
}

/** A log of its own with the rays of another that is used again. */
export function keptLog({ bounds, stepMm, firsts, ends, points }: RayLog): RayLog {
  const rays = firsts.length - 1;
  const flights = firsts[rays]!;
  return {
    bounds,
    stepMm,
    firsts: firsts.slice(),
    ends: ends.slice(0, flights),
    points: points.slice(0, 3 * (flights + rays)),
  };
}

/** The same rays with surfaces renumbered. */
export function renumberedLog(log: RayLog, renumbered: Int32Array): RayLog {
  const ends = log.ends.map((end) =>
    end === LEFT_SCENE ? end : (end & ~SURFACE_MASK) | renumbered[end & SURFACE_MASK]!,
  );
  return { ...log, ends };
}

function makeRoom(log: RayLog, flights: number): void {
  if (flights <= log.ends.length) return;
  const room = Math.ceil(flights * 1.5);
  const ends = new Uint16Array(room);
  ends.set(log.ends);
  const points = new Uint16Array(3 * (room + log.firsts.length - 1));
  points.set(log.points);
  log.ends = ends;
  log.points = points;
}

/** How far along a direction the bounds end, from a point within them [mm]. */
function wayOut({ min, max }: Bounds, points: Float64Array, from: number, way: number): number {
  let far = Infinity;
  for (let axis = 0; axis < 3; axis++) {
    const d = points[way + axis]!;
    if (d === 0) continue;
    const t = ((d > 0 ? max[axis]! : min[axis]!) - points[from + axis]!) / d;
    if (t < far) far = t;
  }
  return far > 0 ? far : 0;
}

/** Boxes in the log's steps, six numbers each with room about them; the first is round all of them. */
export function boxesInSteps({ bounds, stepMm }: RayLog, boxes: readonly Bounds[]): Float64Array {
  const out = new Float64Array(6 * (boxes.length + 1));
  out.fill(Infinity, 0, 3);
  out.fill(-Infinity, 3, 6);
  boxes.forEach(({ min, max }, i) => {
    for (let axis = 0; axis < 3; axis++) {
      const low = (min[axis]! - ROOM_MM - bounds.min[axis]!) / stepMm - ROOM_STEPS;
      const high = (max[axis]! + ROOM_MM - bounds.min[axis]!) / stepMm + ROOM_STEPS;
      out[6 * (i + 1) + axis] = low;
      out[6 * (i + 1) + 3 + axis] = high;
      out[axis] = Math.min(out[axis]!, low);
      out[3 + axis] = Math.max(out[3 + axis]!, high);
    }
  });
  return out;
}

/**
 * Whether a ray has to be traced again: it met a surface that has changed, or passes through a box that something new may be in.
 *
 * @param changed - by number of surface
 * @param boxes - of `boxesInSteps`
 */
export function isTouched(log: RayLog, ray: number, changed: Uint8Array, boxes: Float64Array): boolean {
  const { ends, points } = log;
  const from = log.firsts[ray]!;
  const to = log.firsts[ray + 1]!;
  for (let k = from; k < to; k++) {
    const end = ends[k]!;
    if (end !== LEFT_SCENE && changed[end & SURFACE_MASK] === 1) return true;
  }
  let at = 3 * (from + ray);
  for (let k = from; k < to; k++, at += 3) {
    if (!crosses(points, at, boxes, 0)) continue;
    for (let box = 6; box < boxes.length; box += 6) if (crosses(points, at, boxes, box)) return true;
  }
  return false;
}

/** Whether the straight piece from the point at `at` to the next one meets the box. */
function crosses(points: Uint16Array, at: number, boxes: Float64Array, box: number): boolean {
  let enters = 0;
  let leaves = 1;
  for (let axis = 0; axis < 3; axis++) {
    const a = points[at + axis]!;
    const d = points[at + 3 + axis]! - a;
    const low = boxes[box + axis]!;
    const high = boxes[box + 3 + axis]!;
    if (d === 0) {
      if (a < low || a > high) return false;
      continue;
    }
    const inverse = 1 / d;
    const t0 = ((d > 0 ? low : high) - a) * inverse;
    const t1 = ((d > 0 ? high : low) - a) * inverse;
    if (t0 > enters) enters = t0;
    if (t1 < leaves) leaves = t1;
    if (enters > leaves) return false;
  }
  return true;
}
