import type { Way } from '#lines';
import type { Catalogue } from '#standards';
import { lengthsIn } from '#units';
import type { Drawing, Shape } from './drawing.ts';
import { shiftedToCorner } from './picture-bounds.ts';
import { stripItems, type StripItem } from './make-up-parts.ts';
import { type StripRow, stripRow } from './strip-row.ts';
import { cutWords, type Names, type StripWish } from './strip-wish.ts';
import { block, brokenText } from './text-block.ts';
import { ROW } from './text-width.ts';

/**
 * The make-up from port to port: each boss, adapter, end, hose, tube and wall in its true proportions laid flat, the runs drawn short
 * with a break; below each run its cut length, below all the names by number. A bulkhead fitting ends a row and begins the next.
 */
export function makeUpStrip(way: Way, catalogue: Catalogue, wish: StripWish): Drawing {
  const items = stripItems(way, catalogue);
  const names = numbered(items);
  const rows = rowsOf(items);
  const gap = wish.size * 0.6;
  const shapes: Shape[] = [];
  let [left, top, deepest] = [0, 0, 0];
  for (const row of rows) {
    if (row.every((item) => item.kind === 'port')) continue;
    const drawn = stripRow(row, way, catalogue, { ...wish, names });
    const corner = shiftedToCorner(drawn);
    // Short rows stand side by side.
    if (left > 0 && left + corner.width > wish.width) [left, top, deepest] = [0, top + deepest + gap, 0];
    shapes.push({ kind: 'group', offset: [left + corner.left, top + corner.top], shapes: drawn });
    left += corner.width + gap * 3;
    deepest = Math.max(deepest, corner.height);
  }
  top += deepest + gap;
  if (way.bodies.length === 0) {
    const none = block([0, 0], ['No make-up was found: nothing to draw.'], { size: wish.size });
    shapes.push(...none.shapes);
    top = none.height + gap;
  }
  const legend = legendOf(names, wish);
  shapes.push({ kind: 'group', offset: [0, top], shapes: legend.shapes });
  return {
    title: 'Make-up from port to port',
    description: wordsOf(items, way, wish),
    unit: wish.unit,
    width: wish.width,
    height: top + legend.height,
    shapes,
  };
}

function numbered(items: readonly StripItem[]): Names {
  return new Map(items.filter((item) => item.kind !== 'over').map((item, i) => [item, i + 1]));
}

/** A bulkhead fitting ends one row and begins the next. */
function rowsOf(items: readonly StripItem[]): StripRow[] {
  const rows: StripItem[][] = [[]];
  for (const [i, item] of items.entries()) {
    rows.at(-1)!.push(item);
    if (item.kind === 'fitting' && item.part === 'bulkhead-fitting' && i < items.length - 1) rows.push([item]);
  }
  return rows;
}

/** The names by number, in as many columns as have room. */
function legendOf(names: Names, wish: StripWish): { shapes: Shape[]; height: number } {
  const { size } = wish;
  const least = size * 22;
  const columns = Math.max(1, Math.min(3, Math.floor(wish.width / least)));
  const gap = size * 1.2;
  const width = (wish.width - gap * (columns - 1)) / columns;
  const indent = size * 1.9;
  const entries = [...names].map(([item, number]) => ({
    number,
    rows: brokenText(itemWords(item, wish.inches === true), width - indent, size),
  }));
  const total = entries.reduce((sum, entry) => sum + entry.rows.length, 0);
  const perColumn = Math.ceil(total / columns);
  const shapes: Shape[] = [];
  let [column, used, deepest] = [0, 0, 0];
  for (const entry of entries) {
    if (used > 0 && used + entry.rows.length / 2 > perColumn && column < columns - 1) [column, used] = [column + 1, 0];
    const at = [column * (width + gap), used * size * ROW] as const;
    shapes.push(
      ...block(at, [String(entry.number)], { size, weight: 'bold' }).shapes,
      ...block([at[0] + indent, at[1]], entry.rows, { size }).shapes,
    );
    used += entry.rows.length;
    deepest = Math.max(deepest, used);
  }
  return { shapes, height: deepest * size * ROW };
}

function itemWords(item: StripItem, inches: boolean): string {
  if (item.kind === 'over') return '';
  const words = lengthsIn(inches).soldAs(item.words);
  return item.kind === 'run' && item.hasLayLine ? `${words}; lay line straight` : words;
}

function wordsOf(items: readonly StripItem[], way: Way, wish: StripWish): string {
  if (way.bodies.length === 0) return 'No make-up was found.';
  const words = items.flatMap((item) => {
    if (item.kind === 'over') return [];
    if (item.kind === 'run') return [`${item.words}, ${cutWords(item.piece, wish.inches === true)}`];
    return [item.words];
  });
  return `In order: ${words.join('; then ')}.`;
}
