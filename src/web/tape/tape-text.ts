import { formatMm, formatNumber, mmPerInch, type Parsed, parseLengthMm } from '#units';

/** The unit that a number without one is read in; null: it is asked about. */
export type TapeUnit = 'mm' | 'cm' | 'in' | null;

/** A bare number in the remembered unit is asked about when it comes out longer than a car [mm]. */
const LONGEST_BARE_MM = 6000;

const isBare = (text: string): boolean => /^[+-]?\s?[\d.,\s]+$/u.test(text);

const isFraction = (text: string): boolean => /^[+-]?\s?(?:\d+[\s-])?\d+\/\d+$/u.test(text);

/**
 * What was read off the tape, in millimetres. A number without a unit is read in the unit used last, as long as that gives a length that a
 * car has, a fraction where that is the inch; nought needs no unit.
 */
export function tapeMm(text: string, unit: TapeUnit): Parsed<number> {
  const plain = text.replaceAll(/[\u2212\u2010-\u2015]/gu, '-').trim();
  if (plain === '') return { ok: false, fault: 'is empty; a distance such as 600 mm or 23 5/8 in is wanted', ways: [] };
  if (/^[+-]?0+([.,]0*)?$/u.test(plain)) return { ok: true, value: 0 };
  // Only inches are read in fractions.
  if (unit === 'in' && isFraction(plain)) return parseLengthMm(`${plain} in`);
  if (!isBare(plain)) return parseLengthMm(plain);
  if (unit !== null) {
    const read = parseLengthMm(`${plain} ${unit}`);
    if (!read.ok || Math.abs(read.value) <= LONGEST_BARE_MM) return read;
  }
  return parseLengthMm(plain);
}

/** The unit that was written, to be the one of the next bare number; undefined where none was. */
export function unitWritten(text: string): NonNullable<TapeUnit> | undefined {
  const unit = /(?<unit>mm|cm|inches|inch|in\.?|")\s*$/iu.exec(text.trim())?.groups?.['unit']?.toLowerCase();
  if (unit === undefined) return undefined;
  return unit === 'mm' || unit === 'cm' ? unit : 'in';
}

/** What stands under a field: the length in the unit that is worked in, where the text does not say so itself. */
export function readAs(text: string, mm: number, unit: TapeUnit = 'mm'): string {
  if (unit === 'in') {
    const inches = `${Number(formatNumber(mm / mmPerInch, 3))} in`;
    return mm === 0 || text.trim() === inches ? '' : `= ${inches}`;
  }
  const isWhole = Math.abs(mm - Math.round(mm)) < 0.05;
  const words = isWhole ? formatMm(mm) : formatMm(mm, 1);
  if (mm === 0) return '';
  return text.trim() === `${formatNumber(mm, isWhole ? 0 : 1)} mm` ? '' : `= ${words}`;
}
