import { outlinePoints, type Point2 } from '#geometry';
import type { FlatPattern } from '#panels';
import { drawnPoints, holdsPoint } from './free-place.ts';
import { type FlatBounds, flatBounds } from './panel-frame.ts';
import { PAGE_MARGIN_MM, PAPER_MM, type PagePaper } from './paper-sizes.ts';

/** Strip at the foot of each tile, for its name, its map and the check [mm]. */
export const STRIP_MM = 24;
/** Neighbours show this much of each other [mm]. */
export const OVERLAP_MM = 12;
/** Bare paper round the panel inside the tiles, for corner letters and the datum [mm]. */
const ROUND_MM = 8;

/** One page of a panel at full size. */
export interface Tile {
  /** "B2": column by letter from the left, row by number from the top. */
  readonly name: string;
  readonly column: number;
  readonly row: number;
}

/** How a panel at full size is spread over pages. */
export interface Tiling {
  readonly paper: PagePaper;
  /** Page as it lies [mm]. */
  readonly pageMm: readonly [number, number];
  readonly columns: number;
  readonly rows: number;
  /** From one join to the next [mm]. */
  readonly stepMm: readonly [number, number];
  /** What the tiles cover together, in the flat's axes, between the outermost joins. */
  readonly covered: FlatBounds;
  /** Pages on which something of the panel lies, row by row. */
  readonly tiles: readonly Tile[];
}

const letter = (column: number): string =>
  column < 26 ? String.fromCodePoint(65 + column) : letter(Math.floor(column / 26) - 1) + letter(column % 26);

/** The fewest pages, upright or lying, whose joined tiles cover the panel. */
export function tilingOf(pattern: FlatPattern, paper: PagePaper): Tiling {
  const bounds = flatBounds(pattern);
  const [short, long] = PAPER_MM[paper];
  const ways = [
    [short, long],
    [long, short],
  ] as const;
  const found = ways.map((pageMm) => tiled(pattern, bounds, paper, pageMm));
  return found[0]!.tiles.length <= found[1]!.tiles.length ? found[0]! : found[1]!;
}

function tiled(pattern: FlatPattern, bounds: FlatBounds, paper: PagePaper, pageMm: readonly [number, number]): Tiling {
  const stepMm = [
    pageMm[0] - 2 * PAGE_MARGIN_MM - OVERLAP_MM,
    pageMm[1] - 2 * PAGE_MARGIN_MM - STRIP_MM - OVERLAP_MM,
  ] as const;
  const wide = bounds.maxX - bounds.minX + 2 * ROUND_MM;
  const high = bounds.maxY - bounds.minY + 2 * ROUND_MM;
  const [columns, rows] = [Math.ceil(wide / stepMm[0]), Math.ceil(high / stepMm[1])];
  // The panel lies in the middle of its tiles.
  const minX = (bounds.minX + bounds.maxX - columns * stepMm[0]) / 2;
  const minY = (bounds.minY + bounds.maxY - rows * stepMm[1]) / 2;
  const covered = { minX, minY, maxX: minX + columns * stepMm[0], maxY: minY + rows * stepMm[1] };
  const points = [...drawnPoints(pattern), ...outlinePoints(pattern.outline)];
  const tiles: Tile[] = [];
  for (let row = 0; row < rows; row++)
    for (let column = 0; column < columns; column++) {
      const [x0, y1] = [minX + column * stepMm[0], covered.maxY - row * stepMm[1]];
      const [x1, y0] = [x0 + stepMm[0], y1 - stepMm[1]];
      const holds = points.some(([x, y]) => x >= x0 && x <= x1 && y >= y0 && y <= y1);
      const middle: Point2 = [(x0 + x1) / 2, (y0 + y1) / 2];
      if (holds || holdsPoint(pattern, middle)) tiles.push({ name: `${letter(column)}${row + 1}`, column, row });
    }
  return { paper, pageMm, columns, rows, stepMm, covered, tiles };
}
