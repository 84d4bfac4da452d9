import { mmPerInch } from './convert.ts';

/** What stands where a value is not a finite number. */
export const notKnown = 'not known';

/** A number with a fixed count of decimals, without a minus before zero. */
export function formatNumber(value: number, decimals = 0): string {
  if (!Number.isFinite(value)) return notKnown;
  const text = value.toFixed(decimals);
  return /^-0(?:\.0*)?$/u.test(text) ? text.slice(1) : text;
}

const withUnit = (value: number, decimals: number, unit: string): string =>
  Number.isFinite(value) ? `${formatNumber(value, decimals)} ${unit}` : notKnown;

/** "123 mm"; whole millimetres unless asked for more, since a tape gives no more. */
export const formatMm = (mm: number, decimals = 0): string => withUnit(mm, decimals, 'mm');
export const formatBar = (bar: number, decimals = 1): string => withUnit(bar, decimals, 'bar');
export const formatC = (celsius: number, decimals = 0): string => withUnit(celsius, decimals, 'degC');
export const formatLMin = (lMin: number, decimals = 1): string => withUnit(lMin, decimals, 'L/min');
export const formatNm = (nm: number, decimals = 1): string => withUnit(nm, decimals, 'Nm');
export const formatDeg = (deg: number, decimals = 0): string => withUnit(deg, decimals, 'deg');
export const formatKg = (kg: number, decimals = 1): string => withUnit(kg, decimals, 'kg');
export const formatDash = (dash: number): string => `-${dash}`;

/** Inches to the nearest 1/16 or 1/32, as a tape shows them: "1 1/16 in", "-3/4 in", "0 in". */
export function formatInches(mm: number, denominator: 16 | 32 = 16): string {
  if (!Number.isFinite(mm)) return notKnown;
  const parts = Math.round((Math.abs(mm) / mmPerInch) * denominator);
  if (parts === 0) return '0 in';
  const whole = Math.floor(parts / denominator);
  let [top, bottom] = [parts % denominator, denominator as number];
  while (top !== 0 && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  const words = [whole === 0 ? '' : String(whole), top === 0 ? '' : `${top}/${bottom}`].filter((w) => w !== '');
  return `${mm < 0 ? '-' : ''}${words.join(' ')} in`;
}
