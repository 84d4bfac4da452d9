import { describe, expect, it } from 'vitest';
import { iceKelvin } from '#units';
import { inputOf, inputsOf, mayBeOff, numbersOf } from '../../../test/published/fluid-rows.ts';
import { named, type PublishedValue, published } from '../../../test/published/published.ts';
import { fluidAt } from './fluid-at.ts';
import {
  glycolConductivity,
  glycolDensity,
  glycolFreezingPoint,
  glycolMassFraction,
  glycolSpecificHeat,
  glycolVapourPressure,
  glycolViscosity,
} from './glycol.ts';
import { boilingPointOfWater, waterVapourPressure } from './saturation.ts';
import { waterConductivity, waterDensity, waterSpecificHeat, waterViscosity } from './water.ts';

const near = (item: PublishedValue, name: string, stated: number, value: number): void =>
  expect(Math.abs(value - stated), `${name}: ${value} beside ${stated}`).toBeLessThanOrEqual(
    mayBeOff(item, name, stated),
  );

/** Saturated liquid water in the units of the rows. */
function saturated(celsius: number): Readonly<Record<string, number>> {
  const pressure = waterVapourPressure(celsius);
  const rho = waterDensity(celsius, pressure);
  const viscosity = waterViscosity(celsius, rho);
  const k = waterConductivity(celsius, rho);
  return {
    p_sat_kPa: pressure / 1e3,
    rho,
    cp_kJ_kgK: waterSpecificHeat(celsius, pressure) / 1e3,
    mu_mPa_s: viscosity * 1e3,
    mu_uPa_s: viscosity * 1e6,
    k,
    k_W_mK: k,
  };
}

function saturatedRow(item: PublishedValue): void {
  const celsius = item.inputs['T_C'] ?? inputOf(item, 'T_K') - iceKelvin;
  const ours = saturated(celsius);
  for (const [name, stated] of numbersOf(item)) near(item, name, stated, ours[name]!);
}

function mixRow(item: PublishedValue): void {
  const celsius = inputOf(item, 'T_C');
  const mass = item.inputs['mass_fraction'] ?? inputOf(item, 'mass_percent') / 100;
  const answer = fluidAt({ kind: 'glycol', massFraction: mass }, celsius);
  if (!answer.ok) throw new Error(answer.faults.join());
  const { state } = answer;
  const ours: Readonly<Record<string, number>> = {
    rho: state.densityKgM3,
    cp: state.specificHeatJKgK,
    k: state.conductivityWMK,
    mu_mPa_s: state.viscosityPaS * 1e3,
  };
  for (const [name, stated] of numbersOf(item)) near(item, name, stated, ours[name]!);
}

const listRow = (input: string, value: (percent: number) => number) => (item: PublishedValue) => {
  const stated = [...numbersOf(item).values()];
  expect(stated.length).toBe(inputsOf(item, input).length);
  for (const [i, percent] of inputsOf(item, input).entries()) near(item, `${percent} %`, stated[i]!, value(percent));
};

const byVolume = (celsius: number, percent: number): number =>
  1e3 * glycolViscosity(celsius, glycolMassFraction(percent / 100));

/**
 * second: another correlation, of a refrigeration handbook's tables by volume, as an open library carries it (AEG.json of 2001),
 * worked out apart: exp(sum c_ij (v - 0.35)^j (T - 305.65 K)^i) x 1e3 [mPa s] at 30, 40, 50, 60 % by volume.
 */
const handbook: Readonly<Record<string, readonly number[]>> = {
  'meg-visc-vol-48.9': [1.111, 1.443, 1.803, 2.226],
  'meg-visc-vol-93.3': [0.536, 0.661, 0.78, 0.858],
};

/** Readings that lie below what better tables allow: ours is held against the second correlation instead, the reading to a quarter. */
function doubtfulReading(item: PublishedValue): void {
  const celsius = inputOf(item, 'T_C');
  const readings = [...numbersOf(item).values()];
  for (const [i, percent] of inputsOf(item, 'volume_percent').entries()) {
    const ours = byVolume(celsius, percent);
    expect(Math.abs(ours / readings[i]! - 1), `${percent} % beside the reading`).toBeLessThan(0.25);
    // 60 % by volume is 0.626 by mass, beyond the correlation's 0.6.
    const allowed = glycolMassFraction(percent / 100) > 0.6 ? 0.18 : 0.06;
    expect(Math.abs(ours / handbook[item.id]![i]! - 1), `${percent} % beside the handbook`).toBeLessThan(allowed);
  }
}

