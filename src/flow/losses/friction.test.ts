import { describe, expect, it } from 'vitest';
import { seeded, spread } from '../../../test/flow/fluids-for-tests.ts';
import { expectedNumber, expectedOf, named, published, tolerance } from '../../../test/published/published.ts';
import {
  allRegimeFrictionFactor,
  blasiusFrictionFactor,
  colebrookFrictionFactor,
  frictionRegime,
  haalandFrictionFactor,
  laminarFrictionFactor,
  swameeJainFrictionFactor,
} from './friction-factor.ts';
import { frictionForce, type FrictionRule } from './friction-force.kernel.ts';

const rules: readonly FrictionRule[] = ['all-regimes', 'colebrook', 'haaland', 'swamee-jain', 'blasius'];

/** Which factor a published row is of, by its name. */
function factorOf(id: string, re: number, rough: number): number {
  if (id.startsWith('friction-laminar')) return laminarFrictionFactor(re);
  if (id.startsWith('friction-colebrook')) return colebrookFrictionFactor(re, rough);
  if (id.startsWith('friction-smooth')) return colebrookFrictionFactor(re, 0);
  if (id.startsWith('friction-churchill')) return allRegimeFrictionFactor(re, rough);
  if (id.startsWith('friction-haaland')) return haalandFrictionFactor(re, rough);
  if (id.startsWith('friction-swameejain')) return swameeJainFrictionFactor(re, rough);
  if (id.startsWith('friction-blasius')) return blasiusFrictionFactor(re);
  throw new Error(`no check for the published value ${id}`);
}

describe('the friction factor agrees with', () => {
  it.each(published('flow.friction').map((item) => [named(item), item]))('%s', (_, item) => {
    if (item.id === 'tp410-7-1') {
      const { Q_m3_min, D, rho, mu } = item.inputs as Record<'Q_m3_min' | 'D' | 'rho' | 'mu', number>;
      const re = (4 * rho * Q_m3_min) / 60 / (Math.PI * D * mu);
      const f = expectedOf(item, 'f');
      expect(Math.abs(re - expectedOf(item, 'Re'))).toBeLessThanOrEqual(tolerance(item, expectedOf(item, 'Re')));
      // The handbook read f from a chart: the smooth Colebrook value is 1.2 % above it.
      expect(Math.abs(colebrookFrictionFactor(re, 0) - f)).toBeLessThanOrEqual(tolerance(item, f));
      return;
    }
    const expected = expectedNumber(item);
    const given = factorOf(item.id, item.inputs['Re']!, item.inputs['eD'] ?? 0);
    expect(Math.abs(given - expected)).toBeLessThanOrEqual(tolerance(item, expected));
  });

  // second: python3-fluids 1.0.22; python3 -c "from fluids.friction import *; print([(Churchill_1977(r,e),
  // Colebrook(r,e), Haaland(r,e)) for r,e in ((5000,.002),(3e4,.01),(2e6,1e-5)))])"
  it.each([
    [5000, 0.002, 0.0403349496114, 0.0395660213656, 0.0396082318229],
    [30000, 0.01, 0.0403245185827, 0.0398223060364, 0.039790237418],
    [2e6, 1e-5, 0.0107402434469, 0.0107205560464, 0.0106387441851],
  ] as const)('python3-fluids at Re %d, e/D %d', (re, rough, churchill, colebrook, haaland) => {
    expect(allRegimeFrictionFactor(re, rough)).toBeCloseTo(churchill, 10);
    expect(colebrookFrictionFactor(re, rough)).toBeCloseTo(colebrook, 10);
    expect(haalandFrictionFactor(re, rough)).toBeCloseTo(haaland, 10);
  });
});

describe.each(rules)('f Re^2 by the rule "%s"', (rule) => {
  const out = new Float64Array(2);
  const roughs = rule === 'blasius' ? [0] : [0, 1e-6, 1e-4, 1e-3, 0.01, 0.05, 0.1];

  it('rises throughout, from Re 1e-6 to 1e8 in 40 000 steps, closer from 1900 to 4200', () => {
    const fails: string[] = [];
    for (const rough of roughs) {
      const force = frictionForce(rule, rough);
      let before = 0;
      for (const re of dense()) {
        force(re, out);
        if (!(out[0]! > before && out[1]! > 0)) fails.push(`Re ${re}, e/D ${rough}`);
        before = out[0]!;
      }
    }
    expect(fails).toEqual([]);
  });

  it('is the factor times Re^2, with its slope to 1e-6 of the central difference (seed 11)', () => {
    const draw = seeded(11);
    for (let i = 0; i < 3000; i++) {
      const rough = rule === 'blasius' ? 0 : spread(draw, 1e-6, 0.05);
      const re = spread(draw, 1, 1e8);
      const force = frictionForce(rule, rough);
      force(re, out);
      const [value, slope] = [out[0]!, out[1]!];
      const h = re * 1e-5;
      force(re + h, out);
      const above = out[0]!;
      force(re - h, out);
      expect(Math.abs((above - out[0]!) / (2 * h) / slope - 1), `Re ${re}, e/D ${rough}`).toBeLessThan(1e-6);
      if (re > 4000 || rule === 'all-regimes')
        expect(Math.abs(value / (factorByRule(rule, re, rough) * re * re) - 1)).toBeLessThan(1e-9);
    }
  });

  it('runs on without a jump or a kink at Re 700, 2000 and 4000', () => {
    for (const rough of roughs)
      for (const edge of [700, 2000, 4000]) {
        const force = frictionForce(rule, rough);
        force(edge * (1 - 1e-9), out);
        const [value, slope] = [out[0]!, out[1]!];
        force(edge * (1 + 1e-9), out);
        expect(Math.abs(out[0]! / value - 1)).toBeLessThan(1e-7);
        expect(Math.abs(out[1]! / slope - 1)).toBeLessThan(1e-6);
      }
  });

  it('is 64 Re when slow', () => {
    frictionForce(rule, 1e-3)(1e-5, out);
    expect(out[0]).toBe(64e-5);
    expect(out[1]).toBe(64);
  });
});

function factorByRule(rule: FrictionRule, re: number, rough: number): number {
  if (rule === 'all-regimes') return allRegimeFrictionFactor(re, rough);
  if (rule === 'colebrook') return colebrookFrictionFactor(re, rough);
  if (rule === 'haaland') return haalandFrictionFactor(re, rough);
  if (rule === 'swamee-jain') return swameeJainFrictionFactor(re, rough);
  return blasiusFrictionFactor(re);
}

function* dense(): Generator<number> {
  for (let i = 0; i < 36000; i++) {
    const re = 10 ** (-6 + (14 * i) / 36000);
    if (re < 1900 || re > 4200) yield re;
    else {
      for (let j = 0; j < 20; j++) yield re * 10 ** ((14 * j) / 36000 / 20);
    }
  }
}

describe('the band from Reynolds 2000 to 4000', () => {
  it('is told apart, with the spread from the laminar to the turbulent value', () => {
    expect(frictionRegime(2000, 0)).toMatchObject({ regime: 'laminar' });
    expect(frictionRegime(4000, 0)).toMatchObject({ regime: 'turbulent' });
    const between = frictionRegime(3000, 0);
    expect(between.regime).toBe('between');
    expect(between.least).toBeCloseTo(64 / 3000, 12);
    // hand: 1/sqrt(f) = -2 log10(2.51/(3000 sqrt f)) holds at f = 0.043505
    expect(between.most).toBeCloseTo(0.0435, 4);
    expect(between.factor).toBeGreaterThan(between.least);
    expect(between.factor).toBeLessThanOrEqual(between.most);
  });
});
