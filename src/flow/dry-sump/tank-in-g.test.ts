import { describe, expect, it } from 'vitest';
import { boxCar, boxCircuit } from './box-car.fixture.ts';
import { drySumpState } from './dry-sump-state.ts';
import { tankCaseFindings } from './tank-case-findings.ts';
import { tankLayoutFindings } from './tank-findings.ts';
import { tanksInCase, tanksUnderG } from './tank-in-g.ts';

/** Bore of the box car's feed: taken from the circuit, as the tests by hand need it [m]. */
const boreM = (ready: ReturnType<typeof boxCircuit>, line: string): number =>
  ready.drawn.runs.find((run) => run.line === line)!.stretches[0]!.boreMm / 1000;

function inCase(wish: Parameters<typeof boxCircuit>[0] = {}) {
  const ready = boxCircuit(wish);
  const state = drySumpState(ready, ready.car.cases![0]!);
  if ('why' in state) throw new Error(state.why);
  return { ready, state, tank: tanksInCase(ready, state)[0]! };
}

describe('a tank in its circuit', () => {
  it('stands covered by the depth of its oil, air over it, worked by hand', () => {
    const { ready, tank } = inCase();
    // 8 L over 0.2 m x 0.2 m: 200 mm over an outlet in the floor; 16 L held.
    expect(tank.cover).toMatchObject({ covering: 'covered' });
    expect(tank.cover.headMm).toBeCloseTo(200, 6);
    expect(tank.leastM3).toBeCloseTo(0, 9);
    const [all] = tanksUnderG(ready, ready.car.cases!);
    expect(all!.airOverM3.running).toBeCloseTo(0.008, 9);
    expect(all!.airOverM3.standing).toBeCloseTo(0.0072, 9);
  });

  it('says the greatest g of an outlet in the middle of the floor, by hand', () => {
    const ready = boxCircuit({ tankL: 3 });
    const [tank] = tanksUnderG(ready, ready.car.cases!);
    // 3 L stand 75 mm deep. Where the surface has the slope s and leaves the floor, a wedge of base b holds s b^2/2 * 0.2 = 3e-3;
    // the far rim of the bore is bared when b = 0.1 + r: s = 0.03 / (0.1 + r)^2, at the wall below the lid of 400 mm.
    const r = boreM(ready, 'F') / 2;
    const slope = 0.03 / (0.1 + r) ** 2;
    expect(slope * (0.1 + r)).toBeLessThan(0.4);
    for (const deg of [0, 90, 180, 270]) {
      const row = tank!.greatest[0]!.rows.find(({ directionDeg }) => directionDeg === deg)!;
      expect(row.g).toBeCloseTo(slope, 6);
    }
  });

  it('runs bare in the seconds that the pan takes to swallow what is spare, by hand', () => {
    // At 2 g in a left-hander the pan's oil (200 mm wide, 100 deep, pick-up in the middle) leans on its right wall.
    const { ready, tank, state } = inCase({
      cases: [{ id: 'corner', engineRpm: 6000, oilC: 100, g: { rightG: -2 }, lastsS: 9 }],
    });
    const [up] = tank.pickUps;
    expect(up!.cover.covering).toBe('uncovered');
    // Up to the bore's near rim the wedge has the base b = 0.1 - r and would be 2 b high; the lid at 100 mm cuts 0.1^2/(2 * 2) off.
    const b = 0.1 - boreM(ready, 'S') / 2;
    expect(up!.firstM3).toBeCloseTo(0.4 * (0.1 * b - 0.0025), 9);
    const spare = 0.008 - tank.leastM3!;
    const comes = state.oilInto('pan');
    expect(tank.keptBackM3).toBeCloseTo(up!.firstM3 - 0.0002, 9);
    expect(tank.keptBackM3).toBeLessThan(spare);
    expect(tank.secondsCovered).toBe(Infinity);
    const low = inCase({
      tankL: 2.5,
      cases: [{ id: 'corner', engineRpm: 6000, oilC: 100, g: { rightG: -2 }, lastsS: 9 }],
    });
    // 2.5 L at a slope of 2: least fill 2 (0.1 + r)^2/2 * 0.2 while the lid is not met.
    const rim = 0.1 + boreM(ready, 'F') / 2;
    expect(low.tank.leastM3).toBeCloseTo(0.2 * rim ** 2, 8);
    expect(low.tank.secondsCovered).toBeCloseTo((0.0025 - 0.2 * rim ** 2) / comes, 4);
  });

  it('counts seconds of a net draw, the scavenge too small', () => {
    const { tank, state } = inCase({ scavengeCc: 6 });
    const net = tank.drawnM3S - tank.returnedM3S;
    expect(net).toBeGreaterThan(1e-4);
    expect(state.scavenge.stages[0]!.leftM3S).toBeCloseTo(net, 9);
    expect(tank.secondsCovered).toBeCloseTo(0.008 / net, 6);
  });

  it('lets bubbles rise as the slow law says, whatever the fill of an upright tank', () => {
    const [eight, four] = [inCase(), inCase({ tankL: 4 })].map(({ tank }) => tank.air!);
    expect(eight!.dwellS).toBeCloseTo(2 * four!.dwellS, 2);
    expect(eight!.smallestM).toBeCloseTo(four!.smallestM, 6);
    // d = sqrt(18 mu Q/(g (rho - rho_a) A)), A = 0.04 m2.
    const { state, tank } = inCase();
    const { viscosityPaS, densityKgM3 } = state.asked.fluid;
    const byHand = Math.sqrt((18 * viscosityPaS * tank.drawnM3S) / (9.80665 * (densityKgM3 - 0.946) * 0.04));
    expect(tank.air!.smallestM).toBeCloseTo(byHand, 6);
  });

  it('swings past its rest as a free pendulum does', () => {
    const { tank } = inCase({ cases: [{ id: 'c', engineRpm: 6000, oilC: 100, g: { rightG: -0.5 } }] });
    // Box of 200 mm: w^2 = (pi g/L) tanh(pi h/L), h = L: 1.97 Hz.
    const f = Math.sqrt(((Math.PI * 9.80665) / 0.2) * Math.tanh(Math.PI)) / (2 * Math.PI);
    expect(tank.wave!.wave.frequencyHz).toBeCloseTo(f, 6);
    expect(tank.wave!.step.restDeg).toBeCloseTo((Math.atan(0.5) * 180) / Math.PI, 6);
    expect(tank.wave!.step.mostDeg).toBeGreaterThan(1.8 * tank.wave!.step.restDeg);
  });
});

describe('findings of a tank', () => {
  const codes = (wish: Parameters<typeof boxCircuit>[0]): Map<string, string> => {
    const { ready, state } = inCase(wish);
    const found = [
      ...tankLayoutFindings(ready, tanksUnderG(ready, boxCar(wish).cases!), boxCar(wish).cases!),
      ...tankCaseFindings(ready, state, tanksInCase(ready, state)),
    ];
    return new Map(found.map(({ code, level, text }) => [code, `${level} ${text}`]));
  };

  it('name too little air, an overfull standstill, a bare outlet with what it needs', () => {
    expect(codes({ tankL: 15 }).get('tank-air')).toMatch(/^fix 1\.0 L of air over the oil in the tank/);
    expect(codes({ tankL: 15.5 }).get('hidden-oil')).toMatch(/^stop .* 0\.3 L more than there is room for/);
    const bare = codes({ tankL: 1, cases: [{ id: 'c', engineRpm: 6000, oilC: 100, g: { forwardG: 2 } }] });
    expect(bare.get('outlet-bare')).toMatch(/^stop c: tank\.out stands/);
    expect(bare.get('least-fill')).toMatch(/^stop .* it runs with 1\.0 L/);
    expect(codes({}).has('tank-air')).toBe(false);
  });
});
