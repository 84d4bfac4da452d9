import { spannerSize } from './spanner-size.ts';
import { mmPerInch } from './convert.ts';
import { formatInches, formatMm, formatNumber } from './format.ts';
import { inchText, type SpreadMm, spreadInches } from './inch-text.ts';

/** How lengths are said to the builder: in millimetres, or in inches alone, as fractions where a tape is read and as decimals where not. */
export interface Lengths {
  /** What places are in. */
  readonly unit: 'mm' | 'in';
  /** What is cut or marked with a tape: "655 mm" or "25 13/16 in". */
  readonly one: (mm: number) => string;
  /** A bore, a wall, a radius: "34.8 mm" or "1.37 in"; a thousandth of an inch below a tenth. */
  readonly fine: (mm: number) => string;
  /** A tolerance: "-5 to +15 mm" or "-3/16 to +9/16 in". */
  readonly allowance: (range: readonly [number, number]) => string;
  /** A gap alone: "36 mm", "1.4 in". */
  readonly gapNumber: (mm: number) => string;
  /** "61 mm (52 to 70), wants 50" or "2.4 in (2.0 to 2.8), wants 2.0". */
  readonly gap: (gap: SpreadMm) => string;
  /** "1550, 210, 190", with the unit behind it where it is not mm. */
  readonly place: (at: readonly number[]) => string;
  /** "1550, 210, 190 mm", "61.0, 8.3, 7.5 in". */
  readonly spot: (at: readonly number[]) => string;
  /** What is sold by the metre or the foot: "1.28 m" or "4.2 ft", never less than is needed. */
  readonly metres: (m: number, decimals?: number) => string;
  /** A spanner by its own size, whatever units are worked in: "hex 7/8 in", "hex 10 mm". */
  readonly hex: (mm: number) => string;
  /** A sentence that another room wrote in mm. */
  readonly text: (sentence: string) => string;
  /** The name that a part is bought by, with its sizes in inches beside those in mm: "57 mm (2.24 in) silicone elbow". */
  readonly soldAs: (name: string) => string;
  /** What is cut, in a row that another room wrote ("O12 piece 1, 565 mm"). */
  readonly cutText: (row: string) => string;
}

const MM_PER_FOOT = 12 * mmPerInch;
/** Below this a hundredth of an inch says too little [in]. */
const THIN_IN = 0.1;

export const lengthsIn = (hasInches: boolean): Lengths => (hasInches ? inches : millimetres);

const signed = (mm: number, text: string): string => (mm > 0 ? `+${text}` : text);

const placeMm = (at: readonly number[]): string => at.map((x) => formatNumber(x)).join(', ');
const placeIn = (at: readonly number[]): string => `${at.map((x) => formatNumber(x / mmPerInch, 1)).join(', ')} in`;

const millimetres: Lengths = {
  unit: 'mm',
  one: (mm) => formatMm(mm),
  fine: (mm) => formatMm(mm, Number.isInteger(mm) ? 0 : 1),
  allowance: ([less, more]) =>
    `${signed(less, String(Math.round(less)))} to ${signed(more, String(Math.round(more)))} mm`,
  gap: ({ gapMm, worstMm, bestMm, keepOffMm }) =>
    `${formatMm(gapMm)} (${formatNumber(worstMm)} to ${formatNumber(bestMm)}), wants ${formatNumber(keepOffMm)}`,
  gapNumber: (mm) => formatMm(mm),
  place: placeMm,
  spot: (at) => `${placeMm(at)} mm`,
  metres: (m, decimals = 2) => `${formatNumber(m, decimals)} m`,
  hex: (mm) => `hex ${spannerSize(mm)}`,
  text: (sentence) => sentence,
  soldAs: (name) => name,
  cutText: (row) => row,
};

const bare = (mm: number): string => formatInches(mm).replace(/ in$/u, '');

/** "57 mm", "32 to 50 mm", "38 x 1.6 mm". */
const SOLD_SIZE = /\d+(?:\.\d+)?(?: (?:to|x|×) \d+(?:\.\d+)?)? mm\b/gu;
/** A wall in thousandths, as tube is sold; anything else in hundredths. */
const inchSize = (size: string): string =>
  size.replace(/ mm$/u, '').replaceAll(/\d+(?:\.\d+)?/gu, (mm) => {
    const value = Number(mm) / mmPerInch;
    return formatNumber(value, value < THIN_IN ? 3 : 2);
  });

const inches: Lengths = {
  unit: 'in',
  one: (mm) => formatInches(mm),
  fine: (mm) => {
    const value = mm / mmPerInch;
    return `${formatNumber(value, Math.abs(value) < THIN_IN ? 3 : 2)} in`;
  },
  allowance: ([less, more]) => `${signed(less, bare(less))} to ${signed(more, bare(more))} in`,
  gap: spreadInches,
  gapNumber: (mm) => `${formatNumber(mm / mmPerInch, 1)} in`,
  place: placeIn,
  spot: placeIn,
  metres: (m) => `${formatNumber(Math.ceil((m * 10_000) / MM_PER_FOOT - 1e-6) / 10, 1)} ft`,
  hex: (mm) => `hex ${spannerSize(mm)}`,
  text: inchText,
  soldAs: (name) => name.replaceAll(SOLD_SIZE, (size) => `${size} (${inchSize(size)} in)`),
  cutText: (row) => row.replaceAll(/(\d+(?:\.\d+)?) mm\b/gu, (_, mm: string) => formatInches(Number(mm))),
};
