import type { BookSheet } from './book-sheet.ts';

/** Sheets that are otherwise than in an earlier book, or that were not in it: what has to be printed again. */
export function changedSheets(now: readonly BookSheet[], before: readonly BookSheet[]): BookSheet[] {
  const key = (sheet: BookSheet): string => `${sheet.group} ${sheet.code}`;
  const had = new Map(before.map((sheet) => [key(sheet), JSON.stringify(sheet.pages)]));
  return now.filter((sheet) => had.get(key(sheet)) !== JSON.stringify(sheet.pages));
}
