import type { Body } from '#geometry';

/** A body of a drafted line: what it is, and its row in the catalogue where it has one. */
export interface DraftBody extends Body {
  readonly part: string;
  readonly row?: string;
}
