import { describe, expect, it } from 'vitest';
import { celsiusFromF, pascalsPerPsi } from '#units';
import { fluidAt } from './fluid-at.ts';
import type { FuelSpec } from './fluid-spec.ts';
import { blendVapourPressure, reidC, usualReidOf } from './fuel-blend.ts';
import { ethanolDensity, ethanolVapourPressure, ethanolViscosity, petrolVapourPressure } from './fuel-liquids.ts';

const stateOf = (spec: Omit<FuelSpec, 'kind'>, celsius: number) => {
  const answer = fluidAt({ kind: 'fuel', ...spec }, celsius);
  if (!answer.ok) throw new Error(answer.faults.join());
  return answer;
};

describe('petrol', () => {
  // published: US EPA AP-42 table 7.1-2, motor petrol, read in a public program: Reid [psi], A, B of ln P = A - B/T [degR], P at 60 F [psi].
  it.each([
    [13, 11.644, 5043.6, 7],
    [10, 11.724, 5237.3, 5.2],
    [7, 11.833, 5500.6, 3.5],
  ])('of Reid %d psi as the table of AP-42 has it', (reidPsi, a, b, at60F) => {
    const reidKpa = (reidPsi * pascalsPerPsi) / 1e3;
    for (const fahrenheit of [32, 60, 100, 140])
      expect(
        petrolVapourPressure(celsiusFromF(fahrenheit), reidKpa) /
          pascalsPerPsi /
          Math.exp(a - b / (fahrenheit + 459.67)),
      ).toBeCloseTo(1, 3);
    expect(Math.abs(petrolVapourPressure(celsiusFromF(60), reidKpa) / pascalsPerPsi - at60F)).toBeLessThan(0.06);
  });

  // published: an engineer's flash of a petrol of 10 psi Reid in a public thread: 5.2 psi at 20 C, 33 psi at 80 C; one mixture, so to 20 percent.
  it('of Reid 10 psi within a fifth of one flash calculation at 20 and 80 C', () => {
    const psi = (celsius: number) => petrolVapourPressure(celsius, (10 * pascalsPerPsi) / 1e3) / pascalsPerPsi;
    expect(Math.abs(psi(20) / 5.2 - 1)).toBeLessThan(0.2);
    expect(Math.abs(psi(80) / 33 - 1)).toBeLessThan(0.2);
  });
});

describe('ethanol', () => {
  it('published: boils at 78.2 C (a public data page), 785.3 kg/m3 and 1.074 mPa s at 25 C (two such pages)', () => {
    expect(Math.abs(ethanolVapourPressure(78.24) / 101_325 - 1)).toBeLessThan(0.01);
    expect(Math.abs(ethanolDensity(25) / 785.3 - 1)).toBeLessThan(0.002);
    expect(Math.abs(ethanolViscosity(25) / 1.074e-3 - 1)).toBeLessThan(0.02);
  });
});

describe('a blend', () => {
  it("takes the builder's own numbers over ours and says what it assumed", () => {
    const own = stateOf({ ethanolFraction: 0.1, densityAt15KgM3: 738, viscosityCSt: 0.6, reidKpa: 58 }, 15);
    expect(own.remarks).toEqual([]);
    expect(own.state.densityKgM3).toBeCloseTo(738, 9);
    const at20 = stateOf({ ethanolFraction: 0.1, viscosityCSt: 0.6 }, 20);
    expect((at20.state.viscosityPaS / at20.state.densityKgM3) * 1e6).toBeCloseTo(0.6, 9);
    expect(at20.remarks.map((r) => r.code)).toEqual(['fuel-density-assumed', 'fuel-reid-assumed']);
    expect(stateOf({ ethanolFraction: 0, reidKpa: 58 }, 30).state.vapourAbsPa).toBe(petrolVapourPressure(30, 58));
  });

  it('published: 10 percent ethanol adds some 7 kPa (1 psi), 20 the same; 80 to 83 percent has 41.5 to 45.1 kPa', () => {
    expect(usualReidOf(0.1) - usualReidOf(0)).toBeCloseTo(7, 9);
    expect(usualReidOf(0.2)).toBe(usualReidOf(0.1));
    for (const share of [0.8, 0.815, 0.83]) {
      expect(usualReidOf(share)).toBeGreaterThan(41);
      expect(usualReidOf(share)).toBeLessThan(45.2);
    }
    // 15.7 kPa of Reid is ethanol's own vapour pressure at 37.8 C, 15.9 kPa, less air; to 5 percent.
    expect(Math.abs(blendVapourPressure(reidC, 1, usualReidOf(1)) / ethanolVapourPressure(reidC) - 1)).toBeLessThan(
      0.05,
    );
  });

  it('thins, swells and gives more vapour with heat, at every share', () => {
    for (let share = 0; share <= 1; share += 0.1) {
      for (let celsius = -30; celsius < 80; celsius += 5) {
        const [now, next] = [celsius, celsius + 5].map(
          (t) => stateOf({ ethanolFraction: Math.min(share, 1) }, t).state,
        );
        expect(next!.densityKgM3).toBeLessThan(now!.densityKgM3);
        expect(next!.viscosityPaS).toBeLessThan(now!.viscosityPaS);
        expect(next!.vapourAbsPa).toBeGreaterThan(now!.vapourAbsPa);
      }
    }
  });
});
