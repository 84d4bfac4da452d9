import { describe, expect, it } from 'vitest';
import { coldOil, hotOil, seeded, spread, warmOil } from '../../../test/flow/fluids-for-tests.ts';
import { expectedNumber, expectedOf, named, published, tolerance } from '../../../test/published/published.ts';
import { checkValveLoss } from './check-valve.ts';
import { lineVelocity } from './line-figures.ts';
import { monotoneLaw } from './monotone-law.ts';
import {
  orificePlateFlow,
  plateDischargeCoefficient,
  plateExpansibility,
  plateLostShare,
  reliefArea,
  reliefViscosityFactor,
  restrictorFlow,
} from './orifice-flow.ts';
import { reliefValveLoss } from './relief-valve.ts';
import { restrictorLoss } from './restrictor-loss.ts';
import { screenLoss } from './screen-loss.ts';
import { thermostatLoss, thermostatOpenShare } from './thermostat-loss.ts';

/** What each published row asks. */
function worked(id: string, g: Record<string, number>, taps: string): Record<string, number> {
  if (id === 'orifice-iso5167-water') {
    const flow = (share: number) => {
      let mass = 8;
      for (let i = 0; i < 50; i++) {
        const re = (4 * mass) / (Math.PI * g['D']! * g['mu']!);
        const c = plateDischargeCoefficient(g['d']!, g['D']!, re, 'bore-and-half');
        mass = share * g['rho']! * orificePlateFlow(g['d']!, g['D']!, g['p1']! - g['p2']!, g['rho']!, c);
      }
      return mass;
    };
    // The row's k = 1.33 puts a gas's expansibility on the water; as a liquid it is the handbook's 478 L/min to 0.5 %.
    expect(Math.abs(((flow(1) / g['rho']!) * 60000) / 478 - 1)).toBeLessThan(0.005);
    const mass = flow(plateExpansibility(g['d']! / g['D']!, g['p2']! / g['p1']!, g['k']!));
    return { only: mass };
  }
  if (id.startsWith('orifice-RHG')) {
    const re = (4 * g['m']!) / (Math.PI * g['D']! * g['mu']!);
    return { only: plateDischargeCoefficient(g['d']!, g['D']!, re, taps as 'corner' | 'flange') };
  }
  if (id === 'orifice-methanol-8-10') {
    const drop = (g['rho_Hg']! - g['rho']!) * g['g']! * g['h_Hg_m']!;
    const flow = orificePlateFlow(g['d']!, g['D']!, drop, g['rho']!, g['Cd']!);
    return { Q_m3_s: flow, V_pipe: lineVelocity(flow, g['D']!) };
  }
  if (id.startsWith('orifice-restrictor'))
    return { only: 60000 * restrictorFlow(g['d_mm']! / 1000, g['dp_Pa']!, g['rho']!, g['Cd']!) };
  if (id.startsWith('relief-Kv')) return { only: reliefViscosityFactor(g['Re']!) };
  if (id === 'relief-liquid-crude') {
    const drop = 1000 * (g['p_set_kPag']! * (1 + g['overpressure']!) - g['p2_kPag']!);
    return { only: 1e6 * reliefArea(g['Q_L_min']! / 60000, drop, 1000 * g['G']!, g['Kd']!, g['Kw']!, g['Kv']!) };
  }
  throw new Error(`no check for the published value ${id}`);
}

describe('holes and valves agree with', () => {
  it.each(published('flow.orifice').map((item) => [named(item), item]))('%s', (_, item) => {
    const { taps } = item.inputs as unknown as { taps: string };
    const given = worked(item.id, { ...item.inputs }, taps);
    for (const [name, value] of Object.entries(given)) {
      const expected = name === 'only' ? expectedNumber(item) : expectedOf(item, name);
      expect(Math.abs(value - expected), `${value} for ${expected}`).toBeLessThanOrEqual(tolerance(item, expected));
    }
  });

  // second: python3-fluids 1.0.22; python3 -c "from fluids.flow_meter import dP_orifice;
  // print(dP_orifice(D=0.07, Do=0.035, P1=2e5, P2=1.8e5, C=0.61)/2e4)"
  it('python3-fluids on the share of the drop that an orifice plate keeps', () => {
    expect(plateLostShare(0.5, 0.61)).toBeCloseTo(0.7307275395, 9);
  });
});

const relief = { where: 'relief', cracksAtPa: 4e5, fullAtPa: 6e5, fullFlowM3S: 8e-4, boreM: 0.012 };
const check = {
  where: 'check',
  boreM: 0.012,
  cracksAtPa: 3000,
  openCoefficient: 5,
  leak: { flowM3S: 1e-8, atPa: 1e5 },
};
const thermostat = {
  where: 'thermostat',
  boreM: 0.035,
  opensAtC: 82,
  fullAtC: 95,
  openCoefficient: 6,
  bleedShare: 0.02,
};
const screen = { where: 'screen', boreM: 0.022, openShare: 0.5, wireM: 0.0003 };

