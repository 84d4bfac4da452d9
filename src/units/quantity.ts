import { numberAtFront } from './number-text.ts';
import { type Parsed, refused, understood } from './parsed.ts';
import { longestInput, plainText } from './trade-text.ts';

/** How one kind of quantity is written: its units with what they are worth, and the words that read two ways. */
export interface QuantityWords {
  /** "a pressure", as it stands in a refusal. */
  readonly what: string;
  /** An example that would be accepted. */
  readonly example: string;
  /** Unit in lower case, without spaces, dots or hyphens -> worth in the unit of the result. */
  readonly worth: Readonly<Record<string, number>>;
  /** Unit word -> the units it could mean. The empty word is a bare number. */
  readonly twoWays: Readonly<Record<string, readonly string[]>>;
  /** Least and most that can stand on a car, in the unit of the result, and how to say so. */
  readonly within: readonly [min: number, max: number];
  readonly withinText: string;
  /** Added after the factor (temperature scales only). */
  readonly offset?: Readonly<Record<string, number>>;
}

/** The unit as it is looked up: "N m", "N-m" and "Nm" are one word. */
export const unitWord = (text: string): string =>
  text
    .toLowerCase()
    .replaceAll(/[\s.*\u00B0-]/gu, '')
    .replaceAll('^', '');

/** Reads a number and a unit; gives the value and the unit's word. */
export function parseQuantity(
  input: string,
  words: QuantityWords,
): Parsed<{ readonly value: number; readonly unit: string }> {
  const text = plainText(input);
  if (text === '') return refused(input, `is empty; ${words.what} such as ${words.example} is wanted`);
  if (text.length > longestInput)
    return refused(input, `is longer than ${longestInput} signs; ${words.what} such as ${words.example} is wanted`);
  const number = numberAtFront(text, input);
  if (!number.ok) return number;
  const { value: size, digits, rest } = number.value;
  const unit = unitWord(rest);
  if (Object.hasOwn(words.twoWays, unit)) {
    const ways = (words.twoWays[unit] ?? []).map((u) => `${digits} ${u}`);
    return refused(input, unit === '' ? 'has no unit' : `could mean ${ways.length} things`, ways);
  }
  const worth = Object.hasOwn(words.worth, unit) ? words.worth[unit] : undefined;
  if (worth === undefined)
    return refused(
      input,
      `has no unit that is known for ${words.what} ("${rest.slice(0, 12)}"); for example ${words.example}`,
    );
  const value = size * worth + (words.offset?.[unit] ?? 0);
  const [min, max] = words.within;
  if (value < min || value > max) return refused(input, `is not within ${words.withinText}`);
  return understood({ value: value === 0 ? 0 : value, unit });
}
