import { describe, expect, it } from 'vitest';
import type { CircuitState, LineFlow } from '#flow';
import { formulas } from '#flow';
import { carriedFormulas, carriedRows } from './carried-rows.ts';

const line = (carries: LineFlow['carries'], voidShare?: number): LineFlow => ({
  line: 'O4',
  carries,
  flowM3S: 1e-3,
  velocityMS: 4,
  reynolds: 100,
  regime: 'laminar',
  fromPa: 0,
  toPa: 0,
  dropPa: 0,
  pieces: [],
  volumeM3: 1e-3,
  assumed: [],
  ...(voidShare === undefined ? {} : { voidShare }),
});
const state = {
  case: { id: 'hot', engineRpm: 6000 },
  temperatureC: 100,
  fluid: { densityKgM3: 845, viscosityPaS: 0.01 },
} as CircuitState;
const told = (carried: LineFlow) =>
  Object.fromEntries(carriedRows(carried, state, 'metric').map(({ name, value }) => [name, value]));

describe('what a line carries, opened', () => {
  it('of oil and air is the froth, by hand: rho = 0.7 845 + 0.3 0.946, 1/K = 0.3/p + 0.7/1.5 GPa, few bubbles mu (1 + 2.5 a)', () => {
    const rows = told(line('oil and air', 0.3));
    expect(rows['Air in it']).toBe('30.0 % by volume');
    expect(rows['Density']).toBe('592 kg/m³');
    // hand: (0.3/101325 + 0.7/1.5e9) Pa^-1 x 1e5 Pa x 100 %.
    expect(rows['Gives under pressure']).toBe('29.61 % a bar');
    // published forms: Beattie and Whalley mu_l (1 - a)(1 + 2.5 a) + mu_g a = 12.256 mPa s; Dukler (1 - a) mu_l + a mu_g = 7.007.
    expect(rows['Viscosity, worked with']).toBe('12.26 mPa s');
    expect(rows['Other models']!.split(', ')[2]).toBe('7.01');
  });

  it('of a vent is air, of a liquid line the fluid itself', () => {
    // published: air at 100 °C and 1 atm, 0.946 kg/m3; the standard atmosphere's 1.458e-6 T^1.5/(T + 110.4) = 0.0217 mPa s.
    expect(told(line('gas'))).toEqual({ Viscosity: '0.0217 mPa s', Density: '0.95 kg/m³' });
    expect(told(line('liquid'))).toEqual({ Viscosity: '10.00 mPa s', Density: '845 kg/m³' });
  });

  it('names formulas that are on the register', () => {
    const ids = new Set(formulas.map(({ id }) => id));
    expect(carriedFormulas(line('oil and air')).filter((id) => !ids.has(id))).toEqual([]);
    expect(carriedFormulas(line('liquid'))).toEqual([]);
  });
});
