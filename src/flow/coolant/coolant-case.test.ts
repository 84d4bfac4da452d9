import { describe, expect, it } from 'vitest';
import type { Car } from '#car';
import { catalogue } from '#standards';
import { seeded } from '../../../test/flow/fluids-for-tests.ts';
import { readyCircuit } from '../circuit/circuit-state.ts';
import { drawnCircuit } from '../circuit/drawn-circuit.ts';
import type { CircuitFlow } from '../circuit/flow-answer.ts';
import { FlowError } from '../flow-error.ts';
import { coolantCases } from './coolant-case.ts';
import { coolantState } from './coolant-state.ts';
import { coolantHeights } from './heights.ts';
import { heightsFindings } from './heights-findings.ts';
import { flowOfCar } from '../flow-of-car.ts';
import { water, waterCar, type WaterCarWish as Wish } from './water-car.fixture.ts';

const only = (flow: CircuitFlow) => flow.states[0]!;
const codes = (flow: CircuitFlow): string[] =>
  [...flow.findings, ...flow.states.flatMap(({ findings }) => findings)].map(({ code }) => code);
const found = (flow: CircuitFlow, code: string) =>
  [...flow.findings, ...flow.states.flatMap(({ findings }) => findings)].find((row) => row.code === code);

/** One case of the water, without its cures. */
const solved = (wish: Wish) => {
  const car = waterCar(wish);
  const ready = readyCircuit(car, drawnCircuit(car, catalogue(), car.circuits![0]!, new Map()), new Map());
  const state = coolantState(ready, car.cases![0]!);
  if ('why' in state) throw new Error(state.why);
  return state.answer;
};

