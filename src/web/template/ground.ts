import type { PhotoSeen } from '#crew';
import {
  onPlane,
  type Outline,
  outlineSides,
  type PlaneCamera,
  type Point2,
  seenAt,
  sideLength,
  sidePoint,
} from '#geometry';
import { lowestOf, type TemplateShape } from '#panels';
import { ringsOf } from './outline-corners.ts';

/** What an outline is drawn over: a photo of it, or a plain sheet. */
export interface Ground {
  readonly size: Point2;
  /** Address of the picture; absent: a plain sheet. */
  readonly photo?: string;
  /** Where a point [mm] is on the picture. */
  readonly seen: (at: Point2) => Point2;
  /** What point [mm] a place of the picture shows. */
  readonly mmAt: (place: Point2) => Point2;
}

type Found = Extract<PhotoSeen, { ok: true }>;

/** The shape found in a photo, its flat axes beginning at its lowest and leftmost. */
export function shapeFound({ outline, openings }: Found): TemplateShape {
  const [x, y] = lowestOf(outline);
  const moved = (ring: Outline): Outline =>
    ring.map((corner) => ({ ...corner, at: [corner.at[0] - x, corner.at[1] - y] }));
  return { outline: moved(outline), openings: openings.map(moved) };
}

/** The photo as its camera saw it, in the axes of the shape found in it. */
export function photoGround({ outline, camera: sent, sizePx, heightMm }: Found, photo: string): Ground {
  const camera: PlaneCamera = { ...sent, rotation: Float64Array.from(sent.rotation) };
  const [left, low] = lowestOf(outline);
  return {
    size: sizePx,
    photo,
    seen: ([x, y]) => seenAt(camera, x + left, y + low, heightMm),
    mmAt: (place) => {
      const [x, y] = onPlane(camera, place[0], place[1], heightMm);
      return [x - left, y - low];
    },
  };
}

/** Round a shape on a plain sheet, as a share of its longer side. */
const RIM = 0.06;

/** A shape by itself, up the page as on the flat. */
export function flatGround(shape: TemplateShape): Ground {
  const points = sidesDrawn(shape.outline);
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [minX, maxX, minY, maxY] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const rim = RIM * Math.max(maxX - minX, maxY - minY, 1);
  return {
    size: [maxX - minX + 2 * rim, maxY - minY + 2 * rim],
    seen: ([x, y]) => [x - minX + rim, maxY - y + rim],
    mmAt: ([x, y]) => [x + minX - rim, maxY - y + rim],
  };
}

/** A line is seen bent by the lens: it is drawn through points this far apart at most [mm], an arc through so many at least. */
const STEP_MM = 12;
const LEAST_ON_ARC = 12;

function sidesDrawn(outline: Outline): Point2[] {
  return outlineSides(outline).flatMap((side) => {
    const count = Math.max(side.arc === undefined ? 1 : LEAST_ON_ARC, Math.ceil(sideLength(side) / STEP_MM));
    return Array.from({ length: count }, (_, k) => sidePoint(side, k / count));
  });
}

/** Every ring as the picture shows it. */
export const ringsDrawn = (shape: TemplateShape, { seen }: Ground): readonly string[] =>
  ringsOf(shape).map((ring) =>
    sidesDrawn(ring)
      .map((at) =>
        seen(at)
          .map((place) => place.toFixed(1))
          .join(','),
      )
      .join(' '),
  );

/** What part of a picture is seen: its corner, then how wide and high. */
export type Box = readonly [x: number, y: number, wide: number, high: number];

export const wholeOf = ({ size: [wide, high] }: Ground): Box => [0, 0, wide, high];

/** Half of what is seen close to a corner [mm], and its height as a share of its width. */
const CLOSE_MM = 45;
const CLOSE_SHARE = 0.6;

export function closeUp({ seen }: Ground, at: Point2): Box {
  const [x, y] = seen(at);
  const [a, b] = seen([at[0] + CLOSE_MM, at[1]]);
  const half = Math.hypot(a - x, b - y);
  return [x - half, y - half * CLOSE_SHARE, 2 * half, 2 * half * CLOSE_SHARE];
}