describe('the law of', () => {
  it.each([
    ['a restrictor', restrictorLoss({ where: 'turbo feed', boreM: 0.0011 }), 1e-4],
    ['a long restrictor', restrictorLoss({ where: 'turbo feed', boreM: 0.0011, lengthM: 0.004, discharge: 0.8 }), 1e-4],
    ['a restrictor in a pipe', restrictorLoss({ where: 'jet', boreM: 0.005, pipeBoreM: 0.008 }), 1e-3],
    ['a relief valve', reliefValveLoss(relief), 3e-3],
    ['a check valve', checkValveLoss(check), 1e-3],
    ['a flap without a spring', checkValveLoss({ ...check, cracksAtPa: 0 }), 1e-3],
    ['a shut thermostat', thermostatLoss(thermostat, 20), 3e-3],
    ['an open thermostat', thermostatLoss(thermostat, 100), 3e-3],
    ['a screen', screenLoss(screen), 1e-3],
    ['a clogged screen', screenLoss({ ...screen, cloggedShare: 0.6 }), 1e-3],
  ])('%s rises, with the slope of the central difference', (_, loss, most) => {
    for (const fluid of [hotOil, coldOil]) {
      const law = loss.under(fluid);
      expect(monotoneLaw(law, -most, most)).toEqual({ rises: true });
      const draw = seeded(51);
      for (let i = 0; i < 400; i++) {
        const flow = spread(draw, 1e-12, most) * (i % 2 === 0 ? 1 : -1);
        const h = 1e-5 * Math.abs(flow);
        const numeric = (law(flow + h).dropPa - law(flow - h).dropPa) / (2 * h);
        // Where a law is nearly level the difference of two drops has few digits left: they count against the drop too.
        const rounding = (1e-15 * Math.abs(law(flow).dropPa)) / h;
        expect(Math.abs(numeric - law(flow).slope)).toBeLessThan(1e-5 * law(flow).slope + rounding);
      }
      // Smooth through rest.
      expect(law(1e-22).slope / law(-1e-22).slope).toBeCloseTo(1, 5);
    }
  });

  it('a restrictor at high flow is the closed form, and creeping the exact law of a hole', () => {
    const thin = { densityKgM3: 850, viscosityPaS: 1e-6 };
    const law = restrictorLoss({ where: 'jet', boreM: 0.0015, discharge: 0.62 }).under(thin);
    expect(law(restrictorFlow(0.0015, 4e5, 850, 0.62)).dropPa / 4e5).toBeCloseTo(1, 4);
    // hand: Sampson's 24 mu Q/d^3 at Re 0.001: the square law is 7e-5 of it.
    const creeping = restrictorLoss({ where: 'jet', boreM: 0.0015 }).under(coldOil);
    expect(creeping(1e-12).dropPa / ((24 * coldOil.viscosityPaS * 1e-12) / 0.0015 ** 3)).toBeCloseTo(1, 4);
  });

  it('a relief valve: nearly shut below cracking, half way at the middle, full flow at its pressure', () => {
    const law = reliefValveLoss(relief).under({ densityKgM3: 850, viscosityPaS: 1e-5 });
    // hand: 0.71 of 4 bar needs less than 1e-4 of the full flow.
    expect(law(relief.fullFlowM3S * 1.01e-4).dropPa).toBeGreaterThan(0.71 * relief.cracksAtPa);
    expect(law(relief.fullFlowM3S / 2).dropPa).toBeCloseTo(5e5, -3);
    expect(law(relief.fullFlowM3S).dropPa).toBeCloseTo(6e5, -3);
    // Beyond, a hole: twice the flow needs nearly four times the pressure.
    expect(law(2 * relief.fullFlowM3S).dropPa / 6e5).toBeGreaterThan(3.5);
    expect(law(2 * relief.fullFlowM3S).dropPa / 6e5).toBeLessThan(4.1);
    expect(law(-1e-6).dropPa).toBeLessThan(-relief.cracksAtPa);
    // No jump where the line ends and where the hole begins.
    for (const at of [1, 1.1]) {
      const [below, above] = [law(at * relief.fullFlowM3S * (1 - 1e-9)), law(at * relief.fullFlowM3S * (1 + 1e-9))];
      expect(Math.abs(above.dropPa / below.dropPa - 1)).toBeLessThan(1e-7);
      expect(Math.abs(above.slope / below.slope - 1)).toBeLessThan(1e-6);
    }
  });

  it('a relief valve passes less of a thick oil, by Kv', () => {
    const reynolds = (850 * relief.fullFlowM3S * 4) / (Math.PI * relief.boreM * 0.6);
    const full = relief.fullFlowM3S * reliefViscosityFactor(reynolds);
    expect(reliefViscosityFactor(reynolds)).toBeLessThan(0.75);
    expect(reliefValveLoss(relief).under({ densityKgM3: 850, viscosityPaS: 0.6 })(full).dropPa).toBeCloseTo(6e5, -3);
  });

  it('a check valve opens at its pressure and holds back', () => {
    const law = checkValveLoss(check).under(warmOil);
    expect(law(1e-6).dropPa).toBeGreaterThan(0.95 * check.cracksAtPa);
    expect(Math.abs(law(-check.leak.flowM3S).dropPa / -check.leak.atPa - 1)).toBeLessThan(0.011);
  });

  it('a thermostat by temperature: its bleed, then a straight line, then open', () => {
    const open = (c: number) => thermostatOpenShare(thermostat, c);
    expect([20, 82, 88.5, 95, 120].map(open)).toEqual([0.02, 0.02, 0.51, 1, 1]);
    const drop = (c: number) => thermostatLoss(thermostat, c).under(hotOil)(1e-3).dropPa;
    for (let c = 70; c < 100; c++) expect(drop(c)).toBeGreaterThanOrEqual(drop(c + 1));
  });

  it('a screen loses more, the more it is clogged or the finer its mesh', () => {
    const drop = (change: object) => screenLoss({ ...screen, ...change }).under(hotOil)(3e-4).dropPa;
    expect(drop({ cloggedShare: 0.5 })).toBeGreaterThan(drop({}));
    expect(drop({ openShare: 0.4 })).toBeGreaterThan(drop({}));
    expect(drop({ wireM: 0.0001 })).toBeGreaterThan(drop({}));
  });
});