describe('water of a car in a case', () => {
  it('warms in the engine by heat over what the flow carries, by hand', () => {
    const state = only(water());
    const { densityKgM3, specificHeatJKgK } = state.fluid!;
    const jacket = state.coolant!.passages.find(({ id }) => id === 'jacket')!;
    const flow = state.passages.find(({ id }) => id === 'jacket')!.flowM3S;
    expect(jacket.outC).toBeCloseTo(95, 6);
    expect(jacket.outC - jacket.inC).toBeCloseTo(
      state.coolant!.carriedOffW / (densityKgM3 * specificHeatJKgK * flow),
      6,
    );
  });

  it('balances, and settles where the heat that goes in goes off: over 25 random engines, airs and thermostats', () => {
    const draw = seeded(77);
    for (let i = 0; i < 25; i++) {
      const heatToWaterKw = draw(5, 70);
      const hot = {
        id: 'hot',
        engineRpm: draw(1500, 8000),
        airC: draw(-5, 35),
        heatToWaterKw,
        altitudeM: draw(0, 2500),
      };
      const engine = draw() < 0.5 ? {} : { thermostat: { opensC: 78, fullC: 92 } };
      const first = solved({ cases: [hot], engine });
      expect(first.imbalanceShare).toBeLessThan(1e-9);
      if (first.settlesC === null) continue;
      expect(first.settleRounds).toBeLessThan(60);
      const again = solved({ cases: [{ ...hot, coolantC: first.settlesC }], engine });
      expect(Math.abs(again.carriedOffW / (heatToWaterKw * 1000) - 1)).toBeLessThan(1e-5);
    }
  });

  it('is held up by a thermostat that is shut, and let go by one that is open', () => {
    const cases = [{ id: 'cruise', engineRpm: 3000, airC: 5, heatToWaterKw: 30 }];
    const without = solved({ cases }).settlesC!;
    const held = solved({ cases, engine: { thermostat: { opensC: 80, fullC: 95 } } }).settlesC!;
    expect(without).toBeLessThan(60);
    expect(held).toBeGreaterThan(75);
    expect(held).toBeLessThan(95);
  });

  it('settles cooler with more air at the core', () => {
    const at = (coreAirMPerS: number) =>
      solved({ cases: [{ id: 'hot', engineRpm: 6000, airC: 25, heatToWaterKw: 60, coreAirMPerS }] }).settlesC!;
    expect(at(12)).toBeLessThan(at(6));
    expect(at(6)).toBeLessThan(at(4.5));
  });

  it('comes nearer to boiling higher up and with a weaker cap; where it boils is named with its line', () => {
    const margin = (altitudeM: number, capBar: number) =>
      solved({ cases: [{ id: 'hot', engineRpm: 6000, coolantC: 100, airC: 25, altitudeM }], header: { capBar } }).worst!
        .marginK;
    expect(margin(0, 1.1)).toBeGreaterThan(margin(2000, 1.1));
    expect(margin(0, 1.1)).toBeGreaterThan(margin(0, 0.5));
    const boils = found(
      water({ cases: [{ id: 'hot', engineRpm: 6000, coolantC: 104, airC: 25 }], header: { capBar: 0 } }),
      'boiling',
    )!;
    expect(boils).toMatchObject({ level: 'stop', unit: 'K' });
    expect(boils.line).toMatch(/^W\d$/);
    expect(boils.cures.some((cure) => /^a cap of 1\.\d bar instead of none.*: \+\d+\.\d K$/u.test(cure))).toBe(true);
  });

  it('chokes a bleed that carries too much, and says what the radiator gains by it', () => {
    const bleed = found(water(), 'bleed-flow')!;
    expect(bleed.line).toBe('W4');
    expect(bleed.value).toBeGreaterThan(3);
    const [, mm, flow, gain] =
      /^a restrictor of ([\d.]+) mm in W4: ([\d.]+) L\/min through it, the radiator gains ([\d.]+)/u.exec(
        bleed.cures[0]!,
      )!;
    expect(Number(mm)).toBeLessThan(6);
    expect(Number(flow)).toBeLessThanOrEqual(3);
    expect(Number(gain)).toBeGreaterThan(0);
  });

  it('does not circulate out of the gas of the header when the car stands', () => {
    const state = only(water({ cases: [{ id: 'off', engineRpm: 0, coolantC: 90, airC: 20 }] }));
    for (const { flowM3S } of [...state.lines, ...state.passages]) expect(Math.abs(flowM3S)).toBeLessThan(1e-9);
    expect(state.coolant!.stillLines).toEqual(['W4']);
  });
});

