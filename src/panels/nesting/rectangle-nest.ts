import type { Point2 } from '#geometry';
import type { ShapedPart } from './nest-parts.ts';
import type { Laid, Layout, SheetSize } from './nest-layout.ts';

interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/**
 * The plain way, against which the nesting is held: each part as the rectangle round it, the largest first, each as far left as
 * it goes and then as low, on the first sheet that has room.
 */
export function rectangleNest(parts: readonly ShapedPart[], sheets: readonly SheetSize[], spacingMm: number): Layout {
  const boards: Rect[][] = sheets.map(() => []);
  const laid: Laid[] = [];
  const left: number[] = [];
  const order = parts.toSorted((a, b) => b.areaMm2 - a.areaMm2 || a.index - b.index);
  for (const part of order) {
    let found: { pose: number; at: Point2 } | undefined;
    let sheet = 0;
    for (; sheet < sheets.length && found === undefined; sheet++)
      found = placeOn(part, sheets[sheet]!, boards[sheet]!, spacingMm);
    if (found === undefined) {
      left.push(part.index);
      continue;
    }
    const shape = part.poses[found.pose]!;
    boards[sheet - 1]!.push({ x: found.at[0], y: found.at[1], w: shape.wideMm, h: shape.highMm });
    laid.push({ part: part.index, pose: found.pose, sheet: sheet - 1, at: found.at });
  }
  return { laid, left: left.toSorted((a, b) => a - b) };
}

function placeOn(
  part: ShapedPart,
  sheet: SheetSize,
  board: readonly Rect[],
  gap: number,
): { pose: number; at: Point2 } | undefined {
  const xs = [0, ...board.map((rect) => rect.x + rect.w + gap)];
  const ys = [0, ...board.map((rect) => rect.y + rect.h + gap)];
  let best: { pose: number; at: Point2; end: number } | undefined;
  for (const [pose, { wideMm: w, highMm: h }] of part.poses.entries())
    for (const x of xs)
      for (const y of ys) {
        if (x + w > sheet.lengthMm || y + h > sheet.widthMm) continue;
        const end = x + w;
        if (best !== undefined && (end > best.end || (end === best.end && y >= best.at[1]))) continue;
        const isFree = board.every(
          (rect) =>
            x >= rect.x + rect.w + gap || rect.x >= x + w + gap || y >= rect.y + rect.h + gap || rect.y >= y + h + gap,
        );
        if (isFree) best = { pose, at: [x, y], end };
      }
  return best;
}
