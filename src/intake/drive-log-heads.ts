/** What a column of a drive log can hold. */
export type Quantity = 'time' | 'rpm' | 'longitudinal' | 'lateral' | 'vertical' | 'oil';

/** A head as it stands in the file, taken apart. */
export interface Head {
  readonly text: string;
  /** Words without the unit, small, single spaces. */
  readonly words: string;
  /** As it stands in brackets behind the words; empty without. */
  readonly unit: string;
}

/** How a unit is turned into the room's own: value * times + plus. */
interface UnitRule {
  readonly names: readonly string[];
  readonly times: number;
  readonly plus?: number;
}

/** What a quantity is called, in which units, and how far it may go. */
export interface QuantityRule {
  readonly words: string;
  readonly isCalled: RegExp;
  readonly units: readonly UnitRule[];
  readonly least: number;
  readonly most: number;
  readonly unitWords: string;
}

const G = { names: ['', 'g', 'gn'], times: 1 };
const MS2 = { names: ['m/s2', 'm/s^2', 'm/s²', 'ms-2', 'm s-2'], times: 1 / 9.80665 };

/** Time, engine speed, g along, across and upright, oil temperature. The limits are those of a case in the car file. */
export const QUANTITIES: Readonly<Record<Quantity, QuantityRule>> = {
  time: {
    words: 'time',
    isCalled: /^(t|time|elapsed( time)?|log time|time ?stamp|lap time)$/,
    units: [
      { names: ['', 's', 'sec', 'secs', 'seconds'], times: 1 },
      { names: ['ms', 'milliseconds'], times: 1e-3 },
      { names: ['min', 'minutes'], times: 60 },
    ],
    least: -1e6,
    most: 1e6,
    unitWords: 's, ms, min',
  },
  rpm: {
    words: 'engine speed',
    isCalled: /^(rpm|n|engine|engine (speed|rpm)|revs|engine revs|crank speed)$/,
    units: [
      { names: ['', 'rpm', '1/min', 'min-1', 'r/min', 'rev/min'], times: 1 },
      { names: ['hz', '1/s', 'rev/s', 'r/s'], times: 60 },
    ],
    least: 0,
    most: 30_000,
    unitWords: 'rpm, 1/min, 1/s',
  },
  longitudinal: {
    words: 'longitudinal g',
    isCalled:
      /^(g )?(long(itudinal)?|inline|in-?line|along|forward)( (g|acc(el(eration)?)?|g ?force))?$|^(ax|acc(el(eration)?)? (x|long(itudinal)?|inline))$/,
    units: [G, MS2],
    least: -20,
    most: 20,
    unitWords: 'g, m/s2',
  },
  lateral: {
    words: 'lateral g',
    isCalled:
      /^(g )?(lat(eral)?|across|side(ways)?)( (g|acc(el(eration)?)?|g ?force))?$|^(ay|acc(el(eration)?)? (y|lat(eral)?))$/,
    units: [G, MS2],
    least: -20,
    most: 20,
    unitWords: 'g, m/s2',
  },
  vertical: {
    words: 'vertical g',
    isCalled:
      /^(g )?(vert(ical)?|upright)( (g|acc(el(eration)?)?|g ?force))?$|^(az|acc(el(eration)?)? (z|vert(ical)?))$/,
    units: [G, MS2],
    least: -20,
    most: 20,
    unitWords: 'g, m/s2',
  },
  oil: {
    words: 'oil temperature',
    isCalled: /^(engine )?oil( (t|temp|temperature))?$|^(t|temp|temperature) (of )?(engine )?oil$/,
    units: [
      { names: ['', 'c', '°c', 'degc', 'deg c', 'celsius'], times: 1 },
      { names: ['f', '°f', 'degf', 'deg f', 'fahrenheit'], times: 5 / 9, plus: (-32 * 5) / 9 },
      { names: ['k', 'kelvin'], times: 1, plus: -273.15 },
    ],
    least: -60,
    most: 400,
    unitWords: '°C, °F, K',
  },
};

/** Takes a head apart: `Lateral acc. [m/s²]`, `oil_temp (degC)`, `"Time"`. */
export function headOf(cell: string): Head {
  const text = cell.trim();
  const match = /^(.*?)\s*[[(]([^\])]*)[\])]\s*$/.exec(text);
  const words = (match?.[1] ?? text).toLowerCase().replaceAll(/[_.]+/g, ' ').replaceAll(/\s+/g, ' ').trim();
  return { text, words, unit: (match?.[2] ?? '').trim().toLowerCase() };
}

/** Which quantity a head names, if any. */
export function quantityOf({ words }: Head): Quantity | undefined {
  return (Object.keys(QUANTITIES) as Quantity[]).find((name) => QUANTITIES[name].isCalled.test(words));
}