const checks: Readonly<Record<string, (item: PublishedValue) => void>> = {
  'iapws-psat-300K': (item) =>
    near(item, 'value', numbersOf(item).get('value')!, waterVapourPressure(300 - iceKelvin) / 1e6),
  'iapws-visc-998': (item) =>
    near(
      item,
      'value',
      numbersOf(item).get('value')!,
      1e6 * waterViscosity(inputOf(item, 'T_K') - iceKelvin, inputOf(item, 'rho')),
    ),
  'meg-freeze': listRow('mass_percent', (percent) => glycolFreezingPoint(percent / 100)),
  'meg-freeze-vol': listRow('volume_percent', (percent) => glycolFreezingPoint(glycolMassFraction(percent / 100))),
  'meg-visc-vol--17.8': listRow('volume_percent', (percent) => byVolume(-17.8, percent)),
  'meg-visc-vol-4.4': listRow('volume_percent', (percent) => byVolume(4.4, percent)),
  'meg-visc-vol-48.9': doubtfulReading,
  'meg-visc-vol-93.3': doubtfulReading,
};

function checkOf(item: PublishedValue): (item: PublishedValue) => void {
  const own = checks[item.id];
  if (own !== undefined) return own;
  if (/^water-(sat|if97)-/.test(item.id)) return saturatedRow;
  if (/^meg(-melinder|50-2010)-/.test(item.id)) return mixRow;
  throw new Error(`nothing is known of ${item.id}`);
}

const doubts: Readonly<Record<string, string>> = {
  'meg-visc-vol-48.9':
    ' - read to two digits and contradicted: 1.5 at 50 % would be a third less than the 2.24 measured 9 K colder (meg-melinder-51-40), where 2 % a kelvin is usual; held to 25 %, and to 6 % of a second correlation',
  'meg-visc-vol-93.3':
    ' - read to one or two digits, 7 to 11 % under a second correlation; held to 25 %, and to 6 % of that correlation (at 60 %, beyond our range, to 18 %)',
};
const title = (item: PublishedValue): string => `${named(item)}${doubts[item.id] ?? ''}`;

const rows = [...published('fluid.water'), ...published('fluid.glycol')];

describe('published values of water and glycol', () => {
  it.each(rows.map((item) => [title(item), item] as const))('%s', (_, item) => checkOf(item)(item));
  it('an unknown row fails', () => expect(() => checkOf({ ...rows[0]!, id: 'meg-of-ryan' })).toThrow('meg-of-ryan'));
});

describe('water', () => {
  // second: python3-iapws 1.5.3 (Debian bookworm): w = IAPWS97(T=t+273.15, P=p/1e6); w.rho, w.cp*1e3, w.mu, w.k
  it.each([
    [0.01, 101325, 999.844983, 4219.39465, 0.00179112663, 0.55567711],
    [60, 101325, 983.21061, 4182.76355, 0.00046604321, 0.65101796],
    [120, 300000, 943.15638, 4246.11151, 0.00023206014, 0.6823023],
    [150, 600000, 917.07703, 4309.86765, 0.00018264204, 0.68109904],
  ])(
    'at %f C and %d Pa as python3-iapws has it; conductivity to 0.3 percent, its critical part left out',
    (celsius, pressure, rho, cp, mu, k) => {
      const answer = fluidAt({ kind: 'water' }, celsius, pressure);
      if (!answer.ok) throw new Error(answer.faults.join());
      expect(answer.state.densityKgM3 / rho).toBeCloseTo(1, 7);
      expect(answer.state.specificHeatJKgK / cp).toBeCloseTo(1, 7);
      expect(answer.state.viscosityPaS / mu).toBeCloseTo(1, 6);
      expect(Math.abs(answer.state.conductivityWMK / k - 1)).toBeLessThan(0.003);
    },
  );

  // published: IF97 table 5 (region 1), from memory, reproduced by python3-iapws: v and cp at 300 K, 3 and 80 MPa.
  it('region 1 verification: 0.00100215168 and 0.000971180894 m3/kg, 4.17301218 and 4.01008987 kJ/(kg K)', () => {
    const celsius = 300 - iceKelvin;
    expect(1 / waterDensity(celsius, 3e6)).toBeCloseTo(0.00100215168, 11);
    expect(1 / waterDensity(celsius, 80e6)).toBeCloseTo(0.000971180894, 11);
    expect(waterSpecificHeat(celsius, 3e6)).toBeCloseTo(4173.01218, 4);
    expect(waterSpecificHeat(celsius, 80e6)).toBeCloseTo(4010.08987, 4);
  });

  // second: python3-iapws: iapws97._TSat_P(p) - 273.15
  it.each([
    [70_000, 89.93151],
    [100_000, 99.605919],
    [200_000, 120.211545],
    [240_000, 126.073678],
  ])('boils under %d Pa at %f C', (pressure, celsius) => expect(boilingPointOfWater(pressure)).toBeCloseTo(celsius, 5));

  it('boiling point and vapour pressure are each other turned round', () => {
    for (let celsius = 1; celsius <= 150; celsius += 7)
      expect(boilingPointOfWater(waterVapourPressure(celsius))).toBeCloseTo(celsius, 6);
  });

  it('that boils says so and keeps to the liquid; without a pressure it stands under its own vapour', () => {
    const boils = fluidAt({ kind: 'water' }, 120, 101_325);
    const alone = fluidAt({ kind: 'water' }, 120);
    if (!boils.ok || !alone.ok) throw new Error('water at 120 C');
    expect(boils.remarks).toMatchObject([{ code: 'boils', value: 101_325, unit: 'Pa' }]);
    expect(alone.remarks).toEqual([]);
    expect(boils.state).toEqual(alone.state);
  });
});

