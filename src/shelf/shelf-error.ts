/** What kept the shelf from doing what was asked. */
export type ShelfFault =
  | 'no-car'
  | 'no-scan'
  | 'nothing-to-undo'
  | 'nothing-to-redo'
  | 'no-revision'
  /** What was handed in is not allowed: a name, a size, a file that is no car. Nothing is kept of it. */
  | 'refused'
  /** The disk, or the file, can take no more. */
  | 'full'
  | 'read-only'
  /** What stands on the disk is damaged. */
  | 'broken'
  /** Written by a newer Fairlead; left as it is. */
  | 'newer'
  /** Another program holds the file for longer than one waits. */
  | 'busy';

/** One sentence for the builder, and a code for the program. Nothing was kept, and what was there still is. */
export class ShelfError extends Error {
  readonly code: ShelfFault;
  constructor(code: ShelfFault, sentence: string) {
    super(sentence);
    this.name = 'ShelfError';
    this.code = code;
  }
}
