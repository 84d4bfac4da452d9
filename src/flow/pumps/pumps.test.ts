import { describe, expect, it } from 'vitest';
import { coldOil, hotOil, seeded, spread } from '../../../test/flow/fluids-for-tests.ts';
import { expectedNumber, expectedOf, named, published, tolerance } from '../../../test/published/published.ts';
import { colebrookFrictionFactor } from '../losses/friction-factor.ts';
import { coefficientLoss } from '../losses/fitting-loss.ts';
import { boreReynolds, lineVelocity } from '../losses/line-figures.ts';
import { lineLoss } from '../losses/line-loss.ts';
import { seriesLaw } from '../losses/loss.ts';
import { monotoneLaw } from '../losses/monotone-law.ts';
import { centrifugalPumpLaw } from './centrifugal-pump.ts';
import {
  displacementPumpFlow,
  displacementPumpLaw,
  gearDisplacement,
  lobeDisplacement,
  slipConstant,
  slipOf,
} from './displacement-pump.ts';
import { pumpInletAbsPa, suctionHeadAvailable } from './suction.ts';

const mPerIn = 0.0254;
const mPerFt = 0.3048;
const m3PerGal = 0.003785411784;

function workedPump(id: string, g: Record<string, number>): Record<string, number> {
  if (id === 'gearpump-5-1') {
    const v = gearDisplacement(g['Do_in']! * mPerIn, g['Di_in']! * mPerIn, g['L_in']! * mPerIn);
    const theoretical = (v * g['N_rpm']!) / m3PerGal;
    return { Vd_in3: v / mPerIn ** 3, Qt_gpm: theoretical, eta_v: g['Q_actual_gpm']! / theoretical };
  }
  if (id === 'gearpump-5-2') {
    const v = gearDisplacement(g['Do_mm']! / 1000, g['Di_mm']! / 1000, g['L_mm']! / 1000);
    return { Vd_cc: v * 1e6, Q_L_min: v * g['N_rpm']! * g['eta_v']! * 1000 };
  }
  if (id === 'lobepump-14-4') {
    // Half a turn carries over two chambers.
    const v = lobeDisplacement(g['V_lobe_cm3']! * 1e-6, 2 / g['rotations_for_two_chambers']!);
    return { only: v * g['rpm']! * 1e6 };
  }
  if (id.startsWith('pdpump-slip')) {
    const v = g['V_cc']! * 1e-6;
    const n = g['rpm']! / 60;
    const flow = displacementPumpFlow(v, n, g['k_m3']!, g['dp_Pa']!, g['mu']!);
    return {
      Q_theoretical_L_min: v * n * 60000,
      slip_L_min: (v * n - flow) * 60000,
      Q_L_min: flow * 60000,
      eta_v: flow / (v * n),
    };
  }
  throw new Error(`no check for the published value ${id}`);
}

function workedSuction(id: string, g: Record<string, number>): Record<string, number> {
  if (id === 'npsh-tp410-7-32') {
    const rho = g['rho_lb_ft3']! * 16.018463;
    const pa = 6894.757;
    const head = suctionHeadAvailable(
      (g['p_tank_psig']! + g['p_atm_psi']!) * pa,
      g['p_sat_psi']! * pa,
      rho,
      g['lift_ft']! * mPerFt,
      g['loss_ft']! * mPerFt,
      9.80665,
    );
    return { only: head / mPerFt };
  }
  if (id.startsWith('npsh-14-3')) {
    // The source: NPSH = (p_atm - p_v)/(rho g) + z - loss - (alpha - 1) V^2/2g with the surface z above the pump.
    const bore = g['D_in']! * mPerIn;
    const flow = (g['Q_gpm']! * m3PerGal) / 60;
    const velocity = lineVelocity(flow, bore);
    const f = colebrookFrictionFactor(boreReynolds(flow, bore, g['rho']!, g['mu']!), g['roughness_in']! / g['D_in']!);
    const length = (f * g['L_ft']! * mPerFt) / bore;
    const loss = ((length + g['K_total']! + g['alpha']! - 1) * velocity ** 2) / 2 / g['g']!;
    const head = suctionHeadAvailable(g['p_atm']!, g['p_v']!, g['rho']!, -g['z_ft']! * mPerFt, loss, g['g']!);
    return { NPSH_m: head, NPSH_ft: head / mPerFt };
  }
  if (id.startsWith('suction-oil')) {
    const fluid = { densityKgM3: g['rho']!, viscosityPaS: g['nu']! * g['rho']! };
    const flow = g['Q_L_min']! / 60000;
    const law = seriesLaw([
      lineLoss({ where: 'feed', boreM: g['D']!, lengthM: g['L']!, roughnessM: 0 }).under(fluid),
      coefficientLoss('fittings', g['D']!, g['K_minor']!).under(fluid),
    ]);
    const velocity = lineVelocity(flow, g['D']!);
    return {
      p_inlet_abs_Pa: pumpInletAbsPa(g['p_tank_abs']!, g['rho']!, g['lift_m']!, law(flow).dropPa, velocity),
      Re: boreReynolds(flow, g['D']!, fluid.densityKgM3, fluid.viscosityPaS),
      V: velocity,
    };
  }
  throw new Error(`no check for the published value ${id}`);
}

describe.each([
  ['flow.pdpump', workedPump],
  ['flow.suction', workedSuction],
] as const)('%s agrees with', (area, worked) => {
  it.each(published(area).map((item) => [named(item), item]))('%s', (_, item) => {
    for (const [name, value] of Object.entries(worked(item.id, { ...item.inputs }))) {
      const expected = name === 'only' ? expectedNumber(item) : expectedOf(item, name);
      expect(Math.abs(value - expected), `${name}: ${value} for ${expected}`).toBeLessThanOrEqual(
        tolerance(item, expected),
      );
    }
  });
});

