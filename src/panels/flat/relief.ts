import type { Point2 } from '#geometry';
import { minus, plus } from './lines.ts';
import type { DraftCorner } from './rounded.ts';

/** Where a flank, from the middle of a relief hole outwards, leaves the hole: the point and what is left of the flank. */
function leaving(flank: readonly Point2[], middle: Point2, radius: number): readonly Point2[] {
  for (let i = 1; i < flank.length; i++) {
    const [p, q] = [minus(flank[i - 1]!, middle), minus(flank[i]!, middle)];
    if (Math.hypot(q[0], q[1]) <= radius) continue;
    const d = minus(q, p);
    const [a, b, c] = [d[0] ** 2 + d[1] ** 2, p[0] * d[0] + p[1] * d[1], p[0] ** 2 + p[1] ** 2 - radius ** 2];
    const t = (-b + Math.sqrt(Math.max(0, b * b - a * c))) / a;
    return [plus(middle, plus(p, d, t)), ...flank.slice(i)];
  }
  return [];
}

/**
 * The outline round a relief hole: in along the flank that ends here, round the hole through the sheet, out along the one that
 * begins. Two arcs, so that neither is more than half a turn or so.
 */
export function reliefCorners(
  middle: Point2,
  radius: number,
  end: readonly Point2[],
  start: readonly Point2[],
  freeRadiusMm: number,
): readonly DraftCorner[] {
  const [inwards, outwards] = [leaving(end, middle, radius), leaving(start, middle, radius)];
  const draft = (at: Point2, isFree: boolean): DraftCorner => (isFree ? { at, radiusMm: freeRadiusMm } : { at });
  const before = inwards.map((at, i) => draft(at, i === inwards.length - 1 && i > 0)).reverse();
  const after = outwards.map((at, i) => draft(at, i === outwards.length - 1 && i > 0));
  if (before.length === 0 || after.length === 0) return [...before, ...after];
  const angle = (p: Point2) => Math.atan2(p[1] - middle[1], p[0] - middle[0]);
  const from = angle(inwards[0]!);
  const sweep = (((from - angle(outwards[0]!)) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  const bulge = -Math.tan(sweep / 8);
  const half = from - sweep / 2;
  const arc: DraftCorner[] = [
    { at: inwards[0]!, bulge },
    { at: [middle[0] + radius * Math.cos(half), middle[1] + radius * Math.sin(half)], bulge },
  ];
  return [...before.slice(0, -1), ...arc, ...after];
}
