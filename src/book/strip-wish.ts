import type { WayPiece } from '#lines';
import { formatInches, formatNumber } from '#units';
import type { Sheet } from './gap-ruler.ts';
import type { StripItem } from './make-up-parts.ts';

export interface StripWish extends Sheet {
  /** Cut lengths in inches too, to 1/16. */
  readonly inches?: boolean;
  /** What the line goes through by grommet: a clamp on that part is one. */
  readonly grommets?: readonly string[];
}

/** Items by number, in the order of the line; what belongs to its neighbour has none. */
export type Names = ReadonlyMap<StripItem, number>;

export interface RowWish extends StripWish {
  readonly names: Names;
}

/** "cut 665 mm, −5 +20", in inches too where asked. */
export function cutWords(piece: WayPiece, inches: boolean): string {
  const [less, more] = piece.allowanceMm;
  const range = `${less === 0 ? '' : `−${formatNumber(-less)} `}+${formatNumber(more)}`;
  const cut = inches
    ? `${formatNumber(piece.cutLengthMm)} mm = ${formatInches(piece.cutLengthMm)}`
    : `${formatNumber(piece.cutLengthMm)} mm`;
  return `cut ${cut}, ${range}`;
}
