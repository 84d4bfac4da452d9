import type { Anchor, Role, Shape, Weight } from '../drawing.ts';
import { type Level, levelMark } from '../level-mark.ts';
import { block, brokenText } from '../text-block.ts';
import { ABOVE, ROW } from '../text-width.ts';
import type { Block } from './block.ts';

export interface GridColumn {
  readonly head: string;
  /** Of the width that is left when the fixed ones have theirs. */
  readonly share?: number;
  /** Fixed [em]. */
  readonly em?: number;
  readonly anchor?: Anchor;
  readonly weight?: Weight;
}

/** Words; a box to tick; a rule to write on, with what stands behind it; a level's mark with its word. */
export type Cell =
  | string
  | { readonly tick: true; readonly isDone?: boolean }
  | { readonly fill: string }
  | { readonly level: Level; readonly text: string }
  | { readonly text: string; readonly weight?: Weight; readonly role?: Role };

/** Rows of a cell that stay together on one page. */
const ROWS_TOGETHER = 12;
const PAD_EM = 0.3;
/** The same where that saves a page [em]. */
const CLOSE_PAD_EM = 0.12;
/** Rows of a table that is not parted over two pages. */
const SHORT_ROWS = 4;
const GAP_EM = 0.7;
/** Letters stand higher in their line than its middle; so much lower they stand midway between the rules [em]. */
const MIDDLE_EM = 0.14;

/** A table whose cells are broken to their column, never cut; its head stands again on each page. */
export function gridBlocks(
  columns: readonly GridColumn[],
  rows: readonly (readonly Cell[])[],
  width: number,
  size: number,
  space = 0,
  pad = PAD_EM,
): Block[] {
  const widths = columnWidths(columns, width, size);
  const head = rowBlocks(
    columns,
    columns.map((column) => ({ text: column.head, weight: 'bold' as const })),
    widths,
    { size, pad },
    true,
  )[0]!;
  const body = rows.flatMap((row) => {
    const close = rowBlocks(columns, row, widths, { size, pad: Math.min(pad, CLOSE_PAD_EM) }, false);
    return rowBlocks(columns, row, widths, { size, pad }, false).map((one, i): Block => ({ ...one, close: close[i]! }));
  });
  const kept = body.map((one, i): Block => {
    // A short table stands together, and no row of a longer one stands alone at the foot or at the head of a page.
    const isKept = i < body.length - 1 && (body.length <= SHORT_ROWS || i === 0 || i === body.length - 2);
    return { ...one, again: head, ...(isKept ? { isHead: true } : {}) };
  });
  return [{ ...head, space, isHead: true }, ...kept];
}

function columnWidths(columns: readonly GridColumn[], width: number, size: number): number[] {
  const fixed = columns.reduce((sum, column) => sum + (column.em ?? 0) * size, 0);
  const shares = columns.reduce((sum, column) => sum + (column.share ?? 0), 0) || 1;
  return columns.map((column) =>
    column.em === undefined ? ((column.share ?? 1) / shares) * (width - fixed) : column.em * size,
  );
}

function rowBlocks(
  columns: readonly GridColumn[],
  cells: readonly Cell[],
  widths: readonly number[],
  { size, pad }: { readonly size: number; readonly pad: number },
  isHead: boolean,
): Block[] {
  const texts = columns.map((column, c) => {
    const cell = cells[c] ?? '';
    const room = widths[c]! - GAP_EM * size - (isLevel(cell) ? size * 1.1 : 0);
    return brokenText(wordsOf(cell), room, size, weightOf(cell, column));
  });
  const most = Math.max(1, ...texts.map((rows) => rows.length));
  const whole = widths.reduce((a, b) => a + b, 0);
  const made: Block[] = [];
  for (let from = 0; from < most; from += ROWS_TOGETHER) {
    const count = Math.min(ROWS_TOGETHER, most - from);
    const isLast = from + count >= most;
    const least = from === 0 && cells.some((cell) => typeof cell === 'object' && !('text' in cell)) ? 1.7 : 0;
    // What is parted only for the page goes on as if it were not: no room above or below but of the whole.
    const [above, below] = [from === 0 ? pad : 0, isLast ? pad : 0];
    const height = size * (Math.max(count * ROW, least) + above + below);
    let left = 0;
    const shapes = columns.flatMap((column, c): Shape[] => {
      const own = cellShapes(cells[c] ?? '', column, {
        rows: texts[c]!.slice(from, from + count),
        isFirst: from === 0,
        left,
        width: widths[c]!,
        size,
        pad: above,
      });
      left += widths[c]!;
      return own;
    });
    const pen = { role: isHead ? 'ink' : 'rule', width: size * (isHead ? 0.09 : 0.05) } as const;
    if (isLast) shapes.push({ kind: 'line', from: [0, height], to: [whole, height], pen });
    made.push({ shapes, height });
  }
  return made;
}

