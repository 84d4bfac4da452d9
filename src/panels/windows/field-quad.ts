import {
  distanceToOutline,
  isInOutline,
  type Outline,
  outlineArea,
  outlineGap,
  type Point2,
  readyOutline,
  type ReadyOutline,
  roundOutline,
  segmentGap,
  straightOutline,
} from '#geometry';
import type { KeepClear } from './window-spec.ts';

/** A line of a field: a long side by its height v at u = 0 and how it rises along u; an end by its u at v = 0 and how it leans along v. */
export interface Slanted {
  readonly at0: number;
  readonly slope: number;
}

/**
 * What a field lies in: two long sides that follow the panel's taper, and two ends that stand square (slope 0) or lean with the
 * panel's own. u runs along the edge, v into the panel [mm].
 */
export interface FieldQuad {
  readonly left: Slanted;
  readonly right: Slanted;
  readonly low: Slanted;
  readonly high: Slanted;
}

export const heightAt = ({ at0, slope }: Slanted, u: number): number => at0 + slope * u;

/** A line moved square to itself: a long side up, an end to the right, for `by` > 0. */
export const raised = ({ at0, slope }: Slanted, by: number): Slanted => ({
  at0: at0 + by * Math.hypot(1, slope),
  slope,
});

/** A line between two, at a share of the way from the first. */
export const between = (low: Slanted, high: Slanted, share: number): Slanted => ({
  at0: low.at0 + share * (high.at0 - low.at0),
  slope: low.slope + share * (high.slope - low.slope),
});

/** An end that stands square. */
export const square = (at0: number): Slanted => ({ at0, slope: 0 });

/** Where an end meets a long side. */
export function meet(end: Slanted, side: Slanted): Point2 {
  const u = (end.at0 + end.slope * side.at0) / (1 - end.slope * side.slope);
  return [u, heightAt(side, u)];
}

export const quadMiddle = ({ left, right, low, high }: FieldQuad): Point2 =>
  meet(between(left, right, 1 / 2), between(low, high, 1 / 2));

export function quadHeight(quad: FieldQuad): number {
  const [u] = quadMiddle(quad);
  return heightAt(quad.high, u) - heightAt(quad.low, u);
}

/** Along the edge, half way up. */
export function quadLength(quad: FieldQuad): number {
  const [, v] = quadMiddle(quad);
  return heightAt(quad.right, v) - heightAt(quad.left, v);
}

export const quadCorners = ({ left, right, low, high }: FieldQuad): Point2[] => [
  meet(left, low),
  meet(right, low),
  meet(right, high),
  meet(left, high),
];

/** Area between its sides [mm2]; 0 where one has shrunk through another. */
export const quadArea = (quad: FieldQuad): number =>
  isRealQuad(quad) ? outlineArea(straightOutline(quadCorners(quad))) : 0;

/** Whether its corners stand in their order: no side has shrunk through another. */
export function isRealQuad(quad: FieldQuad): boolean {
  const [a, b, c, d] = quadCorners(quad) as [Point2, Point2, Point2, Point2];
  return b[0] > a[0] && c[0] > d[0] && d[1] > a[1] && c[1] > b[1];
}

/** The same field made larger or smaller about a point; its sides keep their slants. */
export function scaledQuad(quad: FieldQuad, [u, v]: Point2, times: number): FieldQuad {
  const line = (of: Slanted, along: number, over: number): Slanted => ({
    at0: over + times * (heightAt(of, along) - over) - of.slope * along,
    slope: of.slope,
  });
  return {
    left: line(quad.left, v, u),
    right: line(quad.right, v, u),
    low: line(quad.low, u, v),
    high: line(quad.high, u, v),
  };
}

/** What is to be kept clear of, ready for questions. */
export interface Clear {
  readonly name: string;
  readonly outline?: ReadyOutline;
  readonly stretch?: { readonly from: Point2; readonly to: Point2 };
  readonly clearMm: number;
}

