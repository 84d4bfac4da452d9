import type { Drawing } from '../drawing.ts';
import type { FlowUnits } from '../flow-words.ts';
import type { BookInput, BookWish } from './book-input.ts';
import type { BookSheet } from './book-sheet.ts';
import { cardSheet } from './card-sheet.ts';
import { changeSheet } from './change-sheet.ts';
import { checkSheet } from './checks/check-sheet.ts';
import { fillCheck } from './checks/fill-check.ts';
import { leakCheck } from './checks/leak-check.ts';
import { primeCheck, runsCheck, startCheck } from './checks/start-check.ts';
import { stampShapes } from './filled-pages.ts';
import { coverSheet } from './cover-sheet.ts';
import { indexSheet } from './index-sheet.ts';
import { readingSheet } from './reading-sheet.ts';
import { heightsSheet } from './heights-sheet.ts';
import { mapSheet } from './map-sheet.ts';
import { openSheet } from './open-sheet.ts';
import { cutsSheet, orderSheet } from './order-sheet.ts';
import { sheetFrame } from './sheet-frame.ts';

/** Every sheet of the book, in the order in which they lie in the binder. */
export function bookSheets(input: BookInput, wish: BookWish): BookSheet[] {
  const frame = sheetFrame(wish.paper, wish.inches);
  const units: FlowUnits = wish.inches === true ? 'inch' : 'metric';
  const checks = [leakCheck, fillCheck, primeCheck, startCheck, runsCheck].map((list) => list(input, units));
  const inside = [
    readingSheet(input, frame),
    openSheet(input, frame),
    mapSheet(input, frame),
    ...input.lines.map((own) => cardSheet(input, own, frame)),
    heightsSheet(input, frame),
    orderSheet(input, frame),
    cutsSheet(input, frame),
    ...changeSheet(input, frame),
    ...checks
      .filter((list) => list.sections.some((section) => section.steps.length > 0))
      .map((list) => checkSheet(input, list, frame)),
  ];
  const sheets = [...inside, indexSheet(input, frame, inside)];
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
  return sheets
    .flatMap((sheet) => sheet.pages)
    .map((page, i, all): Drawing => {
      // Drawings of another size have feet of their own.
      if (page.width !== frame.width || page.height !== frame.height) return page;
      const right = wish.isPart === true ? '' : `page ${i + 1} of ${all.length}`;
      return { ...page, shapes: [...page.shapes, stampShapes(frame, `printed ${wish.day}`, right)] };
    });
}
