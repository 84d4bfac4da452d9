import type { Vec } from '#geometry';
import type { Snag } from '#snags';
import type { Paper } from '../bench/place.ts';

/** A paper tag on the car. */
export interface Tag {
  readonly snag: string;
  readonly words: string;
  readonly about: string;
  readonly level: Snag['level'];
  readonly atMm: Vec;
  readonly isOpen: boolean;
  readonly isOfLine: boolean;
  /** What it opens; absent: its snag. */
  readonly opens?: Paper;
}
