import { addScaled, cross, distance, dot, norm, scale, sub, type Vec } from './vec.ts';

/** How coarsely a turn of a seed is drawn [rad]: finely enough that a seed reads as the bend it is, and keeps the least radius. */
const STRIDE = 0.01;
/** Seeds swing wider than the least radius, so that the refinement shortens them and need not widen them; less wide, a short turn stays one. */
const WIDE = [1.1, 1.02];
/** A turn at an end that lacks so little of a full one [rad] is none: the wider circle asks for a hair of turning back. */
const NO_TURN = 0.2;

interface Circle {
  readonly centre: Vec;
  /** +1 turns from `forward` towards `left`, -1 the other way. */
  readonly sense: number;
}

/**
 * Polylines from one headed point to another in the plane they (nearly) share: four that turn to either side at either
 * end with a straight between, and up to four with a third turn between; at two radii. They only start a refinement: none is exact.
 *
 * @param normal - unit normal of the plane; directions are taken as they are
 * @param arriving - direction of travel at the end
 * @param radiusMm - least bend radius [mm]
 */
export function planarSeeds(
  start: Vec,
  leaving: Vec,
  end: Vec,
  arriving: Vec,
  normal: Vec,
  radiusMm: number,
): readonly Float64Array[] {
  return WIDE.flatMap((wide) => seedsOf(start, leaving, end, arriving, normal, radiusMm * wide));
}

function seedsOf(start: Vec, leaving: Vec, end: Vec, arriving: Vec, normal: Vec, radius: number): Float64Array[] {
  const seeds: Float64Array[] = [];
  for (const first of [1, -1]) {
    for (const last of [1, -1]) {
      const a = circleOf(start, leaving, normal, first, radius);
      const b = circleOf(end, arriving, normal, last, radius);
      seeds.push(throughCircles(start, leaving, end, arriving, normal, radius, [a, b]));
    }
  }
  for (const first of [1, -1]) {
    const a = circleOf(start, leaving, normal, first, radius);
    const b = circleOf(end, arriving, normal, first, radius);
    const between = sub(b.centre, a.centre);
    const d = norm(between);
    if (d > 4 * radius || d < 1e-9 * radius) continue;
    const side = cross(normal, scale(between, 1 / d));
    const out = Math.sqrt(4 * radius * radius - (d * d) / 4);
    for (const hand of [1, -1]) {
      const middle = addScaled(addScaled(a.centre, between, 0.5), side, hand * out);
      seeds.push(
        throughCircles(start, leaving, end, arriving, normal, radius, [a, { centre: middle, sense: -first }, b]),
      );
    }
  }
  return seeds;
}

function circleOf(at: Vec, heading: Vec, normal: Vec, sense: number, radius: number): Circle {
  return { centre: addScaled(at, cross(normal, heading), sense * radius), sense };
}

/** Round each circle by its sense, leaving it for the next one's centre line or tangent, roughly. */
function throughCircles(
  start: Vec,
  leaving: Vec,
  end: Vec,
  arriving: Vec,
  normal: Vec,
  radius: number,
  circles: readonly Circle[],
): Float64Array {
  const out: number[] = [...start];
  const east = leaving;
  const north = cross(normal, leaving);
  const bearing = (v: Vec): number => Math.atan2(dot(v, north), dot(v, east));
  let heading = 0;
  for (let i = 0; i < circles.length; i++) {
    const circle = circles[i]!;
    const next = circles[i + 1];
    const wanted = next ? headingTowards(circle, next, radius, bearing, heading) : bearing(arriving);
    let turn = (wanted - heading) * circle.sense;
    turn -= 2 * Math.PI * Math.floor(turn / (2 * Math.PI));
    const isMiddle = i > 0 && next !== undefined;
    if (turn > 2 * Math.PI - NO_TURN && !isMiddle) turn = 0;
    const count = Math.ceil(turn / STRIDE);
    for (let k = i === 0 ? 1 : 0; k <= count; k++) {
      const h = heading + (circle.sense * turn * k) / Math.max(1, count);
      // The point of the circle where the way has heading h lies a quarter turn behind it.
      const radial = h - (circle.sense * Math.PI) / 2;
      const p = addScaled(addScaled(circle.centre, east, radius * Math.cos(radial)), north, radius * Math.sin(radial));
      if (k < count || next) out.push(...p);
    }
    heading += circle.sense * turn;
  }
  out.push(...end);
  return Float64Array.from(out);
}

function headingTowards(from: Circle, to: Circle, radius: number, bearing: (v: Vec) => number, before: number): number {
  const d = distance(from.centre, to.centre);
  if (d < 1e-9 * radius) return before;
  const line = bearing(sub(to.centre, from.centre));
  if (from.sense === to.sense) return line;
  return line + from.sense * Math.asin(Math.min(1, (2 * radius) / d));
}
