import type { Outline, OutlineCorner, Point2 } from '#geometry';
import { cross2, dot2, minus, plus, unit2 } from './lines.ts';

/** A corner of an outline yet to be rounded. */
export interface DraftCorner extends OutlineCorner {
  readonly radiusMm?: number;
}

/** Shorter sides than this are none [mm]. */
const NO_SIDE_MM = 1e-6;

/** The outline with its corners rounded where both sides are straight and long enough; where they are not, by as much as fits. */
export function rounded(draft: readonly DraftCorner[]): Outline {
  const corners = draft.filter(({ at }, i) => {
    const next = draft[(i + 1) % draft.length]!.at;
    return Math.hypot(next[0] - at[0], next[1] - at[1]) > NO_SIDE_MM;
  });
  return corners.flatMap((corner, i) => {
    const { radiusMm = 0, at, bulge } = corner;
    const last = corners[(i + corners.length - 1) % corners.length]!;
    const next = corners[(i + 1) % corners.length]!;
    const plain: OutlineCorner = bulge === undefined || bulge === 0 ? { at } : { at, bulge };
    if (radiusMm <= 0 || (last.bulge ?? 0) !== 0 || (bulge ?? 0) !== 0) return [plain];
    return roundedCorner(last.at, at, next.at, radiusMm) ?? [plain];
  });
}

function roundedCorner(last: Point2, at: Point2, next: Point2, radius: number): OutlineCorner[] | undefined {
  const [a, b] = [minus(last, at), minus(next, at)];
  const [u, v] = [unit2(a), unit2(b)];
  const turn = Math.PI - Math.acos(Math.min(1, Math.max(-1, dot2(u, v))));
  if (turn < 1e-3) return undefined;
  const half = Math.tan(turn / 2);
  // Half of a side is the most that one of its corners may take.
  const cut = Math.min(radius * half, Math.hypot(a[0], a[1]) / 2, Math.hypot(b[0], b[1]) / 2);
  const sign = cross2(minus(at, last), b) >= 0 ? 1 : -1;
  return [{ at: plus(at, u, cut), bulge: sign * Math.tan(turn / 4) }, { at: plus(at, v, cut) }];
}
