import type { Outline, Point2 } from './outline.ts';
import { distanceToSide, outlineSides, type Side, sideGap } from './side.ts';

/** An outline got ready for many questions: its sides, and the box round each [mm]. */
export interface ReadyOutline {
  readonly outline: Outline;
  readonly sides: readonly Side[];
  /** Least x, least y, most x, most y of each side, and of them all. */
  readonly boxes: readonly Box2[];
  readonly box: Box2;
}

/** Least x, least y, most x, most y [mm]. */
export type Box2 = readonly [number, number, number, number];

function sideBox({ a, b, arc }: Side): Box2 {
  let [x0, y0] = [Math.min(a[0], b[0]), Math.min(a[1], b[1])];
  let [x1, y1] = [Math.max(a[0], b[0]), Math.max(a[1], b[1])];
  if (arc !== undefined) {
    const [low, high] = [Math.min(arc.from, arc.from + arc.through), Math.max(arc.from, arc.from + arc.through)];
    // The arc's own extremes are the quarters that it passes.
    for (let q = Math.ceil(low / (Math.PI / 2)); q * (Math.PI / 2) <= high; q++) {
      const x = arc.centre[0] + arc.radius * Math.cos((q * Math.PI) / 2);
      const y = arc.centre[1] + arc.radius * Math.sin((q * Math.PI) / 2);
      [x0, y0, x1, y1] = [Math.min(x0, x), Math.min(y0, y), Math.max(x1, x), Math.max(y1, y)];
    }
  }
  return [x0, y0, x1, y1];
}

/** An outline with its sides and boxes at hand. */
export function readyOutline(outline: Outline): ReadyOutline {
  const sides = outlineSides(outline);
  const boxes = sides.map(sideBox);
  const box: Box2 = boxes.reduce<Box2>(
    (all, b) => [Math.min(all[0], b[0]), Math.min(all[1], b[1]), Math.max(all[2], b[2]), Math.max(all[3], b[3])],
    [Infinity, Infinity, -Infinity, -Infinity],
  );
  return { outline, sides, boxes, box };
}

const ready = (outline: Outline | ReadyOutline): ReadyOutline => ('sides' in outline ? outline : readyOutline(outline));

const boxToPoint = (box: Box2, p: Point2): number =>
  Math.hypot(Math.max(box[0] - p[0], 0, p[0] - box[2]), Math.max(box[1] - p[1], 0, p[1] - box[3]));

const boxToBox = (a: Box2, b: Box2): number =>
  Math.hypot(Math.max(a[0] - b[2], 0, b[0] - a[2]), Math.max(a[1] - b[3], 0, b[1] - a[3]));

/** Whether a point lies in an outline, gone round either way; its arcs exact. */
export function isInOutline(outline: Outline | ReadyOutline, p: Point2): boolean {
  const { sides, box } = ready(outline);
  if (boxToPoint(box, p) > 0) return false;
  let winding = 0;
  for (const { a, b, arc } of sides) {
    const left = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
    if (a[1] <= p[1] !== b[1] <= p[1]) {
      if (b[1] > a[1] && left > 0) winding++;
      else if (b[1] < a[1] && left < 0) winding--;
    }
    if (arc === undefined) continue;
    // Between the chord and its arc the point is in or out the other way about.
    if (Math.hypot(p[0] - arc.centre[0], p[1] - arc.centre[1]) >= arc.radius) continue;
    if (arc.through > 0 ? left < 0 : left > 0) winding += Math.sign(arc.through);
  }
  return winding !== 0;
}

/** Distance from a point to the nearest side [mm]. */
export function distanceToOutline(outline: Outline | ReadyOutline, p: Point2): number {
  const { sides, boxes } = ready(outline);
  let least = Infinity;
  for (let i = 0; i < sides.length; i++)
    if (boxToPoint(boxes[i]!, p) < least) least = Math.min(least, distanceToSide(sides[i]!, p));
  return least;
}

/** How deep a point lies in an outline [mm]; negative outside. */
export const depthInOutline = (outline: Outline | ReadyOutline, p: Point2): number => {
  const at = ready(outline);
  return isInOutline(at, p) ? distanceToOutline(at, p) : -distanceToOutline(at, p);
};

/**
 * Least distance between the sides of two outlines [mm]; 0 where they meet. One that lies within the other keeps its distance.
 * A gap of more than `within` comes back as Infinity, sooner.
 */
export function outlineGap(one: Outline | ReadyOutline, other: Outline | ReadyOutline, within = Infinity): number {
  const [a, b] = [ready(one), ready(other)];
  let least = Infinity;
  for (let i = 0; i < a.sides.length; i++) {
    if (boxToBox(a.boxes[i]!, b.box) > Math.min(least, within)) continue;
    for (let j = 0; j < b.sides.length; j++)
      if (boxToBox(a.boxes[i]!, b.boxes[j]!) <= Math.min(least, within))
        least = Math.min(least, sideGap(a.sides[i]!, b.sides[j]!));
    if (least === 0) return 0;
  }
  return least > within ? Infinity : least;
}

/** Least distance from a straight stretch to the sides of an outline [mm]; 0 where it meets them. */
export function segmentGap(outline: Outline | ReadyOutline, from: Point2, to: Point2): number {
  const { sides } = ready(outline);
  let least = Infinity;
  for (const side of sides) least = Math.min(least, sideGap(side, { a: from, b: to }));
  return least;
}
