/** Longest input that is read at all; anything longer is no measurement. */
export const longestInput = 80;

const vulgar = /[\u00BC-\u00BE\u2150-\u215E\u2189]/gu;

/**
 * The input with one kind of each sign: plain quotes for inches and feet, a plain minus, a plain degree sign, one space between words,
 * vulgar fractions spelt out. "1\u00BD" must become "1 1/2", not "11/2", so the space goes in before the fraction is spelt out.
 */
export function plainText(input: string): string {
  return input
    .slice(0, longestInput + 1)
    .replaceAll(/[\u00BA\u02DA\u2070]/gu, '\u00B0')
    .replaceAll(vulgar, (c) => ` ${c}`)
    .replaceAll(/[\u2033\u201C\u201D\u201F\uFF02]/gu, '"')
    .replaceAll(/[\u2032\u2018\u2019\u02B9\uFF07]/gu, "'")
    .replaceAll(/''/gu, '"')
    .normalize('NFKC')
    .replaceAll(/[\u2212\u2010-\u2015]/gu, '-')
    .replaceAll('\u2044', '/')
    .replaceAll(/[\u00B7\u22C5\u2219]/gu, ' ')
    .replaceAll(/\s+/gu, ' ')
    .trim();
}
