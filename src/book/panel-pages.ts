import type { FlatPattern } from '#panels';
import { checkMm, checkSquare, checkWords } from './check-square.ts';
import type { Drawing, Shape } from './drawing.ts';
import { panelCautions } from './panel-cautions.ts';
import { WORD_MM } from './panel-flat.ts';
import { framed, panelHead, type PanelWish } from './panel-head.ts';
import { LIST_MM, type PanelList, panelLists } from './panel-lists.ts';
import { panelOverview } from './panel-overview.ts';
import { rowsWithin, tableHeight } from './panel-table.ts';
import { panelTile, tileFrame } from './panel-tile.ts';
import { flatWithMarks, listStack } from './panel-sheet.ts';
import { PAGE_MARGIN_MM, PAPER_MM, type PagePaper } from './paper-sizes.ts';
import { Stack } from './stack.ts';
import { type Tiling, tilingOf } from './tiles.ts';

export interface PagesWish extends PanelWish {
  readonly paper: PagePaper;
}

/** A panel as pages to print: what it is with the map of its tiles, its lists, then every tile at full size. */
export function panelPages(pattern: FlatPattern, wish: PagesWish): Drawing[] {
  const tiling = tilingOf(pattern, wish.paper);
  const lists = panelLists(pattern, wish.inches === true);
  const first = firstPage(pattern, wish, tiling, lists);
  const flat = flatWithMarks(pattern, tileFrame(tiling), wish);
  const tiles = tiling.tiles.map((tile) => panelTile(pattern, tiling, tile, { ...wish, flat }));
  return [first.page, ...listPages(pattern, wish, first.left), ...tiles];
}

/** Map, check square, how to join, cautions; the lists too where they have room. */
function firstPage(
  pattern: FlatPattern,
  wish: PagesWish,
  tiling: Tiling,
  lists: readonly PanelList[],
): { page: Drawing; left: readonly PanelList[] } {
  const [width, height] = PAPER_MM[wish.paper];
  const inner = width - 2 * PAGE_MARGIN_MM;
  const inches = wish.inches === true;
  const check = checkMm(inches);
  const stack = panelHead(pattern, wish, inner, [inches ? 'inches' : 'millimetres', 'page 1: map']);
  const cautions = framed(panelCautions(pattern), inner, 3.4);
  const room = height - 2 * PAGE_MARGIN_MM - stack.height - cautions.height - check - 12;
  stack.drawing(panelOverview(pattern, tiling, inner, room)).space(4);
  const beside = new Stack(inner - check - 8);
  for (const [i, text] of joiningSteps(tiling, inches).entries())
    beside.text(`${i + 1}. ${text}`, { size: 3.6 }).space(1.6);
  stack.put(
    [...checkSquare([0, 0], WORD_MM, inches), { kind: 'group', offset: [check + 8, 1], shapes: beside.shapes }],
    Math.max(check, beside.height),
  );
  // Short lists stand here, so that a small panel is one page and its tile.
  const under = height - 2 * PAGE_MARGIN_MM - stack.height - cautions.height - 10;
  const columns = listColumns(lists, under);
  const fits = columns.length <= columnsOn(inner) && columns.every((column) => column.height <= under);
  if (fits) stack.space(5).beside(columns, gapOn(inner));
  const shapes: Shape[] = [
    { kind: 'group', offset: [PAGE_MARGIN_MM, PAGE_MARGIN_MM], shapes: stack.shapes },
    {
      kind: 'group',
      offset: [PAGE_MARGIN_MM, height - PAGE_MARGIN_MM - cautions.height],
      shapes: cautions.shapes,
    },
  ];
  const page: Drawing = {
    title: `${pattern.panel} ${pattern.name}`,
    description: `${pattern.panel}: map of its ${tiling.tiles.length} tiles, how to join them, cautions.`,
    unit: 'mm',
    width,
    height,
    shapes,
  };
  return { page, left: fits ? [] : lists };
}

