import type { SourceId } from './bibliography.ts';

/** How grave: `stop` = a limit is broken at nominal; `fix` = broken only at worst case; `note` = the rest. */
export type Level = 'stop' | 'fix' | 'note';

/** One thing that a room noticed about the car, as data: never thrown. */
export interface Finding {
  readonly code: string;
  readonly level: Level;
  /** One line, in words of the trade. */
  readonly text: string;
  readonly value?: number;
  readonly limit?: number;
  readonly unit?: string;
  /** Where the limit comes from: a row of the bibliography, or the builder's own words. */
  readonly source: SourceId | (string & {});
  /** Where on the car [mm]. */
  readonly place?: readonly [x: number, y: number, z: number];
}
