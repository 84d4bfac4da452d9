import { describe, expect, it } from 'vitest';
import { fluidAt } from '../fluids/fluid-at.ts';
import { boilsAtC, vapourAt } from './boiling.ts';
import { radiatorOf } from './radiator.ts';

const hot = fluidAt({ kind: 'water' }, 90);
if (!hot.ok) throw new Error(hot.faults.join());
const fluid = hot.state;
const duty = { heatKw: 95, flowLMin: 160, entryDifferenceK: 45, airMPerS: 6.7, coreM2: 0.272 };
const air = { airC: 25, absPa: 101_325 };

describe('a radiator from one measured point', () => {
  it('gives that point back', () => {
    const radiator = radiatorOf(duty, 'core', fluid);
    if (typeof radiator === 'string') throw new Error(radiator);
    expect(radiator.heatPerK(160 / 60_000, fluid, air) * 45).toBeCloseTo(95_000, 3);
  });

  it('gives more with more air and with more water, and nothing without either', () => {
    const radiator = radiatorOf(duty, 'core', fluid);
    if (typeof radiator === 'string') throw new Error(radiator);
    let last = 0;
    for (const speed of [0.5, 1, 3, 6.7, 12]) {
      const here = radiator.heatPerK(2e-3, fluid, { ...air, mPerS: speed });
      expect(here).toBeGreaterThan(last);
      last = here;
    }
    last = 0;
    for (const flow of [1e-5, 1e-4, 1e-3, 3e-3]) {
      const here = radiator.heatPerK(flow, fluid, air);
      expect(here).toBeGreaterThan(last);
      last = here;
    }
    expect(radiator.heatPerK(2e-3, fluid, { ...air, mPerS: 0 })).toBe(0);
    expect(radiator.heatPerK(0, fluid, air)).toBe(0);
  });

  it('is refused where its point asks more of the air than it can carry, with what is allowed', () => {
    expect(radiatorOf({ ...duty, heatKw: 200 }, 'Radiator', fluid)).toMatch(
      /^Radiator, duty: 200 kW at 45 K; allowed: below 9\d\.\d kW, all that its air can carry$/,
    );
  });
});

describe('boiling', () => {
  it('of water is where the steam tables have it (IAPWS-IF97, and CRC handbook: 120.2 C at 2 bar)', () => {
    expect(boilsAtC(fluid, 90, 101_325)).toBeCloseTo(99.97, 1);
    expect(boilsAtC(fluid, 90, 2e5)).toBeCloseTo(120.2, 1);
    expect(vapourAt(fluid, 90, 120.21)).toBeCloseTo(2e5, -3);
  });

  it('of half glycol is some 8 K above water (Raoult), the same from any temperature of the state', () => {
    const at = (celsius: number) => {
      const answer = fluidAt({ kind: 'glycol', massFraction: 0.5 }, celsius);
      if (!answer.ok) throw new Error(answer.faults.join());
      return boilsAtC(answer.state, celsius, 101_325);
    };
    expect(at(90)).toBeGreaterThan(105);
    expect(at(90)).toBeLessThan(109);
    expect(at(20)).toBeCloseTo(at(110), 6);
  });
});
