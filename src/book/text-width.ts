import type { Weight } from './drawing.ts';
import { letterRows } from './letter-widths.ts';

/** A letter the font does not have is drawn from another one; few are wider than their size. */
const STRANGE_LETTER = 1000;

/** How wide a row of text is, in the unit of `size`; letters that the font does not have count a full size each. */
export function textWidth(text: string, size: number, weight: Weight = 'regular'): number {
  let thousandths = 0;
  for (const letter of text) thousandths += letterWidth(letter.codePointAt(0)!, weight);
  return (thousandths / 1000) * size;
}

function letterWidth(code: number, weight: Weight): number {
  const row = letterRows.find(({ from, regular }) => code >= from && code < from + regular.length);
  return row?.[weight][code - row.from] || STRANGE_LETTER;
}

/** From the baseline to the top of a capital, as a share of the size (font: 660 of 1000). */
export const CAPITAL = 0.66;
/** What a row takes above and below its baseline, as shares of the size: accents and tails of this font stay within. */
export const ABOVE = 0.82;
export const BELOW = 0.24;
/** From one baseline to the next, as a share of the size. */
export const ROW = 1.24;
