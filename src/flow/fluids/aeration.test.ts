import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { standardAtmospherePa } from '#units';
import { inputOf, mayBeOff, numbersOf } from '../../../test/published/fluid-rows.ts';
import { named, type PublishedValue, published } from '../../../test/published/published.ts';
import { aeratedLiquid, oilBulkPa } from './aerated-oil.ts';
import { mixtureCompressibility, mixtureDensity, qualityOfVoid, voidAtPressure, voidOfQuality } from './aeration.ts';
import { dissolvedAir, oilBunsen, releasedAir, voidOfReleased } from './air-release.ts';
import {
  bubbleReynolds,
  dwellTime,
  mobileSkinFactor,
  riseOfCleanBubble,
  riseOfRigidBubble,
  smallestRisenBubble,
} from './bubble-rise.ts';
import { viscosityBeattieWhalley, viscosityCicchitti, viscosityMcAdams } from './mixture-viscosity.ts';

/** Each number of the row by what we make of it; a name that we do not know fails. */
function all(item: PublishedValue, ours: Readonly<Record<string, number>>): void {
  const stated = [...numbersOf(item)];
  expect(stated.length).toBeGreaterThan(0);
  for (const [name, value] of stated) {
    expect(Object.keys(ours)).toContain(name);
    expect(Math.abs(ours[name]! - value), `${name}: ${ours[name]} beside ${value}`).toBeLessThanOrEqual(
      mayBeOff(item, name, value),
    );
  }
}

const values = (item: PublishedValue, ...names: readonly string[]): number[] =>
  names.map((name) => inputOf(item, name));

function aerated(item: PublishedValue): void {
  const [voidFraction, rhoL, rhoG, muL, muG] = values(item, 'void', 'rho_l', 'rho_g', 'mu_l', 'mu_g') as [
    number,
    number,
    number,
    number,
    number,
  ];
  const mix = aeratedLiquid(
    { densityKgM3: rhoL, viscosityPaS: muL },
    { densityKgM3: rhoG, viscosityPaS: muG },
    voidFraction,
    standardAtmospherePa,
  );
  all(item, {
    quality: mix.quality,
    rho_mix: mix.densityKgM3,
    mu_McAdams: mix.viscosityPaS.mcAdams,
    mu_Cicchitti: mix.viscosityPaS.cicchitti,
    mu_Dukler_void_weighted: mix.viscosityPaS.dukler,
    mu_BeattieWhalley: mix.viscosityPaS.beattieWhalley,
    'mu_bubbly_dilute_(1+a)': mix.viscosityPaS.fewBubbles,
  });
  expect(mix.viscosityPaS.least).toBe(Math.min(...numbersOfViscosity(mix.viscosityPaS)));
  expect(mix.viscosityPaS.most).toBe(Math.max(...numbersOfViscosity(mix.viscosityPaS)));
}
const numbersOfViscosity = (v: Readonly<Record<string, number>>): number[] => Object.values(v);

function released(item: PublishedValue): void {
  const [bunsen, from, to] = values(item, 'bunsen', 'p1', 'p2') as [number, number, number];
  const share = releasedAir(bunsen, from, to, 0);
  all(item, {
    released_std_per_oil: dissolvedAir(bunsen, from) - dissolvedAir(bunsen, to),
    released_at_p2_per_oil: share,
    void: voidOfReleased(share),
  });
}

function bubble(item: PublishedValue): void {
  const [d, mu, rho, rhoG] = values(item, 'd', 'mu_l', 'rho_l', 'rho_g') as [number, number, number, number];
  const rigid = riseOfRigidBubble(d, mu, rho, rhoG);
  all(item, {
    v_stokes: rigid,
    v_HR: riseOfCleanBubble(d, mu, rho, rhoG, 0),
    Re_stokes: bubbleReynolds(d, rigid, mu, rho),
  });
}

