import type { Vec } from '#geometry';
import { formatInches, formatMm, formatNumber, inchText, type SpreadMm, spreadInches } from '#units';

/** How lengths are printed: whole millimetres; or, where inches are asked for, in inches. */
export interface Lengths {
  /** What places are in. */
  readonly unit: 'mm' | 'in';
  /** What is cut or marked: "655 mm" or "655 mm (25 13/16 in)". */
  readonly one: (mm: number) => string;
  /** A tolerance: "-5 to +15 mm". */
  readonly allowance: (range: readonly [number, number]) => string;
  /** "61 mm (52 to 70), wants 50" or "2.4 in (2.0 to 2.8), wants 2.0". */
  readonly gap: (gap: SpreadMm) => string;
  /** "1550, 210, 190", with the unit behind it where it is not mm. */
  readonly place: (at: Vec) => string;
  /** What is sold by the metre: "1.28 m" or "1.28 m (4.2 ft)". */
  readonly metres: (m: number, decimals?: number) => string;
  /** A spanner: "hex 22.2 mm" or "hex 22.2 mm (7/8 in)". */
  readonly hex: (mm: number) => string;
  /** A sentence that another room wrote in mm. */
  readonly text: (sentence: string) => string;
}

const MM_PER_FOOT = 304.8;

export const lengthsIn = (hasInches: boolean): Lengths => (hasInches ? inches : millimetres);

const signed = (mm: number, text: string): string => (mm > 0 ? `+${text}` : text);
const places = (at: Vec): string => at.map((x) => formatNumber(x)).join(', ');
const rangeMm = ([less, more]: readonly [number, number]): string =>
  `${signed(less, String(Math.round(less)))} to ${signed(more, String(Math.round(more)))} mm`;

const millimetres: Lengths = {
  unit: 'mm',
  one: (mm) => formatMm(mm),
  allowance: rangeMm,
  gap: ({ gapMm, worstMm, bestMm, keepOffMm }) =>
    `${formatMm(gapMm)} (${formatNumber(worstMm)} to ${formatNumber(bestMm)}), wants ${formatNumber(keepOffMm)}`,
  place: places,
  metres: (m, decimals = 2) => `${formatNumber(m, decimals)} m`,
  hex: (mm) => `hex ${formatNumber(mm, 1)} mm`,
  text: (sentence) => sentence,
};

const inches: Lengths = {
  unit: 'in',
  one: (mm) => `${formatMm(mm)} (${formatInches(mm)})`,
  allowance: (range) =>
    `${rangeMm(range)} (${signed(range[0], formatInches(range[0]))} to ${signed(range[1], formatInches(range[1]))})`,
  gap: spreadInches,
  place: (at) => `${at.map((x) => formatNumber(x / 25.4, 1)).join(', ')} in`,
  metres: (m, decimals = 2) => `${formatNumber(m, decimals)} m (${formatNumber((1000 * m) / MM_PER_FOOT, 1)} ft)`,
  hex: (mm) => `hex ${formatNumber(mm, 1)} mm (${formatInches(mm)})`,
  text: inchText,
};
