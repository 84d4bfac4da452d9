import type { Shape, Spot } from './drawing.ts';
import { row } from './text-block.ts';

/** Side of the square that is measured before a print is believed [mm], and what it is called: whole on the tape at hand. */
export const checkMm = (inches: boolean): number => (inches ? 50.8 : 50);
export const checkWords = (inches: boolean): string => (inches ? '2 in' : '50 mm');
/** Grey, so that nobody takes it for an opening. */
const PEN = { role: 'soft', width: 0.25 } as const;

/** The square with its words, its top left at `at`. */
export function checkSquare([x, y]: Spot, size: number, inches = false): Shape[] {
  const side = checkMm(inches);
  const words = [`measure me: ${checkWords(inches)}`, 'each way, or print', 'again at 100 %', '(not to be cut)'];
  return [
    { kind: 'rect', at: [x, y], width: side, height: side, pen: PEN },
    ...words.map(
      (text, i): Shape =>
        row([x + side / 2, y + side / 2 + (i - 1) * size * 1.3], text, {
          size,
          anchor: 'middle',
          weight: i === 0 ? 'bold' : 'regular',
          role: 'soft',
        }),
    ),
  ];
}

const TICK_MM = 2.5;

/** So far along a sheet's foot and up its side, where a whole square has no room; `at` is their common corner. */
export function checkAngle([x, y]: Spot, size: number, inches = false): Shape[] {
  const side = checkMm(inches);
  const line = (from: Spot, to: Spot): Shape => ({ kind: 'line', from, to, pen: PEN });
  return [
    line([x, y], [x + side, y]),
    line([x, y], [x, y - side]),
    line([x + side, y - TICK_MM], [x + side, y + TICK_MM]),
    line([x - TICK_MM, y - side], [x + TICK_MM, y - side]),
    line([x - TICK_MM, y], [x, y]),
    line([x, y], [x, y + TICK_MM]),
    row([x + 2, y + size * 1.1], `${checkWords(inches)} along and up: measure me`, { size, role: 'soft' }),
  ];
}
