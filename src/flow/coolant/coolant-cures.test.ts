import { describe, expect, it } from 'vitest';
import type { Car, Part } from '#car';
import { catalogue } from '#standards';
import type { CircuitFlow } from '../circuit/flow-answer.ts';
import type { FlowFinding } from '../finding.ts';
import { waterCar, waterIn, type WaterCarWish } from './water-car.fixture.ts';

/** What a cure names is put into the car file and the car worked out anew, or reckoned by hand: it must say the same. */
type Change = (car: Car) => void;
const changed = (wish: WaterCarWish, ...changes: Change[]): Car => {
  const car = structuredClone(waterCar(wish)) as Car;
  for (const change of changes) change(car);
  return car;
};
const all = ({ findings, states }: CircuitFlow): FlowFinding[] => [
  ...findings,
  ...states.flatMap((state) => state.findings),
];
const cureOf = (car: Car, code: string, like: RegExp): number[] => {
  const cures = all(waterIn(car))
    .filter((row) => row.code === code)
    .flatMap((row) => row.cures);
  const match = cures.flatMap((words) => like.exec(words) ?? []);
  if (match.length === 0) throw new Error(`no cure of ${code} like ${like.source} among ${JSON.stringify(cures)}`);
  return match.slice(1).map(Number);
};
const settlesC = (car: Car): number => waterIn(car).states[0]!.coolant!.settlesC!;
const circuitOf = (car: Car) => car.circuits![0]!;
const sized =
  (id: string, dash: number): Change =>
  (car) => {
    const row = car.lines.find((line) => line.id === id)!;
    delete row.boreMm;
    row.dash = dash;
  };

describe('water that is too hot', () => {
  const wish = { cases: [{ id: 'hot', engineRpm: 6000, coolantC: 70, airC: 25, heatToWaterKw: 60 }] };
  const before = settlesC(waterCar(wish));

  it('is cooler with more air by what the cure says', () => {
    const [mPerS, cooler] = cureOf(waterCar(wish), 'too-hot', /^air at the core (12\.0) m\/s .*: \+([\d.]+) K/u) as [
      number,
      number,
    ];
    const car = changed(wish, (row) => void Object.assign(row.cases![0]!, { coreAirMPerS: mPerS }));
    expect(before - settlesC(car)).toBeCloseTo(cooler, 1);
  });

  it('is cooler with twice the core as with two of them side by side', () => {
    const [cooler] = cureOf(waterCar(wish), 'too-hot', /^core of 2 times the face.*: \+([\d.]+) K/u) as [number];
    const two = changed(wish, (row) => {
      const core = circuitOf(row).passages!.find(({ id }) => id === 'core')!;
      circuitOf(row).passages!.push({ ...structuredClone(core), id: 'core-2' });
    });
    expect(before - settlesC(two)).toBeCloseTo(cooler, 1);
  });
});

describe('water that runs cold', () => {
  it('is held up by the thermostat that the cure names', () => {
    const wish = { cases: [{ id: 'cruise', engineRpm: 3000, airC: 5, heatToWaterKw: 30 }] };
    const [opensC, fullC, holds] = cureOf(
      waterCar(wish),
      'settles',
      /^a thermostat that begins to open at (\d+) °C and is open at (\d+): the water settles at ([\d.]+) °C/u,
    ) as [number, number, number];
    expect(settlesC(waterCar({ ...wish, engine: { thermostat: { opensC, fullC } } }))).toBeCloseTo(holds, 1);
  });
});

describe('water near its boiling', () => {
  it('keeps off it under a harder cap by what the cure says', () => {
    const cases = [{ id: 'hot', engineRpm: 6000, coolantC: 105, airC: 25 }];
    const under = (capBar: number): Car => waterCar({ cases, header: { capBar } });
    const margin = (car: Car): number => waterIn(car).states[0]!.coolant!.worst!.marginK;
    const [cap, gains] = cureOf(under(0.5), 'boiling', /^a cap of (1\.0) bar instead of 0\.5 bar.*: \+([\d.]+) K/u) as [
      number,
      number,
    ];
    expect(margin(under(cap)) - margin(under(0.5))).toBeCloseTo(gains, 1);
  });
});

describe('a line that water runs fast in', () => {
  it('is told the size in which it does not, flow over area', () => {
    const fast = changed({}, sized('W1', 16));
    const [dash, speed] = cureOf(fast, 'water-speed', /^W1 in -(\d+), not -16: ([\d.]+) m\/s, which is enough/u) as [
      number,
      number,
    ];
    const flow = waterIn(changed({}, sized('W1', dash))).states[0]!.lines.find(({ line }) => line === 'W1')!.flowM3S;
    const boreM = catalogue().hoses.find((row) => row.dash === dash)!.boreMm / 1000;
    expect(flow / ((Math.PI / 4) * boreM ** 2)).toBeCloseTo(speed, 1.7);
    expect(speed).toBeLessThanOrEqual(3);
  });

  it('that pulls the inlet of the pump down pulls less in the next size, by what the cure says', () => {
    const cold = { cases: [{ id: 'cold', engineRpm: 6000, coolantC: 30, airC: 25 }] };
    const narrow = changed(cold, sized('W2', 16));
    const least = (car: Car): number =>
      Math.min(...waterIn(car).states[0]!.coolant!.inlets.map(({ gaugePa }) => gaugePa)) / 1000;
    const [dash, gains] = cureOf(narrow, 'pump-pulls', /^W2 in -(20), not -16: \+([\d.]+) kPa/u) as [number, number];
    expect(least(changed(cold, sized('W2', dash))) - least(narrow)).toBeCloseTo(gains, 0.5);
  });
});

