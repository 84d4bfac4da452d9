import type { PascalsAbsolute, PascalsGauge } from './brand.ts';
import { pascalsPerPsi, standardAtmospherePa } from './convert.ts';
import { type Parsed, refused, understood } from './parsed.ts';
import { parseQuantity, type QuantityWords } from './quantity.ts';

/** A pressure as written: above the air outside unless the input says absolute. */
export type TradePressure =
  | { readonly kind: 'gauge'; readonly pascals: PascalsGauge }
  | { readonly kind: 'absolute'; readonly pascals: PascalsAbsolute };

/** Conventional inch of mercury and of water [Pa]; nist-sp811. */
const pascalsPerInHg = 3386.389;
const pascalsPerInWater = 249.0889;

const bases: Readonly<Record<string, number>> = {
  pa: 1,
  hpa: 100,
  kpa: 1000,
  mpa: 1e6,
  mbar: 100,
  bar: 1e5,
  psi: pascalsPerPsi,
  'lb/in2': pascalsPerPsi,
  'lbf/in2': pascalsPerPsi,
  inhg: pascalsPerInHg,
  '"hg': pascalsPerInHg,
  inh2o: pascalsPerInWater,
  '"h2o': pascalsPerInWater,
  atm: standardAtmospherePa,
};

const gaugeSigns = ['', 'g', '(g)', 'gauge'] as const;
const absoluteSigns = ['a', '(a)', 'abs', 'absolute'] as const;
const withSigns = (signs: readonly string[]): Record<string, number> =>
  Object.fromEntries(Object.entries(bases).flatMap(([unit, worth]) => signs.map((s) => [`${unit}${s}`, worth])));
const absolutes = withSigns(absoluteSigns);

const words: QuantityWords = {
  what: 'a pressure',
  example: '5 bar or 75 psi',
  worth: { ...absolutes, ...withSigns(gaugeSigns) },
  twoWays: { '': ['bar', 'psi', 'kPa'], lb: ['psi', 'bar'], lbs: ['psi', 'bar'] },
  within: [-1e9, 1e9],
  withinText: '-10,000 to 10,000 bar',
};

/** Reads `5 bar`, `75 psi`, `300 kPa`, `1.3 bar abs`; a bare number is refused with the ways it could be meant. */
export function parsePressure(input: string): Parsed<TradePressure> {
  const read = parseQuantity(input, words);
  if (!read.ok) return read;
  const { value, unit } = read.value;
  if (Object.hasOwn(absolutes, unit)) {
    if (value < 0) return refused(input, 'is below vacuum');
    return understood({ kind: 'absolute', pascals: value as PascalsAbsolute });
  }
  if (value < -standardAtmospherePa) return refused(input, 'is a deeper suction than full vacuum (-1.013 bar)');
  return understood({ kind: 'gauge', pascals: value as PascalsGauge });
}
