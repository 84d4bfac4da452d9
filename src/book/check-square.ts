import type { Shape, Spot } from './drawing.ts';
import { row } from './text-block.ts';

/** Side of the square that is measured before a print is believed [mm]. */
export const CHECK_MM = 50;
/** Grey, so that nobody takes it for an opening. */
const PEN = { role: 'soft', width: 0.25 } as const;

/** The square with its words, its top left at `at`. */
export function checkSquare([x, y]: Spot, size: number): Shape[] {
  const words = ['measure me: 50 mm', 'each way, or print', 'again at 100 %', '(not to be cut)'];
  return [
    { kind: 'rect', at: [x, y], width: CHECK_MM, height: CHECK_MM, pen: PEN },
    ...words.map(
      (text, i): Shape =>
        row([x + CHECK_MM / 2, y + CHECK_MM / 2 + (i - 1) * size * 1.3], text, {
          size,
          anchor: 'middle',
          weight: i === 0 ? 'bold' : 'regular',
          role: 'soft',
        }),
    ),
  ];
}

const TICK_MM = 2.5;

/** 50 mm along a sheet's foot and 50 mm up its side, where a whole square has no room; `at` is their common corner. */
export function checkAngle([x, y]: Spot, size: number): Shape[] {
  const line = (from: Spot, to: Spot): Shape => ({ kind: 'line', from, to, pen: PEN });
  return [
    line([x, y], [x + CHECK_MM, y]),
    line([x, y], [x, y - CHECK_MM]),
    line([x + CHECK_MM, y - TICK_MM], [x + CHECK_MM, y + TICK_MM]),
    line([x - TICK_MM, y - CHECK_MM], [x + TICK_MM, y - CHECK_MM]),
    line([x - TICK_MM, y], [x, y]),
    line([x, y], [x, y + TICK_MM]),
    row([x + 2, y + size * 1.1], '50 mm along and up: measure me', { size, role: 'soft' }),
  ];
}
