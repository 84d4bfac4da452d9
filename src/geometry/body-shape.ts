import type { Body } from './body.ts';
import type { Bounds } from './bounds.ts';

/** A body laid out for searching: its straight pieces, how far along each begins, and its bounds. Zero-length pieces are left out. */
export interface BodyShape {
  readonly radiusMm: number;
  /** Points of the path, x,y,z triples [mm]; no two neighbours coincide. */
  readonly points: Float64Array;
  /** Unit direction of each piece, x,y,z triples. */
  readonly tangents: Float64Array;
  /** Distance along the path at each point [mm]. */
  readonly along: Float64Array;
  readonly pieces: number;
  readonly bounds: Bounds;
}

/** Neighbours nearer than this are one point [mm]: a direction taken from less would be noise. */
const SAME_POINT_MM = 1e-6;

const known = new WeakMap<Body, BodyShape>();

/** The body laid out for searching; worked out once for each body. A path of one place is a disc of no length facing +Z. */
export function bodyShape(body: Body): BodyShape {
  const found = known.get(body);
  if (found !== undefined) return found;
  const made = layOut(body);
  known.set(body, made);
  return made;
}

function layOut(body: Body): BodyShape {
  const points = withoutRepeats(body.path);
  const pieces = points.length / 3 - 1;
  const tangents = new Float64Array(pieces * 3);
  const along = new Float64Array(pieces + 1);
  for (let i = 0; i < pieces; i++) {
    const dx = points[3 * i + 3]! - points[3 * i]!;
    const dy = points[3 * i + 4]! - points[3 * i + 1]!;
    const dz = points[3 * i + 5]! - points[3 * i + 2]!;
    const length = Math.sqrt(dx * dx + dy * dy + dz * dz);
    along[i + 1] = along[i]! + length;
    tangents.set([dx / length, dy / length, dz / length], 3 * i);
  }
  return {
    radiusMm: body.radiusMm,
    points,
    tangents,
    along,
    pieces,
    bounds: boundsOf(points, tangents, body.radiusMm),
  };
}

function withoutRepeats(path: Float64Array): Float64Array {
  const kept: number[] = [];
  for (let i = 0; i + 2 < path.length; i += 3) {
    const n = kept.length;
    const [x, y, z] = [path[i]!, path[i + 1]!, path[i + 2]!];
    if (n > 0 && Math.hypot(x - kept[n - 3]!, y - kept[n - 2]!, z - kept[n - 1]!) < SAME_POINT_MM) continue;
    kept.push(x, y, z);
  }
  if (kept.length === 3) kept.push(kept[0]!, kept[1]!, kept[2]! + SAME_POINT_MM);
  return Float64Array.from(kept);
}

/** Tight at the flat ends (a disc reaches r sin(angle to the axis) along an axis), r everywhere else. */
function boundsOf(points: Float64Array, tangents: Float64Array, radiusMm: number): Bounds {
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  const last = points.length / 3 - 1;
  for (let i = 0; i <= last; i++) {
    for (const k of [0, 1, 2] as const) {
      const t = i === 0 ? tangents[k]! : i === last ? tangents[3 * (last - 1) + k]! : 0;
      const reach = radiusMm * Math.sqrt(Math.max(0, 1 - t * t));
      min[k] = Math.min(min[k], points[3 * i + k]! - reach);
      max[k] = Math.max(max[k], points[3 * i + k]! + reach);
    }
  }
  return { min, max };
}