export const readyClear = ({ name, shape, clearMm }: KeepClear, usualMm: number): Clear => {
  const rest = { name, clearMm: clearMm ?? usualMm };
  if ('from' in shape) return { ...rest, stretch: shape };
  const outline: Outline = 'radiusMm' in shape ? roundOutline(shape.at, shape.radiusMm) : shape;
  return { ...rest, outline: readyOutline(outline) };
};

/** From an opening to what it keeps clear of [mm]; 0 where they meet or one holds the other, Infinity beyond `within`. */
export function gapToClear(opening: ReadyOutline, clear: Clear, within: number): number {
  if (clear.stretch !== undefined) {
    const { from, to } = clear.stretch;
    const far = Math.max(
      Math.min(from[0], to[0]) - opening.box[2],
      opening.box[0] - Math.max(from[0], to[0]),
      Math.min(from[1], to[1]) - opening.box[3],
      opening.box[1] - Math.max(from[1], to[1]),
    );
    if (far > within) return Infinity;
    return isInOutline(opening, from) ? 0 : segmentGap(opening, from, to);
  }
  const other = clear.outline!;
  if (boxesApart(opening.box, other.box) > within) return Infinity;
  const gap = outlineGap(opening, other, within);
  if (gap === 0) return 0;
  const isNested = isInOutline(other, opening.sides[0]!.a) || isInOutline(opening, other.sides[0]!.a);
  return isNested ? 0 : gap;
}

/** How far two boxes are apart along the axis on which that is more [mm]: no more than what lies in them. */
export const boxesApart = (a: ReadyOutline['box'], b: ReadyOutline['box']): number =>
  Math.max(b[0] - a[2], a[0] - b[2], b[1] - a[3], a[1] - b[3], 0);

/** By how much a field may be too near to the outline and to this many things, or not: what is in its way. */
export function inTheWay(
  quad: FieldQuad,
  panel: ReadyOutline,
  edgeMm: number,
  clears: readonly Clear[],
): string | undefined {
  if (!isRealQuad(quad)) return 'its own size';
  const outline = readyOutline(straightOutline(quadCorners(quad)));
  if (outline.sides.some(({ a }) => !isInOutline(panel, a))) return 'the outline';
  if (outlineGap(outline, panel, edgeMm) < edgeMm - 1e-7) return 'the outline';
  return clears.find((clear) => gapToClear(outline, clear, clear.clearMm) < clear.clearMm - 1e-7)?.name;
}

/**
 * Room about a point: how far it is from the outline and the rest, less what each asks for [mm]; negative outside. Where it is less
 * than `least`, some number less than that.
 */
export function roomAbout(
  p: Point2,
  panel: ReadyOutline,
  edgeMm: number,
  clears: readonly Clear[],
  least = -Infinity,
): number {
  const far = distanceToOutline(panel, p);
  let room = (isInOutline(panel, p) ? far : -far) - edgeMm;
  for (const { outline, stretch, clearMm } of clears) {
    if (room < least) return room;
    // What lies further off than the room there is cannot lessen it.
    if (outline !== undefined && offBox(outline.box, p) - clearMm >= room) continue;
    const gap = outline
      ? distanceToOutline(outline, p) * (isInOutline(outline, p) ? -1 : 1)
      : distanceToStretch(p, stretch!.from, stretch!.to);
    room = Math.min(room, gap - clearMm);
  }
  return room;
}

const offBox = ([x0, y0, x1, y1]: ReadyOutline['box'], [x, y]: Point2): number =>
  Math.max(x0 - x, x - x1, y0 - y, y - y1, 0);

export function distanceToStretch(p: Point2, a: Point2, b: Point2): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  const long2 = dx * dx + dy * dy;
  const share = long2 === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / long2));
  return Math.hypot(p[0] - a[0] - share * dx, p[1] - a[1] - share * dy);
}