describe('glycol', () => {
  it('without glycol is water, to 1 % up to 40 C in density, heat and conductivity, 3 % in viscosity, and 5 % up to 100 C', () => {
    for (let celsius = 1; celsius <= 100; celsius += 9) {
      const water = saturated(celsius);
      const [few, more] = celsius <= 40 ? [0.01, 0.03] : [0.01, 0.05];
      expect(Math.abs(glycolDensity(celsius, 0) / water['rho']! - 1)).toBeLessThan(few);
      expect(Math.abs(glycolSpecificHeat(celsius, 0) / 1e3 / water['cp_kJ_kgK']! - 1)).toBeLessThan(few);
      expect(Math.abs(glycolConductivity(celsius, 0) / water['k']! - 1)).toBeLessThan(2 * few);
      expect(Math.abs((glycolViscosity(celsius, 0) * 1e3) / water['mu_mPa_s']! - 1)).toBeLessThan(more);
    }
    expect(glycolVapourPressure(80, 0)).toBeCloseTo(waterVapourPressure(80), 6);
    expect(glycolFreezingPoint(0)).toBeCloseTo(0, 2);
  });

  // published: a public design manual's table of a refrigeration handbook, inhibited glycol, 50 % by volume [lb/ft3]: read.
  it.each([
    [40, 67.47],
    [100, 66.55],
    [200, 64.27],
  ])(
    'density at %d F, half by volume: a handbook table of inhibited coolant says %f lb/ft3; ours within a hundredth',
    (fahrenheit, lbFt3) => {
      const ours = glycolDensity((fahrenheit - 32) / 1.8, glycolMassFraction(0.5));
      expect(Math.abs(ours / (lbFt3 * 16.018463) - 1)).toBeLessThan(0.01);
    },
  );

  it('hand: half by mass has 0.5/18.015 of water to 0.5/62.068 of glycol: 0.77505 of water vapour pressure', () => {
    expect(glycolVapourPressure(100, 0.5) / waterVapourPressure(100)).toBeCloseTo(0.77505, 5);
  });

  it('thins and swells with heat without a step where the correlation ends', () => {
    for (const mass of [0, 0.1, 0.25, 0.4, 0.5, 0.6]) {
      const from = Math.max(5, Math.ceil(glycolFreezingPoint(mass)));
      for (let celsius = from; celsius < 130; celsius += 1) {
        const [mu, next] = [glycolViscosity(celsius, mass), glycolViscosity(celsius + 1, mass)];
        expect(next).toBeLessThan(mu);
        expect(next / mu).toBeGreaterThan(0.9);
        expect(glycolDensity(celsius + 1, mass)).toBeLessThan(glycolDensity(celsius, mass));
        expect(glycolVapourPressure(celsius + 1, mass)).toBeGreaterThan(glycolVapourPressure(celsius, mass));
      }
    }
  });
});
