import { GeometryError } from '../geometry-error.ts';
import type { Outline, OutlineCorner, Point2 } from './outline.ts';

/** A polygon with round corners, and the circles that round them in the order of its corners. */
export interface RoundedOutline {
  readonly outline: Outline;
  readonly corners: readonly { readonly centre: Point2; readonly radiusMm: number }[];
}

/** How much of the two sides a rounded corner takes up [mm], for a corner that turns through `turn` [rad]. */
export const cornerReach = (turn: number, radiusMm: number): number => radiusMm * Math.tan(Math.abs(turn) / 2);

/** A polygon of straight sides with each corner rounded, tangent to both its sides; undefined where a side is too short for that. */
export function roundedPolygon(points: readonly Point2[], radiusMm: number): RoundedOutline | undefined {
  if (points.length < 3) throw new GeometryError('a polygon', `${points.length} corners`, 'three corners or more');
  const headings = points.map((p, i): Point2 => {
    const q = points[(i + 1) % points.length]!;
    const long = Math.hypot(q[0] - p[0], q[1] - p[1]);
    return [(q[0] - p[0]) / long, (q[1] - p[1]) / long];
  });
  const turns = headings.map((g, i) => {
    const h = headings[(i + points.length - 1) % points.length]!;
    return Math.atan2(h[0] * g[1] - h[1] * g[0], h[0] * g[0] + h[1] * g[1]);
  });
  const outline: OutlineCorner[] = [];
  const corners: { centre: Point2; radiusMm: number }[] = [];
  for (const [i, p] of points.entries()) {
    const [turn, next] = [turns[i]!, (i + 1) % points.length];
    const reach = cornerReach(turn, radiusMm);
    const [g, h] = [headings[i]!, headings[(i + points.length - 1) % points.length]!];
    const q = points[next]!;
    if (reach + cornerReach(turns[next]!, radiusMm) > Math.hypot(q[0] - p[0], q[1] - p[1]) + 1e-9) return undefined;
    const begin: Point2 = [p[0] - h[0] * reach, p[1] - h[1] * reach];
    const left = Math.sign(turn) * radiusMm;
    corners.push({ centre: [begin[0] - h[1] * left, begin[1] + h[0] * left], radiusMm });
    outline.push({ at: begin, bulge: Math.tan(turn / 4) }, { at: [p[0] + g[0] * reach, p[1] + g[1] * reach] });
  }
  return { outline, corners };
}
