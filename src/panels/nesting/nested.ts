import type { Point2 } from '#geometry';
import { layoutCost, type Layout, type SheetSize, usedLengths } from './nest-layout.ts';
import { type NestPart, shapedPart, type ShapedPart } from './nest-parts.ts';
import { searchedLayout } from './nest-search.ts';
import { rectangleNest } from './rectangle-nest.ts';

export interface NestWish {
  /** Between two parts [mm]. */
  readonly spacingMm?: number;
  /** From the edge of a sheet to the parts on it [mm]. */
  readonly edgeMm?: number;
  /** Turns along long edges too, where the grain allows any. */
  readonly isFree?: boolean;
  /** Work that may be spent, in row checks; the same answer on every machine. */
  readonly mostChecks?: number;
  readonly seed?: number;
  /** Told how much of the work is done; false ends it with the best so far. */
  readonly watch?: (done: number, total: number) => boolean;
}

/** A part on a sheet: turned about its own zero, then shifted by `by` [mm from the sheet's corner]. */
export interface NestedPart {
  readonly id: string;
  /** Place in the list of parts that was given. */
  readonly index: number;
  readonly turnDeg: number;
  readonly by: Point2;
}

export interface NestedSheet {
  /** Place in the list of sheets that was given. */
  readonly sheet: number;
  readonly sizeMm: Point2;
  readonly parts: readonly NestedPart[];
  /** Of the parts' outlines, their openings counted as used [mm2]. */
  readonly partsMm2: number;
  /** The rectangle that is left at its right end, where it is worth keeping [mm]. */
  readonly restMm?: Point2;
  /** Share lost: of the sheet less the rest that is kept, what is no part. */
  readonly wasteShare: number;
}

export interface Nested {
  /** Sheets that are cut into, in their order. */
  readonly sheets: readonly NestedSheet[];
  /** Parts that no sheet had room for. */
  readonly left: readonly string[];
  readonly wasteShare: number;
  /** What the plain way of rectangles would use up of the sheets, as `takenMm2` counts it. */
  readonly rectanglesTakenMm2: number;
  /** The same share by the plain way of rectangles. */
  readonly rectanglesWasteShare: number;
}

/** Usual distances for sheet cut by router, laser or saw (common practice, no source) [mm]. */
export const SPACING_MM = 5;
export const EDGE_MM = 8;
/** A rest narrower than this goes to the bin (common practice, no source) [mm]. */
export const LEAST_REST_MM = 150;
/** Work for each pair of parts, and at most: some three seconds for forty parts, a blink for four. */
const CHECKS_A_PAIR = 75_000;
const MOST_CHECKS = 1.2e8;
const usualChecks = (parts: number): number => Math.min(MOST_CHECKS, CHECKS_A_PAIR * parts * parts);
/** Slabs over the width of a sheet: finer ones pack closer and take longer. */
const SLABS = 320;
const LEAST_SLAB_MM = 2;

/** Parts on sheets, true shapes: no overlap, spacing and edges kept, grain kept, never worse than the rectangles round them. */
export function nested(parts: readonly NestPart[], sheetsMm: readonly Point2[], wish: NestWish = {}): Nested {
  const { spacingMm = SPACING_MM, edgeMm = EDGE_MM, isFree = false, seed = 1 } = wish;
  const mostChecks = wish.mostChecks ?? usualChecks(parts.length);
  const sizes = sheetsMm.map(
    ([length, width]): SheetSize => ({ lengthMm: length - 2 * edgeMm, widthMm: width - 2 * edgeMm }),
  );
  const widest = Math.max(0, ...sizes.map((size) => size.widthMm));
  const slabMm = Math.max(LEAST_SLAB_MM, widest / SLABS);
  const shaped = parts.map((part, index) => shapedPart(part, index, { slabMm, spacingMm, isFree }));
  const plain = rectangleNest(shaped, sizes, spacingMm);
  const watch = wish.watch === undefined ? {} : { watch: wish.watch };
  const best =
    parts.length === 0 || sizes.length === 0
      ? plain
      : searchedLayout(shaped, sizes, { slabMm, mostChecks, seed, ...watch }, plain);
  return {
    sheets: sheetsOf(best, parts, shaped, sheetsMm, sizes, edgeMm),
    left: best.left.map((index) => parts[index]!.id),
    rectanglesTakenMm2: takenMm2(sheetsOf(plain, parts, shaped, sheetsMm, sizes, edgeMm)),
    wasteShare: wasteShare(best, shaped, sizes),
    rectanglesWasteShare: wasteShare(plain, shaped, sizes),
  };
}

/** Share of what is used up that is no part: whole sheets, of the one with the longest rest only the length it takes. */
function wasteShare(layout: Layout, parts: readonly ShapedPart[], sizes: readonly SheetSize[]): number {
  const areaMm2 = layout.laid.reduce((sum, { part }) => sum + parts[part]!.areaMm2, 0);
  const cost = layoutCost({ laid: layout.laid, left: [] }, parts, sizes);
  return cost === 0 ? 0 : 1 - areaMm2 / cost;
}

/** What of the sheets is used up, edges counted and what is kept taken off [mm2]. */
export const takenMm2 = (sheets: readonly Pick<NestedSheet, 'sizeMm' | 'restMm'>[]): number =>
  sheets.reduce((sum, { sizeMm, restMm }) => sum + (sizeMm[0] - (restMm?.[0] ?? 0)) * sizeMm[1], 0);

function sheetsOf(
  layout: Layout,
  parts: readonly NestPart[],
  shaped: readonly ShapedPart[],
  sheetsMm: readonly Point2[],
  sizes: readonly SheetSize[],
  edgeMm: number,
): NestedSheet[] {
  const used = usedLengths(layout, shaped, sizes.length);
  return sheetsMm.flatMap((sizeMm, sheet): NestedSheet[] => {
    const own = layout.laid.filter((laid) => laid.sheet === sheet).toSorted((a, b) => a.part - b.part);
    if (own.length === 0) return [];
    const partsMm2 = own.reduce((sum, { part }) => sum + shaped[part]!.areaMm2, 0);
    // The saw takes the edge's width beyond the last part.
    const end = Math.min(sizeMm[0], used[sheet]! + 2 * edgeMm);
    const rest: Point2 = [sizeMm[0] - end, sizeMm[1]];
    const isKept = rest[0] >= LEAST_REST_MM;
    const lies = { sheet, sizeMm, ...(isKept ? { restMm: rest } : {}) };
    return [
      {
        ...lies,
        partsMm2,
        parts: own.map(({ part, pose, at }): NestedPart => {
          const { turnDeg, shift } = shaped[part]!.poses[pose]!;
          return {
            id: parts[part]!.id,
            index: part,
            turnDeg,
            by: [shift[0] + at[0] + edgeMm, shift[1] + at[1] + edgeMm],
          };
        }),
        wasteShare: 1 - partsMm2 / takenMm2([lies]),
      },
    ];
  });
}
