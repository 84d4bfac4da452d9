import { type Body, bodyShape } from '#geometry';

/** The length of a line along its bodies [mm]. */
export function lengthAlong(bodies: readonly Body[]): number {
  let sum = 0;
  for (const body of bodies) sum += lengthOf(body);
  return sum;
}

const lengthOf = (body: Body): number => {
  const { along, pieces } = bodyShape(body);
  return along[pieces]!;
};

/** A cut this near a point of the path is made just past it, so that the mitre there stays whole [mm]. */
const ON_POINT_MM = 1e-3;

/**
 * The part of a line between two lengths along it, cut square to its path. Bodies wholly inside are the very same objects, so
 * that what is known about them is not worked out again.
 *
 * @param bodies - from port face to port face, meeting
 * @param fromMm - along the line from its start [mm]
 * @param toMm - along the line from its start [mm]
 */
export function stretch(bodies: readonly Body[], fromMm: number, toMm: number): readonly Body[] {
  const out: Body[] = [];
  let start = 0;
  for (const body of bodies) {
    const length = lengthOf(body);
    const a = Math.max(0, fromMm - start);
    const b = Math.min(length, toMm - start);
    start += length;
    if (b - a <= ON_POINT_MM) continue;
    out.push(a <= ON_POINT_MM && b >= length - ON_POINT_MM ? body : cut(body, a, b));
  }
  return out;
}

function cut(body: Body, a: number, b: number): Body {
  const shape = bodyShape(body);
  const path: number[] = [...placeAlong(shape, a)];
  for (let i = 1; i < shape.pieces; i++) {
    const s = shape.along[i]!;
    if (s > a + ON_POINT_MM && s < b - ON_POINT_MM)
      path.push(shape.points[3 * i]!, shape.points[3 * i + 1]!, shape.points[3 * i + 2]!);
  }
  path.push(...placeAlong(shape, b));
  return { part: body.part, path: Float64Array.from(path), radiusMm: body.radiusMm };
}

function placeAlong(shape: ReturnType<typeof bodyShape>, s: number): [number, number, number] {
  const { along, points: p, tangents: t, pieces } = shape;
  let i = 0;
  while (i < pieces - 1 && along[i + 1]! <= s) i++;
  const z = Math.min(along[i + 1]!, Math.max(0, s)) - along[i]!;
  return [p[3 * i]! + t[3 * i]! * z, p[3 * i + 1]! + t[3 * i + 1]! * z, p[3 * i + 2]! + t[3 * i + 2]! * z];
}