describe('heights of the water', () => {
  it('stand as measured: bottom of the header 70 mm over the bleed, and less when rolled', () => {
    const [level, ...others] = water().heights!.attitudes;
    expect(level!.highestWords).toBe('engine.bleed');
    expect(level!.headerBottomMm! - level!.highestMm!).toBeCloseTo(70, 1);
    // 0.6 L on 100 x 100 mm: 60 mm of water.
    expect(level!.headerSurfaceMm! - level!.headerBottomMm!).toBeCloseTo(60, 1);
    expect(others).toHaveLength(4);
  });

  it('say nothing of a highest water where no line of the circuit is in the car yet', () => {
    const car = waterCar({});
    const heights = flowOfCar({ car: { ...car, lines: [] }, shelf: catalogue(), ways: new Map(), meshes: new Map() })
      .circuits[0]!;
    expect(heights.heights!.attitudes.map(({ highestMm }) => highestMm)).toEqual([null, null, null, null, null]);
    expect(codes(heights)).not.toContain('header-height');
  });

  it('name air at the radiator where its inlet stands over all that lets air out', () => {
    expect(codes(water())).not.toContain('air-trap');
    const trap = found(water({ radiatorUpMm: 200 }), 'air-trap')!;
    expect(trap).toMatchObject({ level: 'stop', part: 'radiator' });
    // Down to the engine's outlet at 540, from 650.
    expect(trap.value).toBeCloseTo(110, 3);
  });

  it('name a bleed that lets the air at the radiator out, with what runs in it: the car that has it says the same', () => {
    const trap = found(water({ radiatorUpMm: 200 }), 'air-trap')!;
    // hand: 110 mm of height over a run of 1500 x 250 x 110 mm of 34 mm bore, all of it above the engine's outlet: 1.38 L.
    expect(Number(/up to (\d+) ml/u.exec(trap.text)![1])).toBeGreaterThan(1300);
    const cure = trap.cures.find((words) => words.startsWith('a -4 bleed'))!;
    // hand: 1350 mm behind the radiator the header comes down by 71 mm nose up, 6 mm below the radiator's inlet: 10 are swept over.
    expect(cure).toMatch(/ 13\d\d mL less, no air stays there in any of the 5 ways the car was stood/u);
    const says = Number(/it carries ([\d.]+) L\/min past the radiator/u.exec(cure)![1]);
    const car = structuredClone(waterCar({ radiatorUpMm: 200 })) as Car;
    const header = car.parts.find(({ id }) => id === 'header')!;
    header.ports.push({ ...header.ports.find(({ id }) => id === 'bleed')!, id: 'bleed-2' });
    const radiator = car.parts.find(({ id }) => id === 'radiator')!;
    radiator.ports.push({ ...radiator.ports.find(({ id }) => id === 'in')!, id: 'bleed' });
    const w4 = car.lines.find(({ id }) => id === 'W4')!;
    car.lines.push({ ...w4, id: 'W5', from: 'radiator.bleed', to: 'header.bleed-2', dash: 4 });
    const [circuit] = car.circuits!;
    circuit!.lines.push('W5');
    circuit!.passages!.push({ id: 'tap', from: 'radiator.in', to: 'radiator.bleed', open: true });
    const bled = flowOfCar({ car, shelf: catalogue(), ways: new Map(), meshes: new Map() }).circuits[0]!;
    expect(found(bled, 'air-trap')).toBeUndefined();
    expect(bled.states[0]!.lines.find(({ line }) => line === 'W5')!.flowM3S * 60_000).toBeCloseTo(says, 1);
  });

  it('name a header that stands too low, and by how much it has to go up', () => {
    const low = found(water({ headerUpMm: -60 }), 'header-height')!;
    expect(low.level).toBe('fix');
    const lift = Number(/^header (\d+) mm higher: its bottom (\d+) mm over/u.exec(low.cures[0]!)![1]);
    // The car with its header that much higher is well; one step less is not.
    expect(found(water({ headerUpMm: -60 + lift }), 'header-height')!.level).toBe('note');
    expect(found(water({ headerUpMm: -60 + lift - 5 }), 'header-height')!.level).not.toBe('note');
  });

  it('fill from below, and every rung of the ladder is in order', () => {
    const { fill, ladder, linesL } = water().heights!;
    expect(fill.map(({ heightMm }) => heightMm)).toEqual(
      fill.map(({ heightMm }) => heightMm).toSorted((a, b) => a - b),
    );
    expect(fill.at(-1)!.litres).toBeLessThanOrEqual(linesL + 0.6 + 1e-9);
    const heights = ladder.map(({ heightMm }) => heightMm);
    expect(heights).toEqual(heights.toSorted((a, b) => b - a));
  });
});

