import { formatNumber } from './format.ts';

const PSI_PER_BAR = 14.503774;
const GALLON_L = 3.785411784;
const QUART_L = GALLON_L / 4;
const OUNCE_ML = 29.5735296;
const FEET_PER_M = 1 / 0.3048;
/** Less than this is told in ounces. */
const LEAST_QUART_ML = 250;

/** As many decimals as tell one number of the trade from the next. */
function told(value: number): string {
  const size = Math.abs(value);
  const text = formatNumber(value, size < 1 ? 2 : size < 20 ? 1 : 0);
  return /^-0(\.0*)?$/u.test(text) ? text.slice(1) : text;
}

type Turned = readonly [text: (value: number) => string, unit: string];

const units: Readonly<Record<string, Turned>> = {
  bar: [(x) => told(x * PSI_PER_BAR), 'psi'],
  mbar: [(x) => told((x * PSI_PER_BAR) / 1000), 'psi'],
  kPa: [(x) => told((x * PSI_PER_BAR) / 100), 'psi'],
  'L/min': [(x) => told(x / GALLON_L), 'gal/min'],
  L: [(x) => told(x / QUART_L), 'qt'],
  'm/s': [(x) => told(x * FEET_PER_M), 'ft/s'],
  cm2: [(x) => told(x / 6.4516), 'in2'],
  'm²': [(x) => told(x * FEET_PER_M ** 2), 'ft²'],
};

const NUMBER = String.raw`(?<![\w.-])[-+]?\d+(?:\.\d+)?`;
const QUANTITY = new RegExp(
  String.raw`(?<first>${NUMBER})(?:(?<between> (?:to|of|→|and|or) )(?<second>${NUMBER}))? (?<unit>L\/min|mbar|bar|kPa|m\/s|m²|cm2|L|ml|mL|°C|m)(?![\w/²])`,
  'gu',
);

/**
 * A sentence about what flows in US units: psi, gal/min, ft/s, quarts with litres in brackets, °C with °F in brackets. Lengths in millimetres are
 * for `inchText`.
 */
export function usText(sentence: string): string {
  return sentence.replace(QUANTITY, (_, ...rest) => {
    const { first, between, second, unit } = rest.at(-1) as Readonly<Record<string, string>>;
    const both = (text: (value: number) => string): string => {
      const one = signed(first!, text(Number(first)));
      return second === undefined ? one : `${one}${between}${signed(second, text(Number(second)))}`;
    };
    const asIs = second === undefined ? first! : `${first}${between}${second}`;
    if (unit === '°C') return `${asIs} °C (${both((c) => formatNumber(c * 1.8 + 32, 0))} °F)`;
    if (unit === 'm') return `${both((m) => told(m * FEET_PER_M))} ft`;
    if (unit === 'ml' || unit === 'mL') {
      const isSmall = Number(first) < LEAST_QUART_ML;
      const turned = both((ml) => told(ml / (isSmall ? OUNCE_ML : 1000 * QUART_L)));
      return `${turned} ${isSmall ? 'fl oz' : 'qt'} (${asIs} mL)`;
    }
    const [text, name] = units[unit!]!;
    return unit === 'L' ? `${both(text)} ${name} (${asIs} L)` : `${both(text)} ${name}`;
  });
}

const signed = (was: string, shown: string): string =>
  was.startsWith('+') && !shown.startsWith('-') ? `+${shown}` : shown;
