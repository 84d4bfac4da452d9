import { mmPerInch } from './convert.ts';
import { type NumberText, numberAtFront } from './number-text.ts';
import { type Parsed, refused, understood } from './parsed.ts';
import { longestInput, plainText } from './trade-text.ts';

/** What stands in a length or size field: a length, or a dash size ("-12"). */
export type TradeLength =
  | { readonly kind: 'length'; readonly mm: number }
  | { readonly kind: 'dash'; readonly dash: number };

const inchesPerFoot = 12;
const mmPer: Readonly<Record<string, number>> = {
  mm: 1,
  millimetre: 1,
  millimetres: 1,
  millimeter: 1,
  millimeters: 1,
  cm: 10,
  m: 1000,
  metre: 1000,
  metres: 1000,
  meter: 1000,
  meters: 1000,
  in: mmPerInch,
  'in.': mmPerInch,
  inch: mmPerInch,
  inches: mmPerInch,
  '"': mmPerInch,
  thou: mmPerInch / 1000,
  ft: mmPerInch * inchesPerFoot,
  foot: mmPerInch * inchesPerFoot,
  feet: mmPerInch * inchesPerFoot,
  "'": mmPerInch * inchesPerFoot,
};

/** Longer than any car with its trailer [mm]. */
const mostMm = 100_000;
const smallestDash = 2;
const largestDash = 32;

const dashText = /^(?:(?:an|dash|size)?\s?-|(?:an|dash|size)\s?|#)(?<dash>\d{1,2})(?:\s?an)?$/iu;
const metresAndMore = /^(?<metres>[+-]?\d+)\s?m\s?(?<more>\d+)$/iu;
const feetAndInches = /^(?<feet>[+-]?\d+)\s?(?:'|ft|foot|feet)\s?-?\s?(?<inches>\d.*)$/iu;

/** Reads `3/4 in`, `1 1/16"`, `19mm`, `0.75in`, `1' 2"`, `1 m 20` as a length and `-12` as a dash size; a bare number is refused with the ways it could be meant. */
export function parseLength(input: string): Parsed<TradeLength> {
  const text = plainText(input);
  if (text === '')
    return refused(input, 'is empty; a length such as 19 mm, 3/4 in, or a dash size such as -12 is wanted');
  if (text.length > longestInput)
    return refused(input, `is longer than ${longestInput} signs; a length such as 19 mm is wanted`);
  const dash = dashText.exec(text)?.groups?.['dash'];
  if (dash !== undefined) return dashSize(Number(dash), input);
  const feet = feetAndInches.exec(text)?.groups;
  if (feet !== undefined)
    return footLength(Number(feet['feet']), feet['feet']?.startsWith('-') === true, feet['inches'] ?? '', input);
  const metres = metresAndMore.exec(text)?.groups;
  if (metres !== undefined) return metreLength(metres['metres'] ?? '', metres['more'] ?? '', input);
  const number = numberAtFront(text, input);
  if (!number.ok) return number;
  const unit = number.value.rest.toLowerCase();
  if (unit === '') return bare(number.value, input);
  const factor = Object.hasOwn(mmPer, unit) ? mmPer[unit] : undefined;
  if (factor === undefined)
    return refused(
      input,
      `has no length unit that is known ("${number.value.rest.slice(0, 12)}"); mm, cm, m, in, ft, thou are allowed`,
    );
  return length(number.value.value * factor, input);
}

/** As `parseLength`, for a field that takes no dash size; gives millimetres. */
export function parseLengthMm(input: string): Parsed<number> {
  const read = parseLength(input);
  if (!read.ok) return read;
  if (read.value.kind === 'length') return understood(read.value.mm);
  const { dash } = read.value;
  return refused(input, 'is a dash size where a length is wanted', [`-${dash} mm`, `-${dash} in`]);
}

function dashSize(dash: number, input: string): Parsed<TradeLength> {
  if (dash < smallestDash || dash > largestDash) {
    return refused(input, `is no dash size (-${smallestDash} to -${largestDash})`, [`-${dash} mm`, `-${dash} in`]);
  }
  return understood({ kind: 'dash', dash });
}

function footLength(feet: number, negative: boolean, inchText: string, input: string): Parsed<TradeLength> {
  const inches = numberAtFront(inchText, input);
  if (!inches.ok) return inches;
  const unit = inches.value.rest.toLowerCase();
  if (unit !== '' && mmPer[unit] !== mmPerInch)
    return refused(input, 'has feet followed by something other than inches');
  if (inches.value.value >= inchesPerFoot)
    return refused(input, `has ${inches.value.digits} inches after the feet; less than ${inchesPerFoot} is allowed`);
  const total = Math.abs(feet) * inchesPerFoot + inches.value.value;
  return length((negative ? -1 : 1) * total * mmPerInch, input);
}

/** "1 m 20" is 1.20 m and "1 m 205" is 1.205 m, as it is said; "1 m 5" may be 1.5 m or 1.05 m. */
function metreLength(metres: string, more: string, input: string): Parsed<TradeLength> {
  if (more.length > 3) return refused(input, 'has more than three digits after the metres');
  if (more.length === 1) return refused(input, 'reads two ways', [`${metres}.${more} m`, `${metres}.0${more} m`]);
  return length(Number(`${metres}.${more}`) * mmPer['m']!, input);
}

function bare(number: NumberText, input: string): Parsed<TradeLength> {
  const { digits, value } = number;
  const ways = digits.includes('/') ? [`${digits} in`] : [`${digits} mm`, `${digits} in`];
  const mayBeDash = Number.isInteger(value) && value >= smallestDash && value <= largestDash && !digits.includes('/');
  return refused(input, 'has no unit', mayBeDash ? [...ways, `-${value} (dash size)`] : ways);
}

function length(mm: number, input: string): Parsed<TradeLength> {
  if (Math.abs(mm) > mostMm) return refused(input, `is beyond ${mostMm / 1000} m`);
  return understood({ kind: 'length', mm: mm === 0 ? 0 : mm });
}
