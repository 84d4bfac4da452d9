import { type Parsed, refused, understood } from './parsed.ts';

/** A number at the front of an input and what follows it. */
export interface NumberText {
  readonly value: number;
  /** As it stood, to be shown again in the ways it could be meant. */
  readonly digits: string;
  readonly rest: string;
}

/** More digits than this are no measurement. */
const mostDigits = 12;
/** Tape measures are divided by two again and again, never finer than 1/128 in. */
const tapeDenominators: readonly number[] = [2, 4, 8, 16, 32, 64, 128];

const mixed = /^(?<sign>[+-]?)(?<whole>\d+)(?:\s+|\s?-\s?)(?<top>\d+)\s?\/\s?(?<bottom>\d+)(?<rest>.*)$/su;
const dotted = /^(?<sign>[+-]?)(?<whole>\d+)[.,](?<top>\d+)\s?\/\s?(?<bottom>\d+)(?<rest>.*)$/su;
const fraction = /^(?<sign>[+-]?)(?<top>\d+)\s?\/\s?(?<bottom>\d+)(?<rest>.*)$/su;
const thousands = /^(?<sign>[+-]?)(?<whole>\d{1,3}),(?<part>\d{3})(?!\d|[.,])(?<rest>.*)$/su;
const decimal = /^(?<sign>[+-]?)(?<digits>\d+(?:[.,]\d*)?|[.,]\d+)(?<rest>.*)$/su;

/** Reads a decimal number, a fraction or a whole and fraction from the front of plain text. */
export function numberAtFront(text: string, input: string): Parsed<NumberText> {
  const twoWays = ambiguous(text, input);
  if (twoWays !== undefined) return twoWays;
  const m = mixed.exec(text)?.groups ?? fraction.exec(text)?.groups;
  if (m !== undefined) return fractionValue(m, input);
  const d = decimal.exec(text)?.groups;
  if (d === undefined) return refused(input, 'does not begin with a number');
  const digits = `${d['sign'] === '-' ? '-' : ''}${(d['digits'] ?? '').replace(',', '.')}`;
  if (digits.replaceAll(/\D/gu, '').length > mostDigits) return refused(input, `has more than ${mostDigits} digits`);
  const rest = d['rest'] ?? '';
  if (/^(?:e[+-]?\d|[.,]|\d)/iu.test(rest))
    return refused(input, 'is not a plain number; write it with digits and at most one decimal point');
  return understood({ value: Number(digits), digits, rest: rest.trim() });
}

/** What reads two ways: a whole and a fraction joined by a dot, and a comma that may part decimals or thousands. */
function ambiguous(text: string, input: string): Parsed<never> | undefined {
  const dot = dotted.exec(text)?.groups;
  if (dot !== undefined) {
    const [sign, whole, top, bottom] = [dot['sign'], dot['whole'], dot['top'], dot['bottom']];
    const unit = dot['rest']?.trim() || 'in';
    return refused(input, 'mixes a decimal point with a fraction', [
      `${sign}${whole} ${top}/${bottom} ${unit}`,
      `${sign}${whole}.${top} ${unit}`,
    ]);
  }
  const comma = thousands.exec(text)?.groups;
  if (comma !== undefined) {
    const unit = comma['rest'] ?? '';
    const [sign, whole, part] = [comma['sign'], comma['whole'], comma['part']];
    return refused(input, 'has a comma that may part decimals or thousands', [
      `${sign}${whole}.${part}${unit}`,
      `${sign}${whole}${part}${unit}`,
    ]);
  }
  return undefined;
}

function fractionValue(groups: Readonly<Record<string, string>>, input: string): Parsed<NumberText> {
  const [whole, top, bottom] = [Number(groups['whole'] ?? 0), Number(groups['top']), Number(groups['bottom'])];
  const all = `${groups['whole'] ?? ''}${groups['top']}${groups['bottom']}`;
  if (all.length > mostDigits) return refused(input, `has more than ${mostDigits} digits`);
  if (!tapeDenominators.includes(bottom))
    return refused(input, `has a fraction over ${bottom}; over ${tapeDenominators.join(', ')} is allowed`);
  if (top >= bottom && groups['whole'] !== undefined) {
    return refused(input, `has a whole and a fraction of one or more (${top}/${bottom})`, [
      `${whole} and a smaller fraction`,
    ]);
  }
  const rest = groups['rest'] ?? '';
  if (/^\s*[\d./]/u.test(rest)) return refused(input, 'has something after the fraction that is no unit');
  const sign = groups['sign'] === '-' ? -1 : 1;
  const digits = `${sign < 0 ? '-' : ''}${groups['whole'] === undefined ? '' : `${whole} `}${top}/${bottom}`;
  return understood({ value: sign * (whole + top / bottom), digits, rest: rest.trim() });
}
