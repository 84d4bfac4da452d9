import { inOtherUnits } from './in-other-units.ts';
import { formatNumber } from './format.ts';

const PSI_PER_BAR = 14.503774;
const GALLON_L = 3.785411784;
/** 1 m3/s is 2118.88 ft3/min. */
const CFM_PER_L_S = 2.11888;
const QUART_L = GALLON_L / 4;
const OUNCE_ML = 29.5735296;
const FEET_PER_M = 1 / 0.3048;
const POUNDS_PER_N = 1 / 4.4482216;
/** Less than this is told in ounces. */
const LEAST_QUART_ML = 250;

/** As many decimals as tell one number of the trade from the next. */
function told(value: number, more: number): string {
  const size = Math.abs(value);
  const text = formatNumber(value, (size < 1 ? 2 : size < 20 ? 1 : 0) + more);
  return /^-0(\.0*)?$/u.test(text) ? text.slice(1) : text;
}

type Turned = readonly [of: (value: number) => number, unit: string];

const units: Readonly<Record<string, Turned>> = {
  bar: [(x) => x * PSI_PER_BAR, 'psi'],
  mbar: [(x) => (x * PSI_PER_BAR) / 1000, 'psi'],
  kPa: [(x) => (x * PSI_PER_BAR) / 100, 'psi'],
  'L/min': [(x) => x / GALLON_L, 'gal/min'],
  // Air, as the openings of a bay are told.
  'L/s': [(x) => x * CFM_PER_L_S, 'cfm'],
  L: [(x) => x / QUART_L, 'qt'],
  'm/s': [(x) => x * FEET_PER_M, 'ft/s'],
  cm2: [(x) => x / 6.4516, 'in2'],
  'm²': [(x) => x * FEET_PER_M ** 2, 'ft²'],
  MPa: [(x) => x * PSI_PER_BAR * 10, 'psi'],
  N: [(x) => x * POUNDS_PER_N, 'lbf'],
  // A difference: how far off, over or under.
  K: [(x) => x * 1.8, '°F'],
  'N m': [(x) => x * POUNDS_PER_N * FEET_PER_M, 'lbf ft'],
};

const NUMBER = String.raw`(?<![\w.-])[-+]?\d+(?:\.\d+)?`;
const QUANTITY = new RegExp(
  String.raw`(?<first>${NUMBER})(?:(?<between> (?:to|of|→|and|or) )(?<second>${NUMBER}))? (?<unit>L\/min|L\/s|mbar|bar|kPa|MPa|N m|N(?! m)|K|m\/s|m²|cm2|L|ml|mL|°C|m)(?![\w/²])`,
  'gu',
);

/**
 * A sentence about what flows in US units: psi, gal/min, ft/s, quarts with litres in brackets, °C with °F in brackets, differences in °F. Lengths in millimetres are
 * for `inchText`. Two figures that differ are told apart: where they would read alike, all have a digit more.
 *
 * @param names - that the builder gave, which stay as they are
 */
export const usText = (sentence: string, names: readonly string[] = []): string =>
  inOtherUnits(sentence, names, turned);

function turned(sentence: string, more: number, note: (was: string, shown: string) => void): string {
  return sentence.replace(QUANTITY, (_, ...rest) => {
    const { first, between, second, unit } = rest.at(-1) as Readonly<Record<string, string>>;
    const both = (text: (value: number) => string, name: string): string => {
      const one = (was: string): string => {
        const shown = signed(was, text(Number(was)));
        note(`${Number(was)} ${unit}`, `${shown} ${name}`);
        return shown;
      };
      return second === undefined ? one(first!) : `${one(first!)}${between}${one(second)}`;
    };
    const asIs = second === undefined ? first! : `${first}${between}${second}`;
    if (unit === '°C') return `${asIs} °C (${both((c) => formatNumber(c * 1.8 + 32, 0), '°F')} °F)`;
    if (unit === 'm') return `${both((m) => told(m * FEET_PER_M, more), 'ft')} ft`;
    if (unit === 'ml' || unit === 'mL') {
      const isSmall = Number(first) < LEAST_QUART_ML;
      const name = isSmall ? 'fl oz' : 'qt';
      const text = both((ml) => told(ml / (isSmall ? OUNCE_ML : 1000 * QUART_L), more), name);
      return `${text} ${name} (${asIs} mL)`;
    }
    const [of, name] = units[unit!]!;
    const text = both((value) => (unit === 'K' ? wholeOr(of(value), more) : told(of(value), more)), name);
    return unit === 'L' ? `${text} ${name} (${asIs} L)` : `${text} ${name}`;
  });
}

/** Degrees of a difference: whole ones unless it is less than one. */
const wholeOr = (degrees: number, more: number): string =>
  formatNumber(degrees, (Math.abs(degrees) < 1 ? 1 : 0) + more);

const signed = (was: string, shown: string): string =>
  was.startsWith('+') && !shown.startsWith('-') ? `+${shown}` : shown;
