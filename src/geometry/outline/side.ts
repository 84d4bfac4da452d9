import { type Outline, type OutlineCorner, type Point2, type SideArc, sideArc } from './outline.ts';

/** One side of an outline, from a to b [mm]; an arc where it has one. */
export interface Side {
  readonly a: Point2;
  readonly b: Point2;
  readonly arc?: SideArc;
}

/** The sides of an outline in their order; those of no length are left out. */
export function outlineSides(outline: Outline): Side[] {
  const sides: Side[] = [];
  for (let i = 0; i < outline.length; i++) {
    const a = outline[i]!.at;
    const b = outline[(i + 1) % outline.length]!.at;
    if (a[0] === b[0] && a[1] === b[1]) continue;
    const arc = sideArc(outline, i);
    sides.push(arc === undefined ? { a, b } : { a, b, arc });
  }
  return sides;
}

/** Sides that follow one another, as an outline. */
export const outlineOfSides = (sides: readonly Side[]): Outline =>
  sides.map(
    ({ a, arc }): OutlineCorner => (arc === undefined ? { at: a } : { at: a, bulge: Math.tan(arc.through / 4) }),
  );

const TURN = 2 * Math.PI;

/** How far along an arc an angle lies, as a share of it: 0 at its beginning, 1 at its end, more beyond. */
export function arcShare(arc: SideArc, angle: number): number {
  const ahead = arc.through > 0 ? angle - arc.from : arc.from - angle;
  const turned = ahead - TURN * Math.floor(ahead / TURN);
  return turned / Math.abs(arc.through);
}

/** An angle this little outside an arc still counts as on it: rounding of two acos. */
const SHARE_SLACK = 1e-12;

const isOnArc = (arc: SideArc, angle: number): boolean => {
  const share = arcShare(arc, angle);
  return share <= 1 + SHARE_SLACK || (share - TURN / Math.abs(arc.through)) ** 2 < SHARE_SLACK ** 2;
};

const onCircle = ({ centre, radius }: SideArc, angle: number): Point2 => [
  centre[0] + radius * Math.cos(angle),
  centre[1] + radius * Math.sin(angle),
];

/** The point a share of the way along a side. */
export function sidePoint({ a, b, arc }: Side, share: number): Point2 {
  if (share === 0) return a;
  if (share === 1) return b;
  if (arc === undefined) return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
  return onCircle(arc, arc.from + share * arc.through);
}

/** Way that a side runs at a share of it: a unit vector. */
export function sideHeading({ a, b, arc }: Side, share: number): Point2 {
  if (arc === undefined) {
    const long = Math.hypot(b[0] - a[0], b[1] - a[1]);
    return [(b[0] - a[0]) / long, (b[1] - a[1]) / long];
  }
  const angle = arc.from + share * arc.through;
  const way = Math.sign(arc.through);
  return [-way * Math.sin(angle), way * Math.cos(angle)];
}

/** Length of a side [mm]. */
export const sideLength = ({ a, b, arc }: Side): number =>
  arc === undefined ? Math.hypot(b[0] - a[0], b[1] - a[1]) : arc.radius * Math.abs(arc.through);

/** The part of a side between two shares of it. */
export function sideBetween(side: Side, from: number, to: number): Side {
  const [a, b] = [sidePoint(side, from), sidePoint(side, to)];
  if (side.arc === undefined) return { a, b };
  const { centre, radius, from: angle, through } = side.arc;
  return { a, b, arc: { centre, radius, from: angle + from * through, through: (to - from) * through } };
}

const apart = (p: Point2, q: Point2): number => Math.hypot(p[0] - q[0], p[1] - q[1]);

/** Distance from a point to a side [mm]. */
export function distanceToSide({ a, b, arc }: Side, p: Point2): number {
  if (arc !== undefined) {
    const [x, y] = [p[0] - arc.centre[0], p[1] - arc.centre[1]];
    if (isOnArc(arc, Math.atan2(y, x))) return Math.abs(Math.hypot(x, y) - arc.radius);
    return Math.min(apart(p, a), apart(p, b));
  }
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const share = Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy)));
  return Math.hypot(p[0] - a[0] - share * dx, p[1] - a[1] - share * dy);
}

/** Where two sides meet, as shares of each; sides that lie on one another meet at their ends only. */
export function sideCrossings(one: Side, other: Side): { readonly one: number; readonly other: number }[] {
  const points =
    one.arc === undefined
      ? other.arc === undefined
        ? lineLine(one, other)
        : lineCircle(one, other.arc)
      : other.arc === undefined
        ? lineCircle(other, one.arc)
        : circleCircle(one.arc, other.arc);
  const found: { one: number; other: number }[] = [];
  for (const p of points) {
    const [s, t] = [shareNear(one, p), shareNear(other, p)];
    if (s !== undefined && t !== undefined) found.push({ one: s, other: t });
  }
  return found;
}

/** Points this near to a side's end are its end [mm]. */
const AT_END = 1e-7;

