import type { FormulaInput } from '#sources';
import {
  celsiusFromKelvin,
  degFromRadians,
  lMinFromFlow,
  mmPerInch,
  type Parsed,
  parseAngle,
  parseFlow,
  parseLength,
  parseLengthMm,
  parseMass,
  parsePressure,
  parseTemperature,
  parseTemperatureDifference,
  parseTorque,
} from '#units';

type Reader = (text: string) => Parsed<number>;

const scaled =
  (read: (text: string) => Parsed<number>, perUnit: number): Reader =>
  (text) => {
    const found = read(text);
    return found.ok ? { ok: true, value: found.value / perUnit } : found;
  };

const gauge: Reader = (text) => {
  const found = parsePressure(text);
  if (!found.ok) return found;
  if (found.value.kind === 'gauge') return { ok: true, value: found.value.pascals };
  return {
    ok: false,
    fault: `"${text}" is an absolute pressure; one above the air outside is wanted, such as 5 bar`,
    ways: [],
  };
};

const celsius: Reader = (text) => {
  const found = parseTemperature(text);
  return found.ok ? { ok: true, value: celsiusFromKelvin(found.value) } : found;
};
const angle: Reader = (text) => {
  const found = parseAngle(text);
  return found.ok ? { ok: true, value: degFromRadians(found.value) } : found;
};
const flow: Reader = (text) => {
  const found = parseFlow(text);
  return found.ok ? { ok: true, value: lMinFromFlow(found.value) } : found;
};

/** How a written quantity becomes a number in the unit that a formula wants. */
const readers: Readonly<Record<string, Reader>> = {
  mm: parseLengthMm,
  m: scaled(parseLengthMm, 1000),
  in: scaled(parseLengthMm, mmPerInch),
  Pa: gauge,
  kPa: scaled(gauge, 1e3),
  MPa: scaled(gauge, 1e6),
  bar: scaled(gauge, 1e5),
  rad: parseAngle,
  deg: angle,
  K: parseTemperature,
  'K difference': parseTemperatureDifference,
  degC: celsius,
  'L/min': flow,
  'm3/s': parseFlow,
  kg: parseMass,
  Nm: parseTorque,
};

const plainNumber = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d{1,3})?$/iu;
const longestInput = 80;

/** A value as typed for one input of a formula: a plain number is in the formula's own unit, else the unit stands behind it. */
export function readInput(input: FormulaInput, text: string): Parsed<number> {
  const trimmed = text.trim();
  const dash = dashOf(input, trimmed);
  if (dash !== undefined) return { ok: true, value: dash };
  if (trimmed.length <= longestInput && plainNumber.test(trimmed)) return { ok: true, value: Number(trimmed) };
  const reader = readers[input.unit];
  if (reader === undefined) return withOwnUnit(input, trimmed);
  const found = reader(trimmed);
  if (found.ok) return found;
  // "3/4" where inches are wanted: the unit goes without saying.
  const withUnit = /\p{L}|["']/u.test(trimmed) ? found : reader(`${trimmed} ${input.unit}`);
  return withUnit.ok ? withUnit : found;
}

/** "-12" is a dash size where a dash size is wanted. */
function dashOf(input: FormulaInput, text: string): number | undefined {
  if (input.unit !== '-' || !/^dash$/iu.test(input.name)) return undefined;
  const found = parseLength(text);
  return found.ok && found.value.kind === 'dash' ? found.value.dash : undefined;
}

function withOwnUnit(input: FormulaInput, text: string): Parsed<number> {
  const own = input.unit === '-' ? '' : input.unit;
  const bare = own !== '' && text.endsWith(own) ? text.slice(0, -own.length).trim() : text;
  if (text.length <= longestInput && plainNumber.test(bare)) return { ok: true, value: Number(bare) };
  const wanted = own === '' ? 'a plain number' : `a number in ${own}`;
  const shown = text.length > 40 ? `${text.slice(0, 40)}...` : text;
  return { ok: false, fault: `"${shown.replace(/\p{C}/gu, '?')}" is not ${wanted}`, ways: [] };
}
