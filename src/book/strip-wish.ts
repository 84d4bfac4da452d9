import type { WayPiece } from '#lines';
import { formatInches, formatNumber, lengthsIn } from '#units';
import type { Sheet } from './gap-ruler.ts';
import type { StripItem } from './make-up-parts.ts';

export interface StripWish extends Sheet {
  /** Lengths in inches, cuts to 1/16. */
  readonly inches?: boolean;
  /** What the line goes through by grommet: a clamp on that part is one. */
  readonly grommets?: readonly string[];
}

/** Items by number, in the order of the line; what belongs to its neighbour has none. */
export type Names = ReadonlyMap<StripItem, number>;

export interface RowWish extends StripWish {
  readonly names: Names;
}

/** "cut 665 mm, −5 +20", or "cut 26 3/16 in, −3/16 +13/16". */
export function cutWords(piece: WayPiece, inches: boolean): string {
  return `cut ${lengthsIn(inches).one(piece.cutLengthMm)}, ${allowanceWords(piece.allowanceMm, inches)}`;
}

/** "−5 +20", in inches "−3/16 +13/16". */
export function allowanceWords([less, more]: readonly [number, number], inches: boolean): string {
  const told = (mm: number): string => (inches ? formatInches(mm).replace(/ in$/u, '') : formatNumber(mm));
  return `${less === 0 ? '' : `−${told(-less)} `}+${told(more)}`;
}
