import { fahrenheitFromC, formatNumber, litresPerUsGallon, mmPerInch, psiFromBar, inOtherUnits } from '#units';
import type { FlowUnits } from './flow-words.ts';

/** A unit that sentences about flow speak in, and what it is where the builder works in inches. */
interface UsUnit {
  readonly unit: string;
  readonly of: (value: number) => number;
  /** Decimals of a value of that size. */
  readonly decimals: (size: number) => number;
}

const finer = (size: number): number => (size >= 100 ? 0 : size >= 1 ? 1 : 2);
const ML_PER_FLUID_OUNCE = (litresPerUsGallon * 1000) / 128;
const MM_PER_FOOT = 12 * mmPerInch;
/** Less than this is told to a hundredth [in]. */
const SMALL_IN = 1;
/** A bubble. */
const TINY_IN = 0.1;

const usUnits: Readonly<Record<string, UsUnit>> = {
  bar: { unit: 'psi', of: psiFromBar, decimals: finer },
  mbar: { unit: 'psi', of: (mbar) => psiFromBar(mbar / 1000), decimals: (size) => (size < 1 ? 3 : finer(size)) },
  kPa: { unit: 'psi', of: (kpa) => psiFromBar(kpa / 100), decimals: finer },
  'L/min': { unit: 'US gal/min', of: (value) => value / litresPerUsGallon, decimals: finer },
  'L/h': { unit: 'US gal/h', of: (value) => value / litresPerUsGallon, decimals: finer },
  L: { unit: 'US gal', of: (value) => value / litresPerUsGallon, decimals: () => 2 },
  ml: { unit: 'fl oz', of: (value) => value / ML_PER_FLUID_OUNCE, decimals: (size) => (size >= 10 ? 0 : 1) },
  'm/s': { unit: 'ft/s', of: (value) => (value * 1000) / MM_PER_FOOT, decimals: (size) => (size >= 100 ? 0 : 1) },
  '°C': { unit: '°F', of: fahrenheitFromC, decimals: () => 0 },
  K: { unit: '°F', of: (value) => value * 1.8, decimals: (size) => (size >= 10 ? 0 : 1) },
  mm: {
    unit: 'in',
    of: (value) => value / mmPerInch,
    decimals: (size) => (size < TINY_IN ? 3 : size < SMALL_IN ? 2 : 1),
  },
  m: { unit: 'ft', of: (value) => (value * 1000) / MM_PER_FOOT, decimals: (size) => (size >= 100 ? 0 : 1) },
  'm²': { unit: 'ft²', of: (value) => value * (1000 / MM_PER_FOOT) ** 2, decimals: finer },
};
/** How a car file and a finding write a unit. */
const sameUnit: Readonly<Record<string, string>> = { degC: '°C', mL: 'ml' };

const NUMBER = String.raw`[-+−]?\d+(?:\.\d+)?`;
const UNIT = String.raw`(?:bar|mbar|kPa|L/min|L/h|L|ml|mL|m/s|°C|K|mm|m²|m)`;
/** A number without a unit that is in the one said last: a spread, a limit, what comes of what goes. */
const BARE = String.raw`(?<before>\(|; |, |below |above |gets |stands |lifts it |its water )(?<bare>${NUMBER})(?: to (?<upto>${NUMBER}))?(?!\.?\d)(?= (?:with the|as froth|oil gives|is (?:the most|usual|plenty)|comes\b|go back|at ${NUMBER} bar)|[;.)]|$)`;
const TOKENS = new RegExp(
  String.raw`(?<![\w.-])(?<one>${NUMBER})(?: (?<joint>of|to) (?<two>${NUMBER}))? (?<unit>${UNIT})(?![\w/²])|${BARE}`,
  'gu',
);
const read = (text: string): number => Number(text.replace('−', '-'));

function told(text: string, { of, decimals }: UsUnit, more: number): string {
  const value = of(read(text));
  const shown = formatNumber(value, decimals(Math.abs(value)) + more);
  return `${text.startsWith('+') ? '+' : ''}${shown}`;
}

/**
 * A sentence of the flow room in psi, US gallons, feet a second, °F and inches. Names that the builder gave ("Header tank, 1.3 bar cap")
 * stay as they are.
 *
 * @param names - of parts, lines and cases
 */
export const usFlowSentence = (sentence: string, names: readonly string[] = []): string =>
  inOtherUnits(sentence, names, turned);

function turned(sentence: string, more: number, note: (was: string, shown: string) => void): string {
  let last: UsUnit | undefined;
  const say = (text: string, us: UsUnit): string => {
    const shown = told(text, us, more);
    note(`${read(text)} ${us.unit}`, `${shown} ${us.unit}`);
    return shown;
  };
  return sentence.replace(TOKENS, (all: string, ...rest) => {
    const found = rest.at(-1) as Readonly<Record<string, string | undefined>>;
    const { one, joint, two, unit, before = '', bare, upto } = found;
    if (one !== undefined && unit !== undefined) {
      const us = usUnits[sameUnit[unit] ?? unit]!;
      last = us;
      return `${say(one, us)}${two === undefined ? '' : ` ${joint} ${say(two, us)}`} ${us.unit}`;
    }
    if (bare === undefined || last === undefined) return all;
    return `${before}${say(bare, last)}${upto === undefined ? '' : ` to ${say(upto, last)}`}`;
  });
}

/** A sentence of the flow room in the units that the builder works in. */
export const flowSentence = (sentence: string, units: FlowUnits, names: readonly string[] = []): string =>
  units === 'inch' ? usFlowSentence(sentence, names) : sentence;

/** A number of a finding with its unit, in the units that the builder works in: "−0.23 bar", "−3.3 psi". */
export function quantityWords(value: number, unit: string | undefined, units: FlowUnits, limit?: number): string {
  const own = sameUnit[unit ?? ''] ?? unit ?? '';
  const us = units === 'inch' ? usUnits[own] : undefined;
  const shown = us === undefined ? value : us.of(value);
  const size = Math.abs(shown);
  const decimals = us?.decimals(size) ?? (size < 10 ? 2 : 1);
  const plain = (number: number, more: number): string => formatNumber(number, decimals + more);
  const beside = limit === undefined ? undefined : us === undefined ? limit : us.of(limit);
  // A number beside its limit has as many digits as tell the two apart.
  const more =
    beside === undefined || beside === shown ? 0 : [0, 1, 2, 3].find((m) => plain(shown, m) !== plain(beside, m));
  const text = plain(shown, more ?? 0);
  return `${text.replace('-', '−')} ${us?.unit ?? own}`.trim();
}
