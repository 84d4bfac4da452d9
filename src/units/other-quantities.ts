import type { CubicMetresPerSecond, Kilograms, NewtonMetres, Radians } from './brand.ts';
import {
  kilogramsPerPound,
  litresPerImperialGallon,
  litresPerUsGallon,
  mmPerInch,
  nmFromInLb,
  nmFromLbFt,
  standardGravity,
} from './convert.ts';
import { type Parsed, understood } from './parsed.ts';
import { parseQuantity, type QuantityWords } from './quantity.ts';

const perMinute = 1 / 60;
const perHour = 1 / 3600;
const litre = 1e-3;
const cubicFoot = (mmPerInch * 0.012) ** 3;

/** Each volume per each time, as it is written. */
function flows(): Record<string, number> {
  const volumes: Record<string, number> = {
    l: litre,
    litre,
    litres: litre,
    liter: litre,
    liters: litre,
    ml: 1e-6,
    cc: 1e-6,
    cm3: 1e-6,
    m3: 1,
    ft3: cubicFoot,
    usgal: litresPerUsGallon * litre,
    impgal: litresPerImperialGallon * litre,
    ukgal: litresPerImperialGallon * litre,
  };
  const times: Record<string, number> = {
    s: 1,
    sec: 1,
    min: perMinute,
    minute: perMinute,
    h: perHour,
    hr: perHour,
    hour: perHour,
  };
  const all: Record<string, number> = {};
  for (const [volume, v] of Object.entries(volumes))
    for (const [time, t] of Object.entries(times)) all[`${volume}/${time}`] = v * t;
  const short = { lpm: litre * perMinute, lph: litre * perHour, cfm: cubicFoot * perMinute };
  const gallons = {
    usgpm: all['usgal/min'],
    usgph: all['usgal/h'],
    impgpm: all['impgal/min'],
    impgph: all['impgal/h'],
    ukgpm: all['impgal/min'],
  };
  return { ...all, ...short, ...(gallons as Record<string, number>) };
}

const gallonsPer = (time: string): readonly string[] => [`US gal/${time}`, `imp gal/${time}`];

const flowWords: QuantityWords = {
  what: 'a flow',
  example: '45 L/min or 12 US gal/min',
  worth: flows(),
  twoWays: {
    '': ['L/min', 'L/h', 'US gal/min', 'imp gal/min'],
    'gal/min': gallonsPer('min'),
    'gal/minute': gallonsPer('min'),
    'gallons/min': gallonsPer('min'),
    gpm: gallonsPer('min'),
    'gal/h': gallonsPer('h'),
    'gal/hr': gallonsPer('h'),
    'gal/hour': gallonsPer('h'),
    gph: gallonsPer('h'),
    'gal/s': gallonsPer('s'),
    l: ['L/min', 'L/h'],
    gal: [...gallonsPer('min'), ...gallonsPer('h')],
  },
  within: [-100, 100],
  withinText: '-100 to 100 m3/s',
};

/** Reads `45 L/min`, `12 US gal/min`, `120 L/h`; `12 gal/min` is refused: US and imperial gallons differ by a fifth. */
export function parseFlow(input: string): Parsed<CubicMetresPerSecond> {
  const read = parseQuantity(input, flowWords);
  return read.ok ? understood(read.value.value as CubicMetresPerSecond) : read;
}

const [lbFt, inLb, kgfM] = [nmFromLbFt(1), nmFromInLb(1), standardGravity];
const torqueWords: QuantityWords = {
  what: 'a torque',
  example: '25 Nm or 18 lb-ft',
  worth: {
    nm: 1,
    lbft: lbFt,
    ftlb: lbFt,
    lbfft: lbFt,
    ftlbf: lbFt,
    ftlbs: lbFt,
    lbsft: lbFt,
    inlb: inLb,
    lbin: inLb,
    inlbf: inLb,
    lbfin: inLb,
    inlbs: inLb,
    kgfm: kgfM,
  },
  twoWays: {
    '': ['Nm', 'lb-ft', 'in-lb'],
    lb: ['lb-ft', 'in-lb'],
    lbs: ['lb-ft', 'in-lb'],
    n: ['Nm'],
    kgm: ['kgf m', 'Nm'],
  },
  within: [-1e5, 1e5],
  withinText: '-100,000 to 100,000 Nm',
};

/** Reads `25 Nm`, `18 lb-ft`, `120 in-lb`. */
export function parseTorque(input: string): Parsed<NewtonMetres> {
  const read = parseQuantity(input, torqueWords);
  return read.ok ? understood(read.value.value as NewtonMetres) : read;
}

const degree = Math.PI / 180;
const angleWords: QuantityWords = {
  what: 'an angle',
  example: '45 deg',
  // The degree sign is dropped by `unitWord`, so the empty word is a bare number or degrees; `parseAngle` tells them apart.
  worth: {
    deg: degree,
    degs: degree,
    degree,
    degrees: degree,
    rad: 1,
    radian: 1,
    radians: 1,
    turn: 2 * Math.PI,
    turns: 2 * Math.PI,
  },
  twoWays: { '': ['deg', 'rad'] },
  within: [-1000, 1000],
  withinText: '-1,000 to 1,000 rad',
};

/** Reads `45 deg`, `45\u00B0`, `0.5 rad`, `2 turns`; a bare number is refused. */
export function parseAngle(input: string): Parsed<Radians> {
  const read = parseQuantity(input.replace(/(\d)\s*[\u00B0\u00BA\u02DA]\s*$/u, '$1 deg'), angleWords);
  return read.ok ? understood(read.value.value as Radians) : read;
}

const pound = kilogramsPerPound;
const ouncesPerPound = 16;
const massWords: QuantityWords = {
  what: 'a mass',
  example: '4.5 kg or 10 lb',
  worth: { kg: 1, g: 1e-3, t: 1000, tonne: 1000, tonnes: 1000, lb: pound, lbs: pound, oz: pound / ouncesPerPound },
  twoWays: { '': ['kg', 'lb'], ton: ['tonne', 'lb'], tons: ['tonne', 'lb'] },
  within: [-1e6, 1e6],
  withinText: '-1,000 to 1,000 tonnes',
};

/** Reads `4.5 kg`, `450 g`, `10 lb`, `3 oz`. */
export function parseMass(input: string): Parsed<Kilograms> {
  const read = parseQuantity(input, massWords);
  return read.ok ? understood(read.value.value as Kilograms) : read;
}
