/**
 * How we know a value: `read` in the source itself; `second-hand` = read in someone's copy of it; `practice` = common
 * practice without a source; `from-memory` = recalled, not checked; `computed` = worked out from stated inputs.
 * The screen and the book mark the last four.
 */
export type Known = 'read' | 'second-hand' | 'practice' | 'from-memory' | 'computed';

/** One published work, or one named way of knowing. */
export interface Source {
  readonly id: string;
  readonly title: string;
  readonly edition?: string;
  readonly year?: number;
  /** Where in it. */
  readonly place?: string;
  readonly known: Known;
}
