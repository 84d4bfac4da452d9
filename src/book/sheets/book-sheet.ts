import type { Drawing } from '../drawing.ts';

/** What a sheet answers, for whoever prints one question's sheets. */
export type SheetGroup = 'front' | 'cards' | 'fit' | 'flow' | 'cut' | 'buy' | 'off' | 'checks' | 'rules' | 'tags';

/** One sheet of the book: its pages, and its rows for a spreadsheet where it is a list. */
export interface BookSheet {
  /** The short word that it is asked for and found by: a line's or panel's id, or one of the book's own words. */
  readonly code: string;
  readonly title: string;
  readonly group: SheetGroup;
  readonly pages: readonly Drawing[];
  /** Lines that it is about, for the index. */
  readonly lines: readonly string[];
  /** Rows under their heads. */
  readonly rows?: readonly (readonly string[])[];
}
