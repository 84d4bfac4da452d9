import type { WayPiece } from '#lines';
import { formatInches, formatNumber, lengthsIn } from '#units';
import type { Drawing, Shape } from './drawing.ts';
import type { Sheet } from './gap-ruler.ts';
import { row } from './text-block.ts';
import { ABOVE, ROW, textWidth } from './text-width.ts';

export interface BendTableWish extends Sheet {
  readonly inches?: boolean;
}

/** What the bender is set to, bend by bend: mark, turn of the tube, angle, angle to set, radius. */
export function bendTable(piece: WayPiece, wish: BendTableWish): Drawing {
  const bends = piece.bends ?? [];
  const heads = ['bend', 'mark', 'turn', 'bend to', 'set', 'radius'];
  // A mark on a tube is set closer than a cut.
  const length = (mm: number) => (wish.inches === true ? formatInches(mm, 32) : `${formatNumber(mm)} mm`);
  const rows = bends.map((bend, i) => [
    String(i + 1),
    length(bend.markMm),
    i === 0 ? 'start' : `${formatNumber(bend.turnDeg)}°`,
    `${formatNumber(bend.bendDeg)}°`,
    `${formatNumber(bend.setDeg)}°`,
    lengthsIn(wish.inches === true).fine(Math.round(bend.radiusMm)),
  ]);
  const { size } = wish;
  const gap = size * 1.4;
  const widths = heads.map((head, k) =>
    Math.max(textWidth(head, size), ...rows.map((cells) => textWidth(cells[k]!, size, 'bold'))),
  );
  // Columns narrower than their words would lie on each other: the table shrinks as a whole.
  const full = widths.reduce((a, b) => a + b, 0) + gap * (heads.length - 1);
  const scale = Math.min(1, wish.width / full);
  const height = (rows.length + 1) * ROW * size * scale;
  const rights = widths.map((_, k) => (widths.slice(0, k + 1).reduce((a, b) => a + b, 0) + gap * k) * scale);
  const baseline = (i: number) => (i * ROW + ABOVE) * size * scale;
  const cell = (text: string, k: number, i: number): Shape =>
    row([rights[k]!, baseline(i)], text, {
      size: size * scale,
      anchor: 'end',
      ...(i === 0 ? { role: 'soft' as const } : { weight: k === 0 ? ('regular' as const) : ('bold' as const) }),
    });
  return {
    title: 'Bend table',
    description:
      bends.length === 0
        ? 'No bends.'
        : rows.map((cells) => heads.map((head, k) => `${head} ${cells[k]}`).join(', ')).join('; '),
    unit: wish.unit,
    width: full * scale,
    height: bends.length === 0 ? 0 : height,
    shapes: bends.length === 0 ? [] : [heads, ...rows].flatMap((cells, i) => cells.map((text, k) => cell(text, k, i))),
  };
}
