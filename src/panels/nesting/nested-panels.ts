import type { Point2 } from '#geometry';
import type { FlatPattern } from '../flat-pattern.ts';
import { movedPattern } from './moved-pattern.ts';
import { EDGE_MM, nested, type Nested, type NestedSheet, type NestWish, SPACING_MM, takenMm2 } from './nested.ts';

/** A sheet at hand, or one that can be bought. */
export interface StockOfSheet {
  readonly sheet: string;
  readonly thicknessMm: number;
  /** Long and wide; the grain runs along the first [mm]. */
  readonly sizeMm: Point2;
  /** Absent: as many as are wanted. */
  readonly qty?: number;
}

/** Sizes in which sheet is sold (common practice, no source) [mm]. */
export const USUAL_SHEETS_MM: readonly Point2[] = [
  [1250, 625],
  [2000, 1000],
  [2500, 1250],
];

export interface PanelNestWish extends NestWish {
  /** Panels may lie in the openings of others. */
  readonly inOpenings?: boolean;
  /** What saw or jet takes away outside each panel's line [mm]: between two panels it is taken twice, the spacing is what metal is left. */
  readonly kerfMm?: number;
}

/** A sheet with the panels on it, as they lie. */
export interface PanelSheetCut extends NestedSheet {
  readonly material: string;
  readonly thicknessMm: number;
  readonly patterns: readonly FlatPattern[];
}

export interface PanelNest {
  readonly sheets: readonly PanelSheetCut[];
  /** Panels for which no sheet is large enough, or none is left. */
  readonly left: readonly string[];
  /** Materials for which the car names no sheets: usual sizes were taken. */
  readonly usualSizes: readonly string[];
  /** Of all that the sheets' own shares are of: edges counted, what is kept taken off; and so for the rectangles. */
  readonly wasteShare: number;
  readonly rectanglesWasteShare: number;
}

/** Flat patterns on the sheets at hand, each material and thickness by itself. */
export function nestedPanels(
  patterns: readonly FlatPattern[],
  stock: readonly StockOfSheet[],
  asked: PanelNestWish = {},
): PanelNest {
  const { kerfMm = 0, spacingMm = SPACING_MM, edgeMm = EDGE_MM } = asked;
  const wish = { ...asked, spacingMm: spacingMm + 2 * kerfMm, edgeMm: edgeMm + kerfMm };
  const groups = grouped(patterns);
  const sheets: PanelSheetCut[] = [];
  const left: string[] = [];
  const usualSizes: string[] = [];
  let [parts, taken, plain] = [0, 0, 0];
  for (const [material, own] of groups) {
    const atHand = stock.filter((row) => materialOf(row) === material);
    if (atHand.length === 0) usualSizes.push(material);
    const best = bestNest(own, atHand, wish);
    left.push(...best.left);
    const { sheet, thicknessMm } = own[0]!;
    for (const one of best.sheets)
      sheets.push({
        ...one,
        material: sheet,
        thicknessMm,
        patterns: one.parts.map(({ index, turnDeg, by }) => movedPattern(own[index]!, turnDeg, by)),
      });
    parts += best.sheets.reduce((sum, one) => sum + one.partsMm2, 0);
    taken += takenMm2(best.sheets);
    plain += best.rectanglesTakenMm2;
  }
  return {
    sheets,
    left,
    usualSizes,
    wasteShare: taken === 0 ? 0 : 1 - parts / taken,
    rectanglesWasteShare: plain === 0 ? 0 : 1 - parts / plain,
  };
}

const materialOf = (row: { readonly sheet: string; readonly thicknessMm: number }): string =>
  `${row.sheet}, ${row.thicknessMm} mm`;

function grouped(patterns: readonly FlatPattern[]): Map<string, FlatPattern[]> {
  const groups = new Map<string, FlatPattern[]>();
  for (const pattern of patterns) {
    const own = groups.get(materialOf(pattern)) ?? [];
    own.push(pattern);
    groups.set(materialOf(pattern), own);
  }
  return groups;
}

/** On the sheets at hand, the large ones first or the small ones first; of usual sizes one alone, whichever is used best. */
function bestNest(patterns: readonly FlatPattern[], atHand: readonly StockOfSheet[], wish: PanelNestWish): Nested {
  const area = ([a, b]: Point2): number => a * b;
  const many = (size: Point2, qty: number): Point2[] =>
    Array.from({ length: Math.min(qty, patterns.length) }, () => size);
  const rising = atHand.toSorted((a, b) => area(a.sizeMm) - area(b.sizeMm));
  const lists =
    atHand.length === 0
      ? USUAL_SHEETS_MM.map((size) => many(size, patterns.length))
      : [rising.toReversed(), rising].map((rows) =>
          rows.flatMap((row) => many(row.sizeMm, row.qty ?? patterns.length)),
        );
  const parts = patterns.map((pattern) => ({
    id: pattern.panel,
    outline: pattern.outline,
    ...(wish.inOpenings === true ? { openings: pattern.cutOuts.map((cut) => cut.outline) } : {}),
    ...(pattern.grainDeg === undefined ? {} : { grainDeg: pattern.grainDeg }),
  }));
  let best: { nest: Nested; cost: number } | undefined;
  for (const list of lists) {
    const nest = nested(parts, list, wish);
    // Whole sheets are paid for; a rest that is kept is worth half.
    const cost =
      nest.left.length * 1e9 +
      nest.sheets.reduce((sum, one) => sum + area(one.sizeMm) - area(one.restMm ?? [0, 0]) / 2, 0);
    if (best === undefined || cost < best.cost) best = { nest, cost };
  }
  return best!.nest;
}
