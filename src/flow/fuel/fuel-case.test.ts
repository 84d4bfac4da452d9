import { describe, expect, it } from 'vitest';
import type { CircuitFlow } from '../circuit/flow-answer.ts';
import { fuel, fuelCar, fuelIn } from './fuel-car.fixture.ts';

const all = (flow: CircuitFlow) => [...flow.findings, ...flow.states.flatMap(({ findings }) => findings)];
const found = (flow: CircuitFlow, code: string) => all(flow).find((row) => row.code === code);
const answer = (flow: CircuitFlow) => flow.states[0]!.fuel!;

describe('fuel of a car', () => {
  it('goes round as counted by hand: 120 L/h burnt, 4 L/min lifted, 5 to the rail', () => {
    const flow = fuel();
    const { liftM3S, pressureM3S, returnM3S, burnM3S, potS } = answer(flow);
    expect(burnM3S! * 60_000).toBeCloseTo(2, 9);
    expect(liftM3S * 60_000).toBeCloseTo(4, 2);
    expect(pressureM3S * 60_000).toBeCloseTo(5, 1);
    expect(returnM3S).toBeCloseTo(pressureM3S - burnM3S!, 9);
    // What comes into the full pot goes over: 4 + 3 - 5.
    expect(flow.states[0]!.lines.find(({ line }) => line === 'F2')!.flowM3S * 60_000).toBeCloseTo(2, 1);
    // 2 L at 2 L/min.
    expect(potS).toBeCloseTo(60, 9);
    expect(answer(flow).railPa! / 1e5).toBeGreaterThan(3.9);
    expect(answer(flow).railPa! / 1e5).toBeLessThan(4.1);
    expect(all(flow).filter(({ level, line }) => level === 'stop' && line !== 'F5')).toEqual([]);
  });

  it('whose lift is short is named, with the seconds to an empty pot and the lift that would do', () => {
    const short = found(fuel({ liftLMin: 1.5 }), 'lift-short')!;
    // 2 L at 0.5 L/min net: 240 s.
    expect(short).toMatchObject({ level: 'stop', limit: 1.3 });
    expect(short.text).toMatch(/the pot is empty after 24[01] s/u);
    // At 2.6 L/min the bar that it lifts against costs it a hair: the car with the cure's own figure is well, one step less is not.
    const lift = Number(/^lift of ([\d.]+) L\/min instead of 1\.5 L\/min: 1\.3\d times/u.exec(short.cures[0]!)![1]);
    expect(found(fuel({ liftLMin: lift }), 'lift-short')).toBeUndefined();
    expect(found(fuel({ liftLMin: lift - 0.1 }), 'lift-short')).toBeDefined();
    expect(found(fuel({ liftLMin: 2.4 }), 'lift-short')!.level).toBe('fix');
    expect(found(fuel({ liftLMin: 2.7 }), 'lift-short')).toBeUndefined();
  });

  it('whose pot does not last the corner is named with the pot that would', () => {
    const short = found(fuel({ potL: 2, burnLPerH: 120, lastsS: 90 }), 'pot-short')!;
    expect(short).toMatchObject({ limit: 90, unit: 's' });
    expect(short.value).toBeCloseTo(60, 6);
    // hand: 90 s at 2 L/min.
    expect(short.cures).toEqual(['a pot of 3.0 L instead of 2 L: 90 s instead of 60 s']);
    expect(found(fuel(), 'pot-short')).toBeUndefined();
  });

  it('whose pressure pump gives less than is burnt stops, and the pump that its cure names does', () => {
    const short = found(fuel({ pressureLMin: 1.8 }), 'rail-short')!;
    expect(short.level).toBe('stop');
    const pump = Number(/^pressure of ([\d.]+) L\/min instead of 1\.8/u.exec(short.cures[0]!)![1]);
    expect(found(fuel({ pressureLMin: pump }), 'rail-short')).toBeUndefined();
    expect(found(fuel(), 'rail-short')).toBeUndefined();
  });

  it('that is hot comes near its vapour at the pumps, with the temperature at which it does not', () => {
    const hot = found(fuel({ fuelC: 55 }), 'vapour-lock')!;
    const cold = Number(/kept at (\d+) °C/u.exec(hot.cures[0]!)![1]);
    expect(cold).toBeLessThan(55);
    expect(found(fuel({ fuelC: cold }), 'vapour-lock')).toBeUndefined();
    expect(found(fuel({ fuelC: cold + 2 }), 'vapour-lock')).toBeDefined();
  });
});

describe('the vent of the cell', () => {
  it('straight up keeps fuel in upright and on its tail, where its mouth is dry, and lets it out upside down', () => {
    const flow = fuel();
    const out = found(flow, 'vent-under-fuel')!;
    expect(out).toMatchObject({ level: 'stop', line: 'F5' });
    expect(out.text).toContain('upside down');
    expect(out.text).not.toContain('tail');
    // Upside down the surface stands 200 mm over the cell's top, which is where the vent's highest point is.
    const down = answer(flow).vent!.attitudes.find(({ words }) => words === 'upside down')!;
    expect(down.mouthCovered).toBe(true);
    expect(down.highestOverMm).toBeCloseTo(-200, 0);
  });

  it('led round the cell as its cure says keeps the fuel in whichever way the car lies', () => {
    const [cure, ball] = found(fuel(), 'vent-under-fuel')!.cures;
    // hand: corner to corner of a box of 300 x 600 x 400 mm: 320 + 671 + 400 + 671 + 400 = 2462 mm.
    expect(cure).toMatch(
      /^F5 led round the cell, 50 mm off it, .*\(2\.5 m more\): fuel runs out in no way the car was laid/u,
    );
    // Builders' reports: a ball shuts only fully upside down, so that of the four ways in which fuel runs out three are left.
    expect(ball).toBe(
      'a ball valve in F5 at the cell, upright, if it is tight: it shuts upside down; fuel still runs out on its right side, on its left side, on its nose',
    );
  });

  it('led down past the bottom of the cell keeps it in upside down', () => {
    const flow = fuel({ ventAtMm: [1050, 400, -60] });
    const down = answer(flow).vent!.attitudes.find(({ words }) => words === 'upside down')!;
    expect(down.highestOverMm).toBeCloseTo(160, 0);
    expect(found(flow, 'vent-under-fuel')?.text ?? '').not.toContain('upside down');
  });

  it('lets fuel out in braking where all of it lies under the tilted surface, by hand, and not led up or round the cell', () => {
    const braked = (ventAtMm: readonly number[]): CircuitFlow => {
      const car = fuelCar({ cellFillL: 26, ventAtMm });
      car.cases![0]!.g = { forwardG: -1 };
      return fuelIn(car);
    };
    const out = found(braked([1050, 400, 250]), 'vent-in-corner')!;
    // 4 L empty at the back: a corner of 500 mm with equal sides, sqrt(2 x 8000) = 126.5 mm: the surface runs through (1073.5, 300),
    // 45 degrees up to the front. Up the pull the mouth (1050, 300) lies (1350 - 1373.5)/sqrt(2) = -16.6 mm from it, the exit deeper.
    expect(out).toMatchObject({ level: 'stop', line: 'F5', unit: 'mm' });
    expect(out.value).toBeCloseTo(-16.6, 0);
    expect(out.cures[0]).toMatch(/^F5 led round the cell, .*: its highest point \d+ mm over the fuel at this g/u);
    expect(found(braked([1050, 400, 600]), 'vent-in-corner')).toBeUndefined();
    expect(found(fuel({ cellFillL: 26, ventAtMm: [1050, 400, 250] }), 'vent-in-corner')).toBeUndefined();
  });
});