/** Share of a side at which a point of its line or circle lies; undefined where that is beyond its ends. */
function shareNear(side: Side, p: Point2): number | undefined {
  if (apart(p, side.a) < AT_END) return 0;
  if (apart(p, side.b) < AT_END) return 1;
  const { a, b, arc } = side;
  if (arc !== undefined) {
    const share = arcShare(arc, Math.atan2(p[1] - arc.centre[1], p[0] - arc.centre[0]));
    return share <= 1 ? share : undefined;
  }
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const share = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy);
  return share >= 0 && share <= 1 ? share : undefined;
}

function lineLine(one: Side, other: Side): Point2[] {
  const d: Point2 = [one.b[0] - one.a[0], one.b[1] - one.a[1]];
  const e: Point2 = [other.b[0] - other.a[0], other.b[1] - other.a[1]];
  const det = d[0] * e[1] - d[1] * e[0];
  // Parallel: where they overlap, their ends are where they meet.
  if (Math.abs(det) <= 1e-12 * Math.hypot(...d) * Math.hypot(...e))
    return [one.a, one.b, other.a, other.b].filter(
      (p) => distanceToSide(one, p) < AT_END && distanceToSide(other, p) < AT_END,
    );
  const share = ((other.a[0] - one.a[0]) * e[1] - (other.a[1] - one.a[1]) * e[0]) / det;
  return [[one.a[0] + share * d[0], one.a[1] + share * d[1]]];
}

function lineCircle({ a, b }: Side, { centre, radius }: SideArc): Point2[] {
  const long = apart(a, b);
  const [ux, uy] = [(b[0] - a[0]) / long, (b[1] - a[1]) / long];
  const foot = (centre[0] - a[0]) * ux + (centre[1] - a[1]) * uy;
  const off = (centre[0] - a[0]) * -uy + (centre[1] - a[1]) * ux;
  const left = radius * radius - off * off;
  // Within rounding a line that grazes the circle touches it.
  if (left < -1e-9 * radius * radius) return [];
  const half = Math.sqrt(Math.max(0, left));
  return [foot - half, foot + half].map((s): Point2 => [a[0] + s * ux, a[1] + s * uy]);
}

function circleCircle(one: SideArc, other: SideArc): Point2[] {
  const far = apart(one.centre, other.centre);
  const [r, s] = [one.radius, other.radius];
  if (far < 1e-12 * (r + s))
    return Math.abs(r - s) > AT_END
      ? []
      : [one, other].flatMap((arc) => [onCircle(arc, arc.from), onCircle(arc, arc.from + arc.through)]);
  const along = (far * far + r * r - s * s) / (2 * far);
  const left = r * r - along * along;
  if (left < -1e-9 * r * r) return [];
  const half = Math.sqrt(Math.max(0, left));
  const [ux, uy] = [(other.centre[0] - one.centre[0]) / far, (other.centre[1] - one.centre[1]) / far];
  return [half, -half].map((h): Point2 => [one.centre[0] + along * ux - h * uy, one.centre[1] + along * uy + h * ux]);
}

/** Least distance between two sides [mm]; 0 where they meet. */
export function sideGap(one: Side, other: Side): number {
  if (one.arc === undefined && other.arc === undefined) return straightGap(one, other);
  if (sideCrossings(one, other).length > 0) return 0;
  let gap = Math.min(
    distanceToSide(one, other.a),
    distanceToSide(one, other.b),
    distanceToSide(other, one.a),
    distanceToSide(other, one.b),
  );
  for (const [side, arc] of [
    [one, other.arc],
    [other, one.arc],
  ] as const) {
    if (arc === undefined) continue;
    // The nearest point of an arc to something beyond lies on the way from its centre.
    const far = side.arc === undefined ? footOn(side, arc.centre) : side.arc.centre;
    const angle = Math.atan2(far[1] - arc.centre[1], far[0] - arc.centre[0]);
    for (const a of [angle, angle + Math.PI])
      if (isOnArc(arc, a)) gap = Math.min(gap, distanceToSide(side, onCircle(arc, a)));
  }
  return gap;
}

/** Of two straight sides: 0 where each has the other's ends on both its hands, else from an end of one to the other. */
function straightGap(one: Side, other: Side): number {
  if (isParted(one, other) && isParted(other, one)) return 0;
  const gap = Math.min(
    distanceToSide(one, other.a),
    distanceToSide(one, other.b),
    distanceToSide(other, one.a),
    distanceToSide(other, one.b),
  );
  return gap < AT_END ? 0 : gap;
}

/** Whether the ends of one straight side lie on either hand of another's line. */
function isParted({ a, b }: Side, { a: p, b: q }: Side): boolean {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  return (dx * (p[1] - a[1]) - dy * (p[0] - a[0])) * (dx * (q[1] - a[1]) - dy * (q[0] - a[0])) < 0;
}

function footOn({ a, b }: Side, p: Point2): Point2 {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const share = ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / (dx * dx + dy * dy);
  return [a[0] + share * dx, a[1] + share * dy];
}