const gear = {
  where: 'pressure stage',
  displacementM3: 25e-6,
  driveRatio: 0.5,
  slip: { volumetricEfficiency: 0.92, atTurnsPerS: 50, atRisePa: 4e5, atViscosityPaS: 0.012 },
};

describe('a displacement pump', () => {
  it('gives at its measured point what was measured', () => {
    const k = slipOf(gear);
    expect(k).toBe(slipConstant(25e-6, 50, 0.92, 4e5, 0.012));
    const law = displacementPumpLaw(gear, 100, { densityKgM3: 850, viscosityPaS: 0.012 });
    expect(law(0.92 * 25e-6 * 50).dropPa).toBeCloseTo(-4e5, 5);
  });

  it('is a rising law at any speed, at rest too, and slips less when cold', () => {
    for (const n of [0, 15, 120]) {
      expect(monotoneLaw(displacementPumpLaw(gear, n, hotOil), -2e-3, 5e-3)).toEqual({ rises: true });
      const flowAgainst = (fluid: typeof hotOil) =>
        25e-6 * 0.5 * n - 4e5 / displacementPumpLaw(gear, n, fluid)(0).slope;
      expect(flowAgainst(coldOil)).toBeGreaterThan(flowAgainst(hotOil));
    }
  });

  it.each([
    [{ displacementM3: 0 }, 'flow: pressure stage, displacement: 0; allowed: a number above 0 m3'],
    [{ driveRatio: -1 }, 'flow: pressure stage, drive ratio: -1; allowed: a number above 0'],
    [{ slip: { constantM3: 0 } }, 'flow: pressure stage, slip constant: 0; allowed: a number above 0 m3'],
    [
      { slip: { ...gear.slip, volumetricEfficiency: 1 } },
      'flow: pressure stage, volumetric efficiency: 1; allowed: above 0, below 1',
    ],
  ])('%j is refused with one line', (change, message) => {
    expect(() => displacementPumpLaw({ ...gear, ...change }, 50, hotOil)).toThrow(message);
  });
});

const water = {
  where: 'water pump',
  curveTurnsPerS: 50,
  curve: [
    { flowM3S: 0, headM: 12 },
    { flowM3S: 1e-3, headM: 11.5 },
    { flowM3S: 2e-3, headM: 9.8 },
    { flowM3S: 3e-3, headM: 6 },
  ],
};

describe('a centrifugal pump', () => {
  it('goes through its points at the speed of the curve', () => {
    const law = centrifugalPumpLaw(water, 50, 1000);
    for (const { flowM3S, headM } of water.curve) expect(law(flowM3S).dropPa).toBeCloseTo(-headM * 9806.65, 6);
  });

  // published: the affinity laws of the flow-of-fluids handbook's pump chapter: flow with the speed, head with its square.
  it('goes with the speed by the affinity laws', () => {
    const law = centrifugalPumpLaw(water, 100, 1000);
    for (const { flowM3S, headM } of water.curve) expect(law(2 * flowM3S).dropPa).toBeCloseTo(-4 * headM * 9806.65, 5);
  });

  it('rises as a law at any speed, beyond its points, backward and at rest, with an exact slope (seed 71)', () => {
    const draw = seeded(71);
    for (let i = 0; i < 60; i++) {
      let [flow, head] = [0, spread(draw, 5, 40)];
      const curve = [{ flowM3S: 0, headM: head }];
      for (let k = 0; k < 2 + Math.floor(draw(0, 5)); k++) {
        flow += spread(draw, 1e-4, 1e-3);
        head *= draw(0.6, 0.999);
        curve.push({ flowM3S: flow, headM: head });
      }
      for (const n of [0, 5, 50, 120]) {
        const law = centrifugalPumpLaw({ ...water, curve }, n, 1000);
        expect(monotoneLaw(law, -2 * flow, 4 * flow)).toEqual({ rises: true });
        const q = draw(-flow, 3 * flow);
        const h = 1e-7 * flow;
        const numeric = (law(q + h).dropPa - law(q - h).dropPa) / (2 * h);
        expect(Math.abs(numeric / law(q).slope - 1)).toBeLessThan(1e-4);
      }
      expect(centrifugalPumpLaw({ ...water, curve }, 0, 1000)(0).dropPa).toBeCloseTo(0, 12);
    }
  });

  it.each([
    [{ curve: [] }, 'flow: water pump, points of the pump curve: 0; allowed: 2 points or more'],
    [
      {
        curve: [
          { flowM3S: 0, headM: 10 },
          { flowM3S: 1e-3, headM: 10.4 },
          { flowM3S: 2e-3, headM: 8 },
        ],
      },
      'flow: water pump, pump curve from 0 to 0.001 m3/s: head goes from 10 to 10.4 m; allowed: a head that falls with the flow (a hump is unstable: two flows at one head)',
    ],
    [
      {
        curve: [
          { flowM3S: 1e-3, headM: 10 },
          { flowM3S: 1e-3, headM: 9 },
        ],
      },
      'flow: water pump, flow of point 1 of the pump curve: 0.001 m3/s; allowed: above 0.001 m3/s, the point before',
    ],
    [
      {
        curve: [
          { flowM3S: 0, headM: 10 },
          { flowM3S: 1e-3, headM: Number.NaN },
        ],
      },
      'flow: water pump, head of point 1 of the pump curve: NaN; allowed: 0 or a number above 0 m',
    ],
    [{ curveTurnsPerS: 0 }, 'flow: water pump, speed of the curve: 0; allowed: a number above 0 1/s'],
  ])('%j is refused with one line', (change, message) => {
    expect(() => centrifugalPumpLaw({ ...water, ...change }, 50, 1000)).toThrow(message);
  });
});
