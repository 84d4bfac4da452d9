import type { BookInput } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { filledPages } from './filled-pages.ts';
import { type Cell, gridBlocks } from './grid.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** Each line with every sheet that it stands on. */
export function indexSheet({ car, lines }: BookInput, frame: SheetFrame, sheets: readonly BookSheet[]): BookSheet {
  const rows = car.lines.map((line): Cell[] => [
    line.id,
    `${line.name ?? line.duty.replace('-', ' ')}`,
    lines.some((own) => own.line.id === line.id && own.isTaken) ? line.state : 'no way yet',
    sheets
      .filter((sheet) => sheet.lines.includes(line.id) && sheet.code !== line.id)
      .map((sheet) => sheet.code)
      .join(', '),
  ]);
  const blocks = gridBlocks(
    [
      { head: 'line', em: 6, weight: 'bold' },
      { head: 'what it is', share: 5 },
      { head: 'state', em: 7 },
      { head: 'its card, and on sheets', share: 7 },
    ],
    rows,
    frame.inner,
    frame.size,
  );
  const head = { code: 'index', title: 'Index by line', car: car.name ?? 'Car' };
  return { code: 'index', title: head.title, group: 'front', pages: filledPages(frame, head, blocks), lines: [] };
}