interface CellPlace {
  readonly rows: readonly string[];
  readonly isFirst: boolean;
  readonly left: number;
  readonly width: number;
  readonly size: number;
  /** Above the words [em]. */
  readonly pad: number;
}

function cellShapes(cell: Cell, column: GridColumn, place: CellPlace): Shape[] {
  const { rows, isFirst, left, width, size, pad } = place;
  const top = pad * size;
  if (typeof cell === 'object' && 'tick' in cell)
    return isFirst ? tickBox([left, top + size * 0.1], size * 1.35, cell.isDone === true) : [];
  if (typeof cell === 'object' && 'fill' in cell) return isFirst ? fillRule(cell.fill, left, width, top, size) : [];
  const gap = GAP_EM * size;
  const x = column.anchor === 'end' ? left + width - gap : column.anchor === 'middle' ? left + (width - gap) / 2 : left;
  const indent = isLevel(cell) ? size * 1.1 : 0;
  const role = typeof cell === 'object' && 'role' in cell && cell.role !== undefined ? cell.role : 'ink';
  const words = block([x + indent, top + MIDDLE_EM * size], rows, {
    size,
    weight: weightOf(cell, column),
    role,
    anchor: column.anchor ?? 'start',
  });
  return [
    ...(isLevel(cell) && isFirst ? [levelMark(cell.level, [left, top + size * (ABOVE + MIDDLE_EM)], size)] : []),
    ...words.shapes,
  ];
}

/** A box to tick; crossed where it is done. */
export function tickBox([x, y]: readonly [number, number], side: number, isDone = false): Shape[] {
  const pen = { role: 'ink', width: side * 0.1 } as const;
  const edge: Shape = { kind: 'rect', at: [x, y], width: side, height: side, pen };
  if (!isDone) return [edge];
  return [
    edge,
    { kind: 'line', from: [x, y], to: [x + side, y + side], pen },
    { kind: 'line', from: [x, y + side], to: [x + side, y], pen },
  ];
}

function fillRule(unit: string, left: number, width: number, top: number, size: number): Shape[] {
  const words = block([left + width - GAP_EM * size, top + size * 0.2], unit === '' ? [] : [unit], {
    size,
    role: 'soft',
    anchor: 'end',
  });
  const taken = unit === '' ? 0 : brokenWidth(unit, size);
  const y = top + size * 1.35;
  return [
    {
      kind: 'line',
      from: [left, y],
      to: [left + width - GAP_EM * size - taken, y],
      pen: { role: 'soft', width: size * 0.06 },
    },
    ...words.shapes,
  ];
}

const brokenWidth = (unit: string, size: number): number => (unit.length * 0.6 + 0.4) * size;

const isLevel = (cell: Cell): cell is Extract<Cell, { level: Level }> => typeof cell === 'object' && 'level' in cell;

function wordsOf(cell: Cell): string {
  if (typeof cell === 'string') return cell;
  return 'text' in cell ? cell.text : '';
}

const weightOf = (cell: Cell, column: GridColumn): Weight =>
  typeof cell === 'object' && 'weight' in cell && cell.weight !== undefined
    ? cell.weight
    : (column.weight ?? 'regular');