describe('what a water circuit lacks is said', () => {
  it.each([
    ['no heat stated', { cases: [{ id: 'hot', engineRpm: 6000, coolantC: 95, airC: 25 }] }, 'no-heat'],
    ['nothing that takes heat off', { noDuty: true }, 'heat-stays'],
    ['no pump', { noPump: true }, 'heat-stays'],
    ['a header without a cap', { header: { capBar: undefined } }, 'no-cap'],
  ] as const)('%s', (_, wish, code) => {
    const flow = water(wish as Wish);
    expect(codes(flow)).toContain(code);
    expect(JSON.stringify(flow.states.map(({ coolant }) => coolant))).not.toMatch(/NaN/u);
    for (const { coolant } of flow.states)
      for (const value of Object.values(coolant!))
        if (typeof value === 'number') expect(Number.isFinite(value)).toBe(true);
  });

  it('a duty that its air cannot carry, with what is allowed', () => {
    const flow = water({ dutyKw: 500 });
    expect(found(flow, 'unsolved')!.text).toMatch(
      /core, duty: 500 kW at 60 K; allowed: below 8\d\.\d kW, all that its air can carry/u,
    );
  });

  it('no heat at all settles nowhere and is no fault', () => {
    const flow = water({ cases: [{ id: 'hot', engineRpm: 6000, coolantC: 95, airC: 25, heatToWaterKw: 0 }] });
    expect(only(flow).coolant!.settlesC).toBeNull();
    expect(codes(flow)).not.toContain('heat-stays');
  });

  it('one case that an element cannot be made in, by that case alone; the others and the heights stand', () => {
    const hot = { engineRpm: 6000, coolantC: 95, airC: 25, heatToWaterKw: 60 };
    const car = waterCar({ cases: ['one', 'bad', 'two'].map((id) => ({ id, ...hot })) });
    const ready = readyCircuit(car, drawnCircuit(car, catalogue(), car.circuits![0]!, new Map()), new Map());
    const liquid = ready.sorted.liquid.map((element): typeof element => ({
      ...element,
      law: (fluid, at, temperatureC) => {
        if (at.id === 'bad') throw new FlowError(element.id, at.id, 'another case');
        return element.law(fluid, at, temperatureC);
      },
    }));
    const broken = { ...ready, sorted: { ...ready.sorted, liquid } };
    const { states, heights, refused } = coolantCases(broken, car.cases!, catalogue(), () => true);
    expect(states.map((state) => ('refused' in state ? state.refused.why : state.case.id))).toEqual([
      'one',
      'W1: bad; allowed: another case',
      'two',
    ]);
    expect([heights?.attitudes.length, refused]).toEqual([5, undefined]);
  });
});

describe('a line that air stays in', () => {
  it('is tried lower, and the cure says what is left in every way the car is stood', () => {
    const car = waterCar();
    const ready = readyCircuit(car, drawnCircuit(car, catalogue(), car.circuits![0]!, new Map()), new Map());
    // W1 runs from 540 mm up to 450; a hump of 80 mm over its beginning is put into its middle, a metre long in all.
    const hump = (up: number) =>
      ready.drawn.runs.map((run) =>
        run.line !== 'W1'
          ? run
          : {
              ...run,
              stretches: [
                {
                  what: 'hose' as const,
                  boreMm: 34,
                  lengthMm: 1600,
                  pathMm: [
                    [1500, 0, 540],
                    [1000, 0, 540 - 100],
                    [750, 0, 540 + up],
                    [500, 0, 540 - 100],
                    [0, -250, 450],
                  ] as const,
                },
              ],
            },
      );
    const findingsWith = (up: number) => {
      const bent = { ...ready, drawn: { ...ready.drawn, runs: hump(up) } };
      return heightsFindings(coolantHeights(bent, undefined), {
        ready: bent,
        shelf: catalogue(),
        hot: undefined,
        idle: undefined,
        fastest: undefined,
      }).filter(({ code, line }) => code === 'air-trap' && line === 'W1');
    };
    const [trap] = findingsWith(80);
    expect(trap!.limit).toBe(10);
    // hand: down to 100 mm below the beginning, 180 mm lower on the level; only then nothing is left.
    expect(trap!.value).toBeCloseTo(180, 0);
    const first = trap!.cures.find((cure) => cure.startsWith('W1 laid'));
    expect(first).toMatch(/^W1 laid \d+ mm lower there: \d+ mL less, no air stays there in any of the 5 ways/u);
    const lower = Number(/laid (\d+)/u.exec(first!)![1]);
    // second: the line drawn that much lower has no such finding.
    expect(findingsWith(80 - lower)).toEqual([]);
    expect(findingsWith(80 - lower / 2)).not.toEqual([]);
  });
});
