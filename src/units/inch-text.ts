import { mmPerInch } from './convert.ts';
import { formatInches, formatNumber } from './format.ts';

/** A gap with its spread and the least that is wanted [mm]. */
export interface SpreadMm {
  readonly gapMm: number;
  readonly worstMm: number;
  readonly bestMm: number;
  readonly keepOffMm: number;
}

/** A tenth of an inch is 2.5 mm: what is known better than half of that either way is given to a hundredth. */
const KNOWN_WELL_MM = mmPerInch / 20;
/** Below an inch a tenth says too little of a length without a spread [mm]. */
const SMALL_MM = mmPerInch;

const inches = (mm: number, decimals: number): string => formatNumber(mm / mmPerInch, decimals);

/** As many digits as the measuring allows; one more where a broken limit would read as one that is kept. */
function decimalsOf(mm: number, halfSpreadMm: number, limitMm?: number): number {
  const usual = halfSpreadMm < KNOWN_WELL_MM ? 2 : 1;
  if (limitMm === undefined || mm === limitMm || inches(mm, usual) !== inches(limitMm, usual)) return usual;
  return 2;
}

/** "2.4 in (2.0 to 2.8), wants 2.0". */
export function spreadInches({ gapMm, worstMm, bestMm, keepOffMm }: SpreadMm): string {
  const n = decimalsOf(gapMm, (bestMm - worstMm) / 2, keepOffMm);
  return `${inches(gapMm, n)} in (${inches(worstMm, n)} to ${inches(bestMm, n)}), wants ${inches(keepOffMm, n)}`;
}

const NUMBER = String.raw`[-+]?\d+(?:\.\d+)?`;
const LENGTH = new RegExp(
  [
    // A cut, from one length to another.
    String.raw`(?<was>${NUMBER}) → (?<is>${NUMBER}) mm\b`,
    // A spanner is asked for by the size stamped on it, metric ones in millimetres.
    String.raw`(?<=\b(?:open-end|ring|ratchet|crow-foot|hex-key|socket) )(?<stamped>${NUMBER} mm)\b`,
    // Sizes by which tube is sold stay as they are called.
    String.raw`(?<size>${NUMBER} x ${NUMBER} mm)\b`,
    // How thick a sheet is: by that it is bought, in thousandths of an inch.
    String.raw`(?<sheet>${NUMBER}) mm(?= sheet\b)|(?<=\bsheet of )(?<sheetOf>${NUMBER}) mm\b`,
    // From one length to another.
    String.raw`(?<![\w.-])(?<low>${NUMBER}) to (?<high>${NUMBER}) mm\b`,
    // A length with its spread, or without.
    String.raw`(?<![\w.-])(?<one>${NUMBER}) mm\b(?: \((?<less>${NUMBER}) to (?<more>${NUMBER})\))?`,
    String.raw`(?<![\w.-])\((?<from>${NUMBER}) to (?<to>${NUMBER})\)(?= is wanted)`,
    // The worst alone.
    String.raw`\((?<only>${NUMBER}) at worst\)`,
    // A limit that speaks of the length before it.
    String.raw`(?<![\w.-])(?<said>${NUMBER}(?: to ${NUMBER})?)(?= (?:are wanted|is usual)\b)`,
    // A limit behind its verb, where the unit goes without saying.
    String.raw`(?<verb>\b(?:wants?|allows|cut to|instead of|lines want) )(?<limit>${NUMBER})(?![\d.]*\d)(?=$|[.,;:)]| also\b| clear\b)`,
    String.raw`(?<![\w.-])(?<marks>(?:${NUMBER}, )+${NUMBER}) mm\b`,
    // A place on the car, where the unit goes without saying.
    String.raw`(?<=\b(?:from|to|at) )(?<place>${NUMBER}, ${NUMBER}, ${NUMBER})(?![\d.]*\d| mm\b|, ${NUMBER})`,
  ].join('|'),
  'gu',
);

/**
 * A sentence that speaks in millimetres, in inches. Settings as they are written in the car file ("keepOffMm": 30), sizes of tube and
 * names of parts stay as they are.
 */
export function inchText(sentence: string): string {
  const known = halfSpreadIn(sentence);
  const [first, limit] = [firstLength(sentence), firstLimit(sentence)];
  const decimals = (mm: number): number => {
    if (known !== undefined && first !== undefined) return decimalsOf(first, known, limit);
    return Math.abs(mm) < SMALL_MM ? 2 : 1;
  };
  return sentence.replace(LENGTH, (all, ...rest) => {
    const found = rest.at(-1) as Readonly<Record<string, string | undefined>>;
    const before = sentence.slice(0, rest.at(-3) as number);
    const {
      was,
      is,
      stamped,
      size,
      sheet,
      sheetOf,
      one,
      less,
      more,
      from,
      to,
      verb,
      limit: bare,
      marks,
      place,
      low,
      high,
      only,
      said,
    } = found;
    if (size !== undefined || stamped !== undefined) return all;
    const thick = sheet ?? sheetOf;
    if (thick !== undefined) return `${inches(Number(thick), 3)} in`;
    if (was !== undefined && is !== undefined)
      return `${formatInches(Number(was)).replace(/ in$/u, '')} → ${formatInches(Number(is))}`;
    const as = (text: string): string => inches(Number(text), decimals(Number(text)));
    if (place !== undefined)
      return `${place
        .split(', ')
        .map((text) => inches(Number(text), 1))
        .join(', ')} in`;
    if (low !== undefined && high !== undefined) return `${as(low)} to ${as(high)} in`;
    if (only !== undefined) return `(${as(only)} at worst)`;
    if (said !== undefined) return / mm\b/u.test(before) ? said.split(' to ').map(as).join(' to ') : all;
    if (marks !== undefined) return `${marks.split(', ').map(as).join(', ')} in`;
    if (verb !== undefined && bare !== undefined) return verb + as(bare);
    if (from !== undefined && to !== undefined) return `(${as(from)} to ${signed(to, as(to))})`;
    const spread = less === undefined || more === undefined ? '' : ` (${as(less)} to ${signed(more, as(more))})`;
    return `${as(one!)} in${spread}`;
  });
}

const signed = (text: string, shown: string): string => (text.startsWith('+') ? `+${shown}` : shown);

const SPREAD = new RegExp(String.raw`mm \((${NUMBER}) to (${NUMBER})\)`, 'u');
function halfSpreadIn(sentence: string): number | undefined {
  const found = SPREAD.exec(sentence);
  return found === null ? undefined : (Number(found[2]) - Number(found[1])) / 2;
}

const numberIn = (sentence: string, shape: string): number | undefined => {
  const found = new RegExp(shape, 'u').exec(sentence)?.[1];
  return found === undefined ? undefined : Number(found);
};
const firstLength = (sentence: string): number | undefined => numberIn(sentence, String.raw`(${NUMBER}) mm\b`);
const firstLimit = (sentence: string): number | undefined => numberIn(sentence, String.raw`wants? (${NUMBER})`);