describe('a bleed that carries too much', () => {
  it('is choked to what a sharp hole lets through at the pressure that is there', () => {
    const car = waterCar();
    const [mm, lMin] = cureOf(car, 'bleed-flow', /^a restrictor of ([\d.]+) mm in W4: ([\d.]+) L\/min/u) as [
      number,
      number,
    ];
    const [state] = waterIn(car).states;
    const w4 = state!.lines.find(({ line }) => line === 'W4')!;
    const { densityKgM3 } = state!.fluid!;
    // hand: Q = C A sqrt(2 dp/rho) with C from 0.6 (sharp) to 0.85 (short tube); the line itself takes next to nothing of it then.
    const free = (Math.PI / 4) * (mm / 1000) ** 2 * Math.sqrt((2 * (w4.fromPa - w4.toPa)) / densityKgM3) * 60_000;
    expect(lMin / free).toBeGreaterThan(0.55);
    expect(lMin / free).toBeLessThan(0.9);
  });
});

/** A turbo cooled out of the header, its hot line into the header's side at some height over the bottom. */
const turbo =
  (upMm: number): Change =>
  (car) => {
    const header = car.parts.find(({ id }) => id === 'header')!;
    const like = structuredClone(header.ports[0]!);
    header.ports.push(
      { ...like, id: 'cold', atMm: [1300, 20, 622] },
      { ...like, id: 'hot', atMm: [1400, 0, 620 + upMm] },
    );
    car.parts.push({
      ...(structuredClone(header) as Part),
      id: 'turbo',
      shapes: [{ box: { minMm: [1450, 250, 300], maxMm: [1550, 350, 400] } }],
      ports: [
        { ...like, id: 'in', atMm: [1450, 300, 320] },
        { ...like, id: 'out', atMm: [1500, 300, 400] },
      ],
    });
    const line = { through: [], pieces: [], state: 'planned' as const, duty: 'water' as const, dash: 8 };
    car.lines.push(
      { ...line, id: 'T1', from: 'header.cold', to: 'turbo.in' },
      { ...line, id: 'T2', from: 'turbo.out', to: 'header.hot' },
    );
    circuitOf(car).lines.push('T1', 'T2');
    circuitOf(car).passages!.push({ id: 'housing', from: 'turbo.in', to: 'turbo.out', boreMm: 8, lengthMm: 150 });
  };

describe('water that does not run by itself, its end over the water of the header', () => {
  const cases = [
    { id: 'hot', engineRpm: 6000, coolantC: 95, airC: 25, heatToWaterKw: 60 },
    { id: 'off', engineRpm: 0, coolantC: 95, airC: 25 },
  ];
  // 0.6 L stand 60 mm deep.
  const high = changed({ cases }, turbo(80));
  const runs = (car: Car) => all(waterIn(car)).find(({ code }) => code === 'siphon');

  it('runs with that end lower, as fast as the cure says', () => {
    const [lower, lMin, kW] = cureOf(
      high,
      'siphon-stalls',
      /^T2 into the header (\d+) mm lower: ([\d.]+) L\/min run by themselves and carry ([\d.]+) kW/u,
    ) as [number, number, number];
    const after = runs(changed({ cases }, turbo(80 - lower)))!;
    expect(after.value! / 1000).toBeCloseTo(kW, 1);
    expect(Number(/by itself: ([\d.]+) L\/min/u.exec(after.text)![1])).toBeCloseTo(lMin, 2);
    expect(runs(high)).toBeUndefined();
  });

  it('is carried round by a pump with as much heat a litre as runs by itself', () => {
    const lowered = cureOf(high, 'siphon-stalls', /lower: ([\d.]+) L\/min run by themselves and carry ([\d.]+) kW/u);
    const pumped = cureOf(
      high,
      'siphon-stalls',
      /^an electric pump .*, (5) L\/min against [\d.]+ kPa: carries up to ([\d.]+) kW/u,
    );
    // hand: q rho c (T_boil - T), the same T_boil for each; water at 95 °C, 961.9 kg/m3, 4.21 kJ/(kg K), boils at 117 to 123 °C under the header's cap.
    const perLitre = [lowered, pumped].map(([lMin, kW]) => kW! / lMin!);
    expect(perLitre[1]!).toBeGreaterThan((961.9 * 4.21 * (117 - 95)) / 60_000);
    expect(perLitre[1]!).toBeLessThan((961.9 * 4.21 * (126 - 95)) / 60_000);
    expect(perLitre[0]!).toBeCloseTo(perLitre[1]!, 0.6);
  });

  it('runs with the header as full as the cure says', () => {
    const [more, lMin] = cureOf(high, 'siphon-stalls', /^([\d.]+) L more water in the header: ([\d.]+) L\/min/u) as [
      number,
      number,
    ];
    const after = runs(changed({ cases, header: { fillL: 0.6 + more } }, turbo(80)))!;
    expect(Number(/by itself: ([\d.]+) L\/min/u.exec(after.text)![1])).toBeCloseTo(lMin, 2);
  });
});