describe('what cannot be is refused with one line', () => {
  it.each([
    [() => restrictorLoss({ where: 'jet', boreM: 0 }), 'flow: jet, bore: 0; allowed: a number above 0 m'],
    [
      () => restrictorLoss({ where: 'jet', boreM: 0.002, pipeBoreM: 0.002 }),
      'flow: jet, bore of the pipe: 0.002; allowed: wider than the restrictor, 0.002 m',
    ],
    [
      () => restrictorLoss({ where: 'jet', boreM: 0.002, discharge: 1.2 }),
      'flow: jet, discharge coefficient: 1.2; allowed: 0.3 to 1',
    ],
    [
      () => reliefValveLoss({ ...relief, fullAtPa: 4e5 }),
      'flow: relief, pressure of full flow: 400000; allowed: above the cracking pressure of 400000 Pa',
    ],
    [
      () => reliefValveLoss({ ...relief, cracksAtPa: Number.NaN }),
      'flow: relief, cracking pressure: NaN; allowed: a number above 0 Pa',
    ],
    [
      () => checkValveLoss({ ...check, leak: { flowM3S: 0, atPa: 1 } }),
      'flow: check, flow that leaks back: 0; allowed: a number above 0 m3/s',
    ],
    [
      () => thermostatLoss({ ...thermostat, fullAtC: 82 }, 20),
      'flow: thermostat, temperature of full opening: 82; allowed: above the opening at 82 C',
    ],
    [() => thermostatLoss(thermostat, Number.NaN), 'flow: thermostat, temperature: NaN; allowed: a finite number C'],
    [() => screenLoss({ ...screen, openShare: 0 }), 'flow: screen, open share: 0; allowed: above 0, below 1'],
    [
      () => screenLoss({ where: 'screen', openShare: 0.5, wireM: 0.001 }),
      'flow: screen, area: NaN; allowed: a number above 0 m2',
    ],
  ])('%s', (make, message) => {
    expect(make).toThrow(message);
  });
});

describe('monotoneLaw', () => {
  it('names where a law fails', () => {
    const hump = (q: number) => ({ dropPa: q * q - q, slope: 2 * q - 1 });
    expect(monotoneLaw(hump, 0, 2)).toMatchObject({ rises: false, atM3S: 0, why: 'the slope is -1 Pa s/m3 at 0 m3/s' });
    const falls = (q: number) => ({ dropPa: q > 1 ? q - 1 : q, slope: 1 });
    expect(monotoneLaw(falls, 0, 2)).toMatchObject({ rises: false });
    expect(monotoneLaw((q) => ({ dropPa: 1 / q, slope: 1 }), -1, 1)).toMatchObject({ rises: false });
    expect(monotoneLaw((q) => ({ dropPa: q, slope: Infinity }), -1, 1)).toMatchObject({ rises: false });
    expect(monotoneLaw((q) => ({ dropPa: q, slope: 1 }), 1, 1)).toMatchObject({ rises: false });
    expect(monotoneLaw((q) => ({ dropPa: q, slope: 1 }), -1, 1)).toEqual({ rises: true });
  });
});
