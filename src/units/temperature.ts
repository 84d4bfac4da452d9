import type { Kelvin, KelvinDifference } from './brand.ts';
import { iceKelvin } from './convert.ts';
import { type Parsed, understood } from './parsed.ts';
import { parseQuantity, type QuantityWords } from './quantity.ts';

const perFahrenheit = 1 / 1.8;
/** 0 degF on the kelvin scale. */
const zeroFahrenheit = iceKelvin - 32 * perFahrenheit;

const scales: Readonly<Record<string, readonly [worth: number, offset: number]>> = {
  c: [1, iceKelvin],
  degc: [1, iceKelvin],
  celsius: [1, iceKelvin],
  f: [perFahrenheit, zeroFahrenheit],
  degf: [perFahrenheit, zeroFahrenheit],
  fahrenheit: [perFahrenheit, zeroFahrenheit],
  k: [1, 0],
  kelvin: [1, 0],
};

const noUnit = ['C', 'F'] as const;
const twoWays = { '': noUnit, deg: noUnit, degree: noUnit, degrees: noUnit };
const pick = (part: 0 | 1): Record<string, number> =>
  Object.fromEntries(Object.entries(scales).map(([unit, pair]) => [unit, pair[part]]));

const words: QuantityWords = {
  what: 'a temperature',
  example: '105 C or 220 F',
  worth: pick(0),
  offset: pick(1),
  twoWays,
  within: [0, 10_000],
  withinText: 'absolute zero (-273.15 C) to 9,700 C',
};

const differenceWords: QuantityWords = {
  what: 'a temperature difference',
  example: '20 K or 36 F',
  worth: pick(0),
  twoWays: { ...twoWays, '': ['K', 'F'] },
  within: [-10_000, 10_000],
  withinText: '-10,000 to 10,000 K',
};

/** Reads `105 C`, `105 degC`, `220 F`, `378 K`; degrees without a letter are refused with the ways they could be meant. */
export function parseTemperature(input: string): Parsed<Kelvin> {
  const read = parseQuantity(input, words);
  return read.ok ? understood(read.value.value as Kelvin) : read;
}

/** Reads how much warmer one thing is than another: `20 K`, `20 C`, `36 F`. */
export function parseTemperatureDifference(input: string): Parsed<KelvinDifference> {
  const read = parseQuantity(input, differenceWords);
  return read.ok ? understood(read.value.value as KelvinDifference) : read;
}
