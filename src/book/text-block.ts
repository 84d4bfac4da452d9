import type { Anchor, Role, Spot, TextShape, Weight } from './drawing.ts';
import { ABOVE, ROW, textWidth } from './text-width.ts';

export interface TextStyle {
  readonly size: number;
  readonly weight?: Weight;
  readonly role?: Role;
  readonly anchor?: Anchor;
  readonly halo?: Role;
}

/** One row of text. */
export const row = (at: Spot, text: string, style: TextStyle): TextShape => ({
  kind: 'text',
  at,
  text,
  size: style.size,
  weight: style.weight ?? 'regular',
  anchor: style.anchor ?? 'start',
  role: style.role ?? 'ink',
  ...(style.halo === undefined ? {} : { halo: style.halo }),
});

/** The text with its control signs as spaces: a drawing has no tabs or ends of line. */
const plain = (text: string): string => text.replace(/[\p{Cc}\p{Zl}\p{Zp}\s]+/gu, ' ').trim();

/** What a number is not parted from: a unit, a fraction of an inch, the rest of a sum, the mark of a note. */
const STAYS =
  /^(?:%|[µmc]?m|in|ft|°[CF]?|deg|bar|k?Pa|psi|m?L(?:\/min)?|US|N(?:m|\/mm)?|k?N|lbf|k?g|k?W|min|s|h|rpm|\d+\/\d+\S*)[.,;:)]*$/u;
/** The second word of a unit of two. */
const SECOND = /^(?:gal(?:\/min)?|qt|ft|in)[.,;:)]*$/u;

/** The words of a text, each with what it is not parted from at the end of a row. */
function keptWords(text: string): string[] {
  const kept: string[] = [];
  for (const word of text.split(' ')) {
    const before = kept.at(-1);
    const isKept =
      before !== undefined &&
      (word === '†' ||
        (/\d$/u.test(before) && STAYS.test(word)) ||
        (/\d (?:US|lbf)$/u.test(before) && SECOND.test(word)));
    if (isKept) kept.splice(-1, 1, `${before} ${word}`);
    else kept.push(word);
  }
  return kept;
}

/** The text broken into rows that are no wider than `width`, no unit parted from its number; a word that is wider by itself is broken. */
export function brokenText(text: string, width: number, size: number, weight: Weight = 'regular'): string[] {
  const rows: string[] = [];
  let current = '';
  const words = keptWords(plain(text)).flatMap((kept) =>
    textWidth(kept, size, weight) <= width ? [kept] : kept.split(' '),
  );
  for (const word of words) {
    const longer = current === '' ? word : `${current} ${word}`;
    if (textWidth(longer, size, weight) <= width) {
      current = longer;
      continue;
    }
    if (current !== '') rows.push(current);
    const pieces = brokenWord(word, width, size, weight);
    rows.push(...pieces.slice(0, -1));
    current = pieces.at(-1) ?? '';
  }
  if (current !== '') rows.push(current);
  return rows;
}

function brokenWord(word: string, width: number, size: number, weight: Weight): string[] {
  const pieces: string[] = [];
  let current = '';
  for (const letter of word) {
    if (current !== '' && textWidth(current + letter, size, weight) > width) {
      pieces.push(current);
      current = '';
    }
    current += letter;
  }
  return [...pieces, current];
}

const CUT = '…';

/** The text, cut with an ellipsis where it is wider than `width`. */
export function cutText(text: string, width: number, size: number, weight: Weight = 'regular'): string {
  const whole = plain(text);
  if (textWidth(whole, size, weight) <= width) return whole;
  const letters = [...whole];
  while (letters.length > 0 && textWidth(letters.join('').trimEnd() + CUT, size, weight) > width) letters.pop();
  return `${letters.join('').trimEnd()}${CUT}`;
}

/** Rows broken to a width; what goes beyond `most` rows is cut with an ellipsis. */
export function fewRows(text: string, width: number, most: number, size: number, weight: Weight = 'regular'): string[] {
  const rows = brokenText(text, width, size, weight);
  if (rows.length <= most) return rows;
  const last = cutText(`${rows[most - 1]!} ${rows.slice(most).join(' ')}`, width, size, weight);
  return [...rows.slice(0, most - 1), last];
}

/** What a block of text takes, and the rows themselves. */
export interface Block {
  readonly shapes: readonly TextShape[];
  readonly height: number;
}

/** Rows one below the other; `at` is the top of the first, on the side that the anchor says. */
export function block(at: Spot, rows: readonly string[], style: TextStyle): Block {
  const shapes = rows.map((text, i) => row([at[0], at[1] + style.size * (ABOVE + i * ROW)], text, style));
  return { shapes, height: rows.length * style.size * ROW };
}

/** A row shrunk to a width is narrower than it by more than sums of letters miss. */
const ROUNDED_DOWN = 1 - 1e-9;

/** The size at which a row is no wider than `width`, at most `size` and at least `least`. */
export function shrunkSize(
  text: string,
  width: number,
  size: number,
  least: number,
  weight: Weight = 'regular',
): number {
  const wide = textWidth(text, size, weight);
  return wide <= width ? size : Math.max(least, ((size * width) / wide) * ROUNDED_DOWN);
}
