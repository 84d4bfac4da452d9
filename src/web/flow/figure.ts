import {
  celsiusFromKelvin,
  fahrenheitFromC,
  formatNumber,
  mmPerInch,
  type Parsed,
  parseFlow,
  parsePressure,
  parseTemperature,
} from '#units';

export type FigureUnit =
  | 'rpm'
  | '°C'
  | 'm'
  | 'g'
  | 'kW'
  | 'L/min'
  | 'L'
  | 'bar'
  | 'deg'
  | 's'
  | 'cc/rev'
  | 'mm'
  | '%'
  | 'L/h'
  | 'cSt'
  | 'K'
  | 'kPa'
  | 'm/s'
  | 'km/h'
  | 'min'
  | 'm²'
  | 'cm²'
  | 'N'
  | 'N/mm'
  | 'Hz'
  | 'kg/m³'
  | '';

/** A number of the car file that stands in a form. */
export interface Figure {
  readonly label: string;
  readonly unit: FigureUnit;
  readonly from: number;
  readonly to: number;
  /** It must stand there. */
  readonly isNeeded?: boolean;
  /** Counted, not measured. */
  readonly isCount?: boolean;
}

/** A figure as it would be typed, in the units that the builder works in. */
export function figureText(value: number | undefined, unit: FigureUnit, isInch: boolean): string {
  if (value === undefined) return '';
  if (unit === '°C' && isInch) return `${formatNumber(fahrenheitFromC(value), 1).replace(/\.0$/u, '')} F`;
  const turned = isInch ? inInches[unit] : undefined;
  if (turned !== undefined) return `${trimmed(value / turned.each)} ${turned.words}`;
  return `${value}`;
}

/** The figure that a text means, in the unit of the car file; undefined where the field is empty and may be. */
export function readFigure(text: string, figure: Figure, isInch: boolean): Parsed<number | undefined> {
  const { label, unit, from, to, isNeeded } = figure;
  const no = (why: string): Parsed<number | undefined> => ({ ok: false, fault: `${label}: ${why}`, ways: [] });
  const range = `${rangeWords(figure, isInch)} is allowed`;
  if (text.trim() === '')
    return isNeeded === true ? no(`nothing stands there; ${range}`) : { ok: true, value: undefined };
  const read = inUnit(text.trim(), unit, isInch);
  if (!read.ok) return { ...read, fault: `${label}: ${read.fault}` };
  if (figure.isCount === true && !Number.isInteger(read.value))
    return no(`"${text.trim()}" is no whole number; ${range}`);
  if (read.value < from || read.value > to) return no(`"${text.trim()}" is out of range; ${range}`);
  return read;
}

const bare = (text: string): number =>
  /^[+−-]?\d+(?:[.,]\d+)?$/u.test(text) ? Number(text.replace(',', '.').replace('−', '-')) : Number.NaN;

function inUnit(text: string, unit: FigureUnit, isInch: boolean): Parsed<number> {
  const number = bare(text);
  const isBare = Number.isFinite(number);
  if (unit === '°C') {
    const kelvin = parseTemperature(isBare ? `${number} ${isInch ? 'F' : 'C'}` : text.replace('−', '-'));
    return kelvin.ok ? { ok: true, value: rounded(celsiusFromKelvin(kelvin.value)) } : kelvin;
  }
  if (isBare) return { ok: true, value: bareValue(number, unit, isInch) };
  if (unit === 'L/min') {
    const flow = parseFlow(text);
    return flow.ok ? { ok: true, value: rounded(flow.value * 60_000) } : flow;
  }
  if (unit === 'bar') {
    const pressure = parsePressure(text);
    if (!pressure.ok) return pressure;
    if (pressure.value.kind === 'gauge') return { ok: true, value: rounded(pressure.value.pascals / 1e5) };
  }
  const turned = inInches[unit];
  const inches = turned === undefined ? Number.NaN : bare(turned.written.exec(text)?.[1] ?? '');
  if (Number.isFinite(inches)) return { ok: true, value: rounded(inches * turned!.each) };
  const tail = new RegExp(`^([^a-z%]+)\\s*${unit.replace('/', '\\/')}$`, 'iu').exec(text)?.[1]?.trim();
  const own = tail === undefined ? Number.NaN : bare(tail);
  if (Number.isFinite(own)) return { ok: true, value: own };
  const feet = unit === 'm' ? bare(/^(\S+)\s*(?:ft|feet)$/u.exec(text)?.[1] ?? '') : Number.NaN;
  if (Number.isFinite(feet)) return { ok: true, value: rounded(feet * 0.3048) };
  return { ok: false, fault: `"${text}" is no number${unit === '' ? '' : ` in ${unit}`}`, ways: [] };
}

/** A number without a unit, in the unit of the car file. */
const bareValue = (number: number, unit: FigureUnit, isInch: boolean): number =>
  isInch ? rounded(number * (inInches[unit]?.each ?? 1)) : number;

/** What is allowed, in the unit that is typed. */
function rangeWords({ unit, from, to }: Figure, isInch: boolean): string {
  if (unit === '°C' && isInch) return `${trimmed(fahrenheitFromC(from))} to ${trimmed(fahrenheitFromC(to))} °F`;
  const turned = isInch ? inInches[unit] : undefined;
  if (turned !== undefined) return `${trimmed(from / turned.each)} to ${trimmed(to / turned.each)} ${turned.words}`;
  return `${from} to ${to}${unit === '' ? '' : ` ${unit}`}`;
}

interface InInches {
  /** One of it, in the unit of the car file. */
  readonly each: number;
  readonly words: string;
  readonly written: RegExp;
}

const NEWTONS_PER_POUND = 4.4482216;
const KPA_PER_PSI = 6.894757;

/** What is typed and shown otherwise where the tape is in inches. */
export const inInches: Readonly<Partial<Record<FigureUnit, InInches>>> = {
  'cm²': { each: (mmPerInch / 10) ** 2, words: 'sq in', written: /^(\S+?)\s*(?:sq\.?\s*in\.?|in2|in²)$/iu },
  N: { each: NEWTONS_PER_POUND, words: 'lbf', written: /^(\S+?)\s*(?:lbf|lbs?\.?)$/iu },
  'N/mm': { each: NEWTONS_PER_POUND / mmPerInch, words: 'lbf/in', written: /^(\S+?)\s*(?:lbf|lbs?)\/in\.?$/iu },
  kPa: { each: KPA_PER_PSI, words: 'psi', written: /^(\S+?)\s*psi$/iu },
};

const trimmed = (value: number): number => Number(value.toFixed(value !== 0 && Math.abs(value) < 1 ? 4 : 2));

/** Far finer than anyone measures, without the dust of a change of units. */
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;
