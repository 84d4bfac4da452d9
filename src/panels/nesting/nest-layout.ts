import type { Point2 } from '#geometry';
import type { ShapedPart } from './nest-parts.ts';

/** What of a sheet may be used: its edge margins off [mm]. */
export interface SheetSize {
  readonly lengthMm: number;
  readonly widthMm: number;
}

/** A part laid on a sheet: the lowest x and y of its pose, from the usable corner [mm]. */
export interface Laid {
  readonly part: number;
  readonly pose: number;
  readonly sheet: number;
  readonly at: Point2;
}

export interface Layout {
  readonly laid: readonly Laid[];
  /** Parts that found no room. */
  readonly left: readonly number[];
}

/** How far each sheet is used from its left end [mm]; 0 where nothing lies on it. */
export function usedLengths(layout: Layout, parts: readonly ShapedPart[], sheets: number): number[] {
  const used = new Array<number>(sheets).fill(0);
  for (const { part, pose, sheet, at } of layout.laid)
    used[sheet] = Math.max(used[sheet]!, at[0] + parts[part]!.poses[pose]!.wideMm);
  return used;
}

/** A part left over weighs more than any sheet [mm2]. */
const LEFT_MM2 = 1e9;

/**
 * What a layout costs [mm2]: the sheets it uses up, of the one with the longest rest only what it takes of its length, and, so
 * that of two equal ones the tighter wins, a hair of every sheet's used length.
 */
export function layoutCost(layout: Layout, parts: readonly ShapedPart[], sheets: readonly SheetSize[]): number {
  const used = usedLengths(layout, parts, sheets.length);
  let full = 0;
  let rest = 0;
  let hair = 0;
  for (const [i, length] of used.entries()) {
    if (length === 0) continue;
    const { lengthMm, widthMm } = sheets[i]!;
    full += lengthMm * widthMm;
    rest = Math.max(rest, (lengthMm - length) * widthMm);
    hair += length * widthMm;
  }
  return layout.left.length * LEFT_MM2 + full - rest + hair * 1e-6;
}
