import { cautionsFor } from '#snags';
import { framed } from '../panel-head.ts';
import { type Block, counted, headingBlocks, stackBlock, textBlocks } from './block.ts';
import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { type Cell, gridBlocks } from './grid.ts';
import { levelBlocks } from './level-blocks.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** Name of the car, what is in the book, what can hurt someone. */
export function coverSheet(input: BookInput, frame: SheetFrame, sheets: readonly BookSheet[]): BookSheet {
  // How many pages stand before the others is known once it is filled.
  const { pages } = coverAt(input, frame, sheets, 0);
  return coverAt(input, frame, sheets, pages.length);
}

function coverAt(input: BookInput, frame: SheetFrame, sheets: readonly BookSheet[], before: number): BookSheet {
  const { car, lines, snags } = input;
  const stops = snags.filter((snag) => snag.level === 'stop').length;
  const refused = lines.filter((own) => !own.isTaken);
  const panels = (car.panels ?? []).length;
  const intro = [
    `${[counted(lines.length, 'line'), counted(car.parts.length, 'part'), ...(panels === 0 ? [] : [counted(panels, 'panel')])].join(', ')}.`,
    ...(refused.length === 0
      ? []
      : [`Without a way, not to be made: ${refused.map(({ line }) => line.id).join(', ')}.`]),
  ];
  const stand =
    stops === 0
      ? levelBlocks('note', 'No point stops the car as it is drawn; what wants a fix stands on sheet "open".', frame)
      : levelBlocks(
          'stop',
          `${stops} ${stops === 1 ? 'point stops' : 'points stop'} the car as it is drawn: sheet "open".`,
          frame,
        );
  const rows = contents(sheets, before);
  const blocks: Block[] = [
    ...textBlocks(car.name ?? 'The car', frame.inner, { size: frame.size * 3, weight: 'bold' }),
    ...intro.flatMap((text) => textBlocks(text, frame.inner, { size: frame.size * 1.15 }, { space: frame.size * 0.4 })),
    ...stand,
    ...headingBlocks('What can hurt someone on this car', frame.inner, frame.size),
    stackBlock(framed(cautionsFor(car), frame.inner, frame.size), frame.size * 0.4),
    ...headingBlocks('In this book', frame.inner, frame.size),
    ...gridBlocks(
      [
        { head: 'sheet', em: 9, weight: 'bold' },
        { head: 'what it is', share: 1 },
        { head: 'pages', em: 4.5, anchor: 'end' },
        { head: 'from page', em: 6.5, anchor: 'end' },
      ],
      rows,
      frame.inner,
      frame.size,
    ),
  ];
  const head = { code: 'book', title: 'The book of the car', car: '' };
  return {
    code: 'book',
    title: 'Cover and contents',
    group: 'front',
    pages: filledPages(frame, head, blocks),
    lines: [],
  };
}

/** Sheets with their first page; the cards, of which there may be many, in one row: where each stands is in the index. */
function contents(sheets: readonly BookSheet[], before: number): Cell[][] {
  const rows: { code: string; title: string; pages: number; from: number }[] = [];
  const places = firstPages(sheets, before);
  for (const sheet of sheets) {
    const last = rows.at(-1);
    const many = MANY[sheet.group];
    if (many !== undefined && last?.title === many) {
      last.pages += sheet.pages.length;
      last.code = `${last.code.split(' to ')[0]} to ${sheet.code}`;
    } else
      rows.push({
        code: sheet.code,
        title: many ?? sheet.title,
        pages: sheet.pages.length,
        from: places.get(sheet)!,
      });
  }
  return rows.map(({ code, title, pages, from }): Cell[] => [code, title, String(pages), String(from)]);
}

const MANY: Partial<Record<BookSheet['group'], string>> = { cards: 'A card for each line' };

/** Page of the whole book on which each sheet begins. */
function firstPages(sheets: readonly BookSheet[], before: number): Map<BookSheet, number> {
  let page = before + 1;
  return new Map(
    sheets.map((sheet) => {
      const own = page;
      page += sheet.pages.length;
      return [sheet, own];
    }),
  );
}
