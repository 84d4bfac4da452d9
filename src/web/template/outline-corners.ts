import type { Outline, OutlineCorner, Point2 } from '#geometry';
import type { TemplateShape } from '#panels';

/** A corner of a shape: of its outside (ring 0) or of one of its openings. */
export interface CornerAt {
  readonly ring: number;
  readonly corner: number;
}

export const ringsOf = ({ outline, openings }: TemplateShape): readonly Outline[] => [outline, ...openings];

const shapeOf = ([outline = [], ...openings]: readonly Outline[]): TemplateShape => ({ outline, openings });

const letters = 'abcdefghijklmnopqrstuvwxyz';

/** "3" on the outside, "b2" on the second opening. */
export const cornerName = ({ ring, corner }: CornerAt): string =>
  `${ring === 0 ? '' : (letters[ring - 1] ?? `h${ring}.`)}${corner + 1}`;

export const isSameCorner = (a: CornerAt | null, b: CornerAt | null): boolean =>
  a?.ring === b?.ring && a?.corner === b?.corner;

export const allCorners = (shape: TemplateShape): readonly CornerAt[] =>
  ringsOf(shape).flatMap((outline, ring) => outline.map((_, corner) => ({ ring, corner })));

export const cornerOf = (shape: TemplateShape, { ring, corner }: CornerAt): OutlineCorner | undefined =>
  ringsOf(shape)[ring]?.[corner];

const withRing = (shape: TemplateShape, ring: number, change: (outline: Outline) => Outline): TemplateShape =>
  shapeOf(ringsOf(shape).map((outline, i) => (i === ring ? change(outline) : outline)));

/** The corner somewhere else; the arcs at it keep how far round they go. */
export const movedCorner = (shape: TemplateShape, { ring, corner }: CornerAt, at: Point2): TemplateShape =>
  withRing(shape, ring, (outline) => outline.map((one, i) => (i === corner ? { ...one, at } : one)));

const nextOf = (outline: Outline, corner: number): Point2 => outline[(corner + 1) % outline.length]!.at;
const chordOf = (outline: Outline, corner: number): number => {
  const [a, b] = [outline[corner]!.at, nextOf(outline, corner)];
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
};

/**
 * How far the side that leaves a corner bows out of its chord [mm]: + where that leaves more of the card, on the outside and at an
 * opening alike, as both run with the card to their left.
 */
export function bowMm(shape: TemplateShape, at: CornerAt): number {
  const outline = ringsOf(shape)[at.ring]!;
  return ((outline[at.corner]!.bulge ?? 0) * chordOf(outline, at.corner)) / 2 + 0;
}

export const withBow = (shape: TemplateShape, at: CornerAt, mm: number): TemplateShape =>
  withRing(shape, at.ring, (outline) =>
    outline.map((one, i) => {
      if (i !== at.corner) return one;
      const bulge = (2 * mm) / chordOf(outline, i);
      return bulge === 0 ? { at: one.at } : { at: one.at, bulge };
    }),
  );

/** Fewer corners than this close nothing: three straight sides, or two arcs. */
const LEAST_CORNERS = 3;

export const canLose = (shape: TemplateShape, { ring }: CornerAt): boolean =>
  (ringsOf(shape)[ring]?.length ?? 0) > LEAST_CORNERS;

/** Without the corner: the side before it goes straight to the next. */
export const withoutCorner = (shape: TemplateShape, { ring, corner }: CornerAt): TemplateShape =>
  withRing(shape, ring, (outline) => {
    const before = (corner - 1 + outline.length) % outline.length;
    return outline.flatMap((one, i) => (i === corner ? [] : i === before ? [{ at: one.at }] : [one]));
  });

/** A corner more, in the middle of the side that leaves this one; an arc becomes two of the same circle. */
export const withCorner = (shape: TemplateShape, { ring, corner }: CornerAt): TemplateShape =>
  withRing(shape, ring, (outline) => {
    const { at: a, bulge = 0 } = outline[corner]!;
    const b = nextOf(outline, corner);
    const middle: Point2 = [
      (a[0] + b[0]) / 2 + ((b[1] - a[1]) * bulge) / 2,
      (a[1] + b[1]) / 2 - ((b[0] - a[0]) * bulge) / 2,
    ];
    const half = Math.tan(Math.atan(bulge) / 2);
    const side = (at: Point2): OutlineCorner => (half === 0 ? { at } : { at, bulge: half });
    return [...outline.slice(0, corner), side(a), side(middle), ...outline.slice(corner + 1)];
  });

export const withoutOpening = (shape: TemplateShape, ring: number): TemplateShape =>
  shapeOf(ringsOf(shape).filter((_, i) => i !== ring || i === 0));
