import type { WayPiece } from '#lines';
import { lengthsIn } from '#units';
import { bendTable } from '../bend-table.ts';
import type { Role } from '../drawing.ts';
import { besideBlocks } from './beside-blocks.ts';
import { type Block, drawingBlock, textBlocks, together } from './block.ts';
import type { SheetFrame } from './sheet-frame.ts';

/** Of the width, that a bend table takes at most with words beside it. */
const MOST_TABLE = 0.55;

/** The bend table of a tube, and beside it how its ends are worked; below it where the table is wide. */
export function bendBlock(piece: WayPiece, frame: SheetFrame, role: Role): Block {
  const { inner, size, small, inches } = frame;
  const table = bendTable(piece, { width: inner, size, unit: 'mm', inches });
  const taken = table.height > 0 ? table.width + size * 2 : 0;
  const isBeside = taken < inner * MOST_TABLE;
  const ends = together(
    (piece.endPrep ?? []).flatMap((words) =>
      textBlocks(
        lengthsIn(inches).text(words),
        isBeside ? inner - taken : inner,
        { size: small, role },
        { space: size * 0.3 },
      ),
    ),
  );
  if (isBeside) return besideBlocks([drawingBlock(table)], [ends], taken)[0]!;
  return together([drawingBlock(table), { ...ends, space: size * 0.3 }]);
}
