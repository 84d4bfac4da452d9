import type { Car, Line } from '#car';
import type { Way } from '#lines';
import type { Catalogue } from '#standards';
import type { Snag } from '../snag.ts';

/** What a snag is opened with: the car as it stands, what it can be made of, and the way that the snag is about. */
export interface OpenedAt {
  readonly car: Car;
  readonly shelf: Catalogue;
  readonly snag: Snag;
  readonly line: Line | undefined;
  readonly way: Way | null;
}
