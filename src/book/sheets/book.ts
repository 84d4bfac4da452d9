import type { Drawing, Shape } from '../drawing.ts';
import type { FlowUnits } from '../flow-words.ts';
import { PAGE_MARGIN_MM } from '../paper-sizes.ts';
import { BELOW } from '../text-width.ts';
import type { BookInput, BookWish } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { cardSheet } from './card-sheet.ts';
import { goneSheets } from './changed-sheets.ts';
import { changeSheet } from './change-sheet.ts';
import { checkSheet } from './checks/check-sheet.ts';
import { fillCheck } from './checks/fill-check.ts';
import { leakCheck } from './checks/leak-check.ts';
import { primeCheck, runsCheck, startCheck } from './checks/start-check.ts';
import { dueSheet } from './due-sheet.ts';
import { stampShapes } from './filled-pages.ts';
import { coverSheet } from './cover-sheet.ts';
import { indexSheet } from './index-sheet.ts';
import { readingSheet } from './reading-sheet.ts';
import { heightsSheet } from './heights-sheet.ts';
import { mapSheet } from './map-sheet.ts';
import { offSheets } from './off-sheets.ts';
import { reachSheet } from './reach-sheet.ts';
import { openSheet } from './open-sheet.ts';
import { cutsSheet, orderSheet } from './order-sheet.ts';
import { panelSheets } from './panel-sheet.ts';
import { rulesSheets } from './rules-sheet.ts';
import { type SheetFrame, sheetFrame } from './sheet-frame.ts';
import { tagsSheet } from './tags-sheet.ts';
import { tubesSheet } from './tubes-sheet.ts';
import { usInput } from './us-input.ts';

/** Every sheet of the book, in the order in which they lie in the binder; the change sheet names those of `earlier` that are no more. */
export function bookSheets(asked: BookInput, wish: BookWish, earlier: readonly BookSheet[] = []): BookSheet[] {
  const input = wish.inches === true ? usInput(asked) : asked;
  const frame = sheetFrame(wish.paper, wish.inches);
  const units: FlowUnits = wish.inches === true ? 'inch' : 'metric';
  const checks = [leakCheck, fillCheck, primeCheck, startCheck, runsCheck].map((list) => list(input, units));
  const front = [
    readingSheet(input, frame),
    openSheet(input, frame),
    mapSheet(input, frame),
    ...input.lines.map((own) => cardSheet(input, own, frame)),
    heightsSheet(input, frame),
    ...panelSheets(input, frame, wish),
    ...tubesSheet(input, frame),
    orderSheet(input, frame),
    ...cutsSheet(input, frame),
  ];
  const after = [
    ...offSheets(input, frame),
    ...reachSheet(input, frame),
    ...rulesSheets(input, frame),
    ...dueSheet(input, frame),
    ...checks
      .filter((list) => list.sections.some((section) => section.steps.length > 0))
      .map((list) => checkSheet(input, list, frame)),
  ];
  const tags = tagsSheet(input, frame);
  const gone = goneSheets([...front, ...after, ...tags], earlier).filter(
    ({ code }) => code !== 'book' && code !== 'index',
  );
  const inside = [...front, ...changeSheet(input, frame, gone), ...after];
  const sheets = [...inside, ...tags, indexSheet(input, frame, inside)];
  return [coverSheet(input, frame, sheets), ...sheets];
}

/** What is stamped on the pages when they are printed. */
export interface PrintWish extends BookWish {
  /** Day of printing, as the edge says it: "2026-11-26". */
  readonly day: string;
  /** Only some sheets: they have no page of the whole book. */
  readonly isPart?: boolean;
}

/** The pages of sheets with the day of printing and, of a whole book, the page. */
export function bookPages(sheets: readonly BookSheet[], wish: PrintWish): Drawing[] {
  const frame = sheetFrame(wish.paper, wish.inches);
  const all = sheets.flatMap((sheet) => sheet.pages.map((page) => ({ sheet, page })));
  return all.map(({ sheet, page }, i): Drawing => {
    const right = wish.isPart === true ? '' : `page ${i + 1} of ${all.length}`;
    const printed = `printed ${wish.day}`;
    if (sheet.group === 'fit') return { ...page, shapes: [...page.shapes, cornerStamp(page, printed, right, frame)] };
    // A tile at full size has no room for more than is on it.
    return isTile(page) ? page : { ...page, shapes: [...page.shapes, stampShapes(frame, printed, right)] };
  });
}

const isTile = (page: Drawing): boolean => !page.description.includes(', page ');

/** In the lower right corner of the wall map. */
const cornerStamp = (page: Drawing, printed: string, right: string, frame: SheetFrame): Shape => ({
  kind: 'text',
  at: [page.width - PAGE_MARGIN_MM, page.height - PAGE_MARGIN_MM - frame.small * BELOW],
  text: ['map', printed, ...(right === '' ? [] : [right])].join(' · '),
  size: frame.small,
  weight: 'regular',
  anchor: 'end',
  role: 'soft',
});