/** What is done with the pages, in order. */
function joiningSteps({ tiles, paper }: Tiling, inches: boolean): string[] {
  const square = `Print every page at 100 %, not fitted to the page. Measure the square: ${checkWords(inches)} each way, on each tile too.`;
  const lay = 'Lay it on the OUTSIDE FACE of the sheet, printed side up, and glue or tape it down.';
  const holes = 'Holes: punch through the crosses, or scribe them from the list and punch the crossings.';
  if (tiles.length === 1) return [square, lay, holes];
  return [
    square,
    `${tiles.length} tiles on ${paper}. Cut a tile at a blue broken line, lay it on the same line of its neighbour, the crosses on each other, and tape it.`,
    `Measure the whole against the size at the top. ${lay}`,
    holes,
  ];
}

const columnsOn = (inner: number): number => Math.max(1, Math.floor((inner + 8) / (LIST_MM + 7)));
const gapOn = (inner: number): number =>
  columnsOn(inner) === 1 ? 0 : (inner - columnsOn(inner) * LIST_MM) / (columnsOn(inner) - 1);

/** Space above the next list in a column [mm]. */
const LIST_GAP_MM = 6;

/** The lists in columns, over as many pages as they need; a long one goes on in the next column. */
function listPages(pattern: FlatPattern, wish: PagesWish, lists: readonly PanelList[]): Drawing[] {
  const [width, height] = PAPER_MM[wish.paper];
  const inner = width - 2 * PAGE_MARGIN_MM;
  const head = panelHead(pattern, wish, inner, [wish.inches === true ? 'inches' : 'millimetres', 'lists']);
  const room = height - 2 * PAGE_MARGIN_MM - head.height - 4;
  const columnCount = columnsOn(inner);
  const columns = listColumns(lists, room);
  const gap = gapOn(inner);
  const pages: Drawing[] = [];
  for (let i = 0; i < columns.length; i += columnCount) {
    const own = columns.slice(i, i + columnCount);
    pages.push({
      title: `${pattern.panel}, lists`,
      description: lists.map((list) => `${list.title}: ${list.rows.length}`).join('; '),
      unit: 'mm',
      width,
      height,
      shapes: [
        { kind: 'group', offset: [PAGE_MARGIN_MM, PAGE_MARGIN_MM], shapes: head.shapes },
        ...own.map(
          (column, k): Shape => ({
            kind: 'group',
            offset: [PAGE_MARGIN_MM + k * (LIST_MM + gap), PAGE_MARGIN_MM + head.height + 4],
            shapes: column.shapes,
          }),
        ),
      ],
    });
  }
  return pages;
}

/** Columns no higher than `room`, filled in turn. */
export function listColumns(lists: readonly PanelList[], room: number): Stack[] {
  const columns: Stack[] = [];
  let column = new Stack(LIST_MM);
  const next = (): void => {
    columns.push(column);
    column = new Stack(LIST_MM);
  };
  for (const list of lists) {
    let rows = list.rows;
    let title = list.title;
    while (rows.length > 0) {
      if (column.height > 0) column.space(LIST_GAP_MM);
      const headHeight = listStack({ ...list, title, rows: [] }, WORD_MM).height;
      const most = rowsWithin(room - column.height - headHeight + tableHeight(0, WORD_MM), WORD_MM);
      // A list begins with three rows at least, or with all it has.
      if (most < Math.min(3, rows.length) && column.height > 0) {
        next();
        continue;
      }
      const own = rows.slice(0, Math.max(1, most));
      const made = listStack({ ...list, title, rows: own }, WORD_MM);
      column.put(made.shapes, made.height);
      rows = rows.slice(own.length);
      title = `${list.title}, continued`;
      if (rows.length > 0) next();
    }
  }
  if (column.height > 0) columns.push(column);
  return columns;
}