function deaeration(item: PublishedValue): void {
  const [litres, perMinute, depth, mu, difference] = values(item, 'V_L', 'Q_L_min', 'h', 'mu', 'drho') as [
    number,
    number,
    number,
    number,
    number,
  ];
  const seconds = dwellTime(litres / 1e3, perMinute / 6e4);
  all(item, { tau_s: seconds, d_min_mm: 1e3 * smallestRisenBubble(depth, seconds, mu, difference, 0) });
}

/** The row of McAdams is printed as 2.4630542e-5. */
const halfLastDigit = 0.5e-12;

const checks: Readonly<Record<string, (item: PublishedValue) => void>> = {
  'hom-void': (item) =>
    all(item, { value: voidOfQuality(inputOf(item, 'x'), inputOf(item, 'rho_l'), inputOf(item, 'rho_g')) }),
  mcadams: (item) => {
    const value = viscosityMcAdams(inputOf(item, 'x'), inputOf(item, 'mu_l'), inputOf(item, 'mu_g'));
    expect(Math.abs(value - numbersOf(item).get('value')!)).toBeLessThanOrEqual(halfLastDigit);
    // hand: 1/(0.4/1e-5 + 0.6/1e-3) = 1/40600
    expect(value * 40_600).toBeCloseTo(1, 12);
  },
  cicchitti: (item) =>
    all(item, { value: viscosityCicchitti(inputOf(item, 'x'), inputOf(item, 'mu_l'), inputOf(item, 'mu_g')) }),
  'air-solubility': (item) =>
    all(item, { value: dissolvedAir(oilBunsen, inputOf(item, 'p_abs_atm') * standardAtmospherePa) }),
  // A sphere that sinks: downward is negative.
  'stokes-particle': (item) =>
    all(item, {
      value: -riseOfRigidBubble(inputOf(item, 'd'), inputOf(item, 'mu'), inputOf(item, 'rho'), inputOf(item, 'rho_p')),
    }),
};

function checkOf(item: PublishedValue): (item: PublishedValue) => void {
  const own = checks[item.id];
  if (own !== undefined) return own;
  if (/^aerated-oil-\d+$/.test(item.id)) return aerated;
  if (/^void-pressure-\d+$/.test(item.id))
    return (row) => all(row, { value: voidAtPressure(inputOf(row, 'void_1atm'), inputOf(row, 'p_abs')) });
  if (/^air-release-\d+$/.test(item.id)) return released;
  if (/^bubble-\d+$/.test(item.id)) return bubble;
  if (/^deaeration-\d+$/.test(item.id)) return deaeration;
  throw new Error(`nothing is known of ${item.id}`);
}

const rows = published('flow.aeration');
const title = (item: PublishedValue): string =>
  `${named(item)}${item.id === 'mcadams' ? ' - printed to eight digits, its tolerance asks for nine: held to half the last' : ''}`;

describe('published values of aeration', () => {
  it.each(rows.map((item) => [title(item), item] as const))('%s', (_, item) => checkOf(item)(item));
  it('an unknown row fails', () => expect(() => checkOf({ ...rows[0]!, id: 'bubble-bath' })).toThrow('bubble-bath'));
});

