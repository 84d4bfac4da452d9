import type { BookSheet } from './book-sheet.ts';

const key = (sheet: BookSheet): string => `${sheet.group} ${sheet.code}`;

/** Sheets of an earlier book that are in this one no more: what has to be taken out of the binder. */
export function goneSheets(now: readonly BookSheet[], before: readonly BookSheet[]): BookSheet[] {
  const has = new Set(now.map(key));
  return before.filter((sheet) => !has.has(key(sheet)));
}

/** Sheets that are otherwise than in an earlier book, or that were not in it: what has to be printed again. */
export function changedSheets(now: readonly BookSheet[], before: readonly BookSheet[]): BookSheet[] {
  const had = new Map(before.map((sheet) => [key(sheet), JSON.stringify(sheet.pages)]));
  return now.filter((sheet) => had.get(key(sheet)) !== JSON.stringify(sheet.pages));
}
