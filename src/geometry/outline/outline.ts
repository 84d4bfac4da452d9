import { GeometryError } from '../geometry-error.ts';

/** A point of the flat [mm]. */
export type Point2 = readonly [x: number, y: number];

/**
 * A corner of a closed outline [mm], and the bulge of the side that leaves it: the tangent of a quarter of the angle its arc
 * turns through, positive where it turns to the left; 0 or absent for a straight side. The way DXF keeps its polylines, so
 * that an arc stays an arc from the bench to the cutter.
 */
export interface OutlineCorner {
  readonly at: Point2;
  readonly bulge?: number;
}

/** A closed outline: the last corner's side goes back to the first. Counter-clockwise outside, clockwise for an opening. */
export type Outline = readonly OutlineCorner[];

/** A side of an outline as an arc: its centre, radius, and the angles it goes from and through [rad]; + turns to the left. */
export interface SideArc {
  readonly centre: Point2;
  readonly radius: number;
  readonly from: number;
  readonly through: number;
}

/** An outline of straight sides. */
export function straightOutline(points: readonly Point2[]): Outline {
  return points.map((at) => ({ at }));
}

/** A round outline of two half circles, to the left. */
export function roundOutline(centre: Point2, radius: number): Outline {
  return [
    { at: [centre[0] + radius, centre[1]], bulge: 1 },
    { at: [centre[0] - radius, centre[1]], bulge: 1 },
  ];
}

/** A flatter arc than this is a straight side: over 10 m it would stand off by 0.01 micrometres. */
const STRAIGHT_BULGE = 1e-9;

/** The side that leaves corner `i` as an arc; undefined where it is straight. */
export function sideArc(outline: Outline, i: number): SideArc | undefined {
  const { at: a, bulge = 0 } = outline[i]!;
  if (Math.abs(bulge) < STRAIGHT_BULGE) return undefined;
  const b = outline[(i + 1) % outline.length]!.at;
  const chord = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (chord === 0)
    throw new GeometryError('an arc of an outline', `it begins and ends at ${a[0]}, ${a[1]} mm`, 'two ends apart');
  // The centre lies off the middle of the chord, to its left for a bulge within +-1.
  const off = (1 - bulge * bulge) / (4 * bulge);
  const centre: Point2 = [(a[0] + b[0]) / 2 - (b[1] - a[1]) * off, (a[1] + b[1]) / 2 + (b[0] - a[0]) * off];
  return {
    centre,
    radius: (chord * (1 + bulge * bulge)) / (4 * Math.abs(bulge)),
    from: Math.atan2(a[1] - centre[1], a[0] - centre[0]),
    through: 4 * Math.atan(bulge),
  };
}

/** Signed area [mm2], arcs exact: positive counter-clockwise. */
export function outlineArea(outline: Outline): number {
  let twice = 0;
  for (let i = 0; i < outline.length; i++) {
    const a = outline[i]!.at;
    const b = outline[(i + 1) % outline.length]!.at;
    twice += a[0] * b[1] - b[0] * a[1];
    const arc = sideArc(outline, i);
    // The piece between an arc and its chord.
    if (arc !== undefined) twice += arc.radius * arc.radius * (arc.through - Math.sin(arc.through));
  }
  return twice / 2;
}

/** Length all round [mm], arcs exact. */
export function outlineLength(outline: Outline): number {
  let sum = 0;
  for (let i = 0; i < outline.length; i++) {
    const arc = sideArc(outline, i);
    const a = outline[i]!.at;
    const b = outline[(i + 1) % outline.length]!.at;
    sum += arc === undefined ? Math.hypot(b[0] - a[0], b[1] - a[1]) : arc.radius * Math.abs(arc.through);
  }
  return sum;
}

/** Points round the outline, none of whose chords is further from its arc than `within` [mm]. */
export function outlinePoints(outline: Outline, within = 0.05): Point2[] {
  const points: Point2[] = [];
  for (let i = 0; i < outline.length; i++) {
    points.push(outline[i]!.at);
    const arc = sideArc(outline, i);
    if (arc === undefined) continue;
    const step = within >= arc.radius ? Math.PI / 2 : 2 * Math.acos(1 - within / arc.radius);
    const steps = Math.max(2, Math.ceil(Math.abs(arc.through) / step));
    for (let k = 1; k < steps; k++) {
      const angle = arc.from + (arc.through * k) / steps;
      points.push([arc.centre[0] + arc.radius * Math.cos(angle), arc.centre[1] + arc.radius * Math.sin(angle)]);
    }
  }
  return points;
}

/** The same outline gone round the other way. */
export function reversedOutline(outline: Outline): Outline {
  const last = outline.length - 1;
  return outline.map((_, i) => {
    const corner = outline[last - i]!;
    const bulge = -(outline[(last - i + last) % outline.length]!.bulge ?? 0);
    return bulge === 0 ? { at: corner.at } : { at: corner.at, bulge };
  });
}