describe('a mixture', () => {
  const share = fc.double({ min: 0, max: 1, noNaN: true });
  const density = fc.double({ min: 500, max: 1200, noNaN: true });
  const thin = fc.double({ min: 0.05, max: 20, noNaN: true });
  const pressure = fc.double({ min: 1e3, max: 1e7, noNaN: true });

  it('void fraction and quality stay between 0 and 1 and are each other turned round (seed 4)', () => {
    fc.assert(
      fc.property(share, density, thin, pressure, (a, liquid, gas, p) => {
        const quality = qualityOfVoid(a, liquid, gas);
        const squeezed = voidAtPressure(a, p);
        expect(quality >= 0 && quality <= 1 && squeezed >= 0 && squeezed <= 1).toBe(true);
        expect(voidOfQuality(quality, liquid, gas)).toBeCloseTo(a, 9);
        expect(mixtureDensity(a, liquid, gas)).toBeCloseTo(1 / (quality / gas + (1 - quality) / liquid), 6);
      }),
      { seed: 4, numRuns: 300 },
    );
  });

  it('is squeezed by pressure, gives more than its liquid, and gives less the harder it is pressed', () => {
    for (const a of [0.01, 0.1, 0.5]) {
      expect(voidAtPressure(a, 2e5)).toBeLessThan(voidAtPressure(a, 1e5));
      expect(voidAtPressure(a, standardAtmospherePa)).toBeCloseTo(a, 12);
      expect(mixtureCompressibility(a, 1e5, oilBulkPa)).toBeGreaterThan(1 / oilBulkPa);
      expect(mixtureCompressibility(a, 5e5, oilBulkPa)).toBeLessThan(mixtureCompressibility(a, 1e5, oilBulkPa));
    }
    expect(mixtureCompressibility(0, 1e5, oilBulkPa)).toBe(1 / oilBulkPa);
  });

  it('second: the compressibility is the slope of the volume by Boyle, by differences, the oil at 1.5e9 Pa', () => {
    const [p, dp, gas] = [5e5, 1, 0.1];
    const volume = (at: number) => (gas * standardAtmospherePa) / at + (1 - gas) * Math.exp(-(at - p) / oilBulkPa);
    const slope = (volume(p - dp) - volume(p + dp)) / (2 * dp) / volume(p);
    expect(mixtureCompressibility(voidAtPressure(gas, p), p, oilBulkPa) / slope).toBeCloseTo(1, 6);
  });

  it('without gas is the liquid in every model; all of gas, the gas in McAdams', () => {
    const mix = aeratedLiquid({ densityKgM3: 850, viscosityPaS: 0.01 }, { densityKgM3: 1, viscosityPaS: 2e-5 }, 0, 1e5);
    expect(mix).toMatchObject({ quality: 0, densityKgM3: 850 });
    for (const value of Object.values(mix.viscosityPaS)) expect(value).toBeCloseTo(0.01, 12);
    expect(viscosityMcAdams(1, 0.01, 2e-5)).toBeCloseTo(2e-5, 12);
  });

  // second: python3 -c "from fluids.two_phase_voidage import Beattie_Whalley as b; print(b(x=0.00029577048, mul=0.01, mug=2.2e-5, rhol=845, rhog=1.0))"
  it('python3-fluids has the same Beattie and Whalley, 0.0120043999943', () => {
    expect(viscosityBeattieWhalley(voidOfQuality(0.00029577048, 845, 1), 0.01, 2.2e-5)).toBeCloseTo(
      0.0120043999943,
      11,
    );
  });
});

describe('air in oil', () => {
  it('comes out only when the pressure falls, and takes more room when hot', () => {
    expect(releasedAir(0.09, 1e5, 2e5, 20)).toBe(0);
    expect(releasedAir(0.09, 1e5, 1e5, 20)).toBe(0);
    expect(releasedAir(0.09, 1e5, 5e4, 100) / releasedAir(0.09, 1e5, 5e4, 0)).toBeCloseTo(373.15 / 273.15, 9);
  });

  it('the skin of a clean bubble moves: 1.5 times a rigid one for a gas, the same for a thick drop', () => {
    expect(mobileSkinFactor(0.01, 0)).toBe(1.5);
    expect(mobileSkinFactor(0.01, 1e6)).toBeCloseTo(1, 6);
  });

  it('the smallest bubble that rises takes just the time given', () => {
    const d = smallestRisenBubble(0.2, 8, 0.01, 845, 1);
    expect(8 * riseOfRigidBubble(d, 0.01, 845, 1)).toBeCloseTo(0.2, 9);
  });
});
