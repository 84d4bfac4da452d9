import { describe, expect, it } from 'vitest';
import type { Car } from '#car';
import type { CircuitFlow } from '../circuit/flow-answer.ts';
import type { FlowFinding } from '../finding.ts';
import { fuelCar, fuelIn, type FuelCarWish } from './fuel-car.fixture.ts';

/** What a cure names is put into the car file and the car worked out anew: it must say the same. */
const all = ({ findings, states }: CircuitFlow): FlowFinding[] => [
  ...findings,
  ...states.flatMap((state) => state.findings),
];
const changed = (wish: FuelCarWish, ...changes: ((car: Car) => void)[]): Car => {
  const car = structuredClone(fuelCar(wish)) as Car;
  for (const change of changes) change(car);
  return car;
};
const cureOf = (car: Car, code: string, like: RegExp): number[] => {
  const cures = all(fuelIn(car))
    .filter((row) => row.code === code)
    .flatMap((row) => row.cures);
  const match = cures.flatMap((words) => like.exec(words) ?? []);
  if (match.length === 0) throw new Error(`no cure of ${code} like ${like.source} among ${JSON.stringify(cures)}`);
  return match.slice(1).map(Number);
};
const answer = (car: Car) => fuelIn(car).states[0]!.fuel!;

/** A line in a size, or in a bore of its own. */
const lineAs =
  (id: string, size: { dash: number } | { boreMm: number }) =>
  (car: Car): void => {
    const row = car.lines.find((line) => line.id === id)!;
    delete row.dash;
    Object.assign(row, size);
  };

/** The lift stands 2 m behind the cell and 0.4 m over its floor, its line as narrow as told. */
const outside =
  (dash: number, mouthMm = 300) =>
  (car: Car): void => {
    const cell = car.parts.find(({ id }) => id === 'cell')!;
    const port = structuredClone(cell.ports[0]!);
    Object.assign(cell.ports[0]!, { atMm: [1100, 0, mouthMm] });
    car.parts.push({
      ...structuredClone(cell),
      id: 'lift',
      shapes: [{ box: { minMm: [3200, -20, 380], maxMm: [3260, 20, 420] } }],
      ports: [
        { ...port, id: 'in', atMm: [3200, 0, 400] },
        { ...port, id: 'out', atMm: [3260, 0, 400] },
      ],
    });
    const first = car.lines.find(({ id }) => id === 'F1')!;
    car.lines.push({ ...structuredClone(first), id: 'F0', to: 'lift.in', dash });
    Object.assign(first, { from: 'lift.out', dash: 10 });
    const circuit = car.circuits![0]!;
    circuit.lines.push('F0');
    Object.assign(circuit.pumps!.find(({ id }) => id === 'lift')!, { from: 'lift.in', to: 'lift.out' });
  };

describe('a lift pump that draws through a line', () => {
  const wish = { liftLMin: 9, fuelC: 45 };
  const leastKpa = (car: Car): number => Math.min(...answer(car).pumps.map(({ overVapourKpa }) => overVapourKpa));

  it('has over its vapour in a wider line what the cure says', () => {
    const car = changed(wish, outside(6, 20));
    const [dash, gains, over] = cureOf(car, 'vapour-lock', /^F0 in -(8), not -6: \+([\d.]+) kPa, (-?[\d.]+) kPa/u) as [
      number,
      number,
      number,
    ];
    const wider = leastKpa(changed(wish, outside(dash, 20)));
    expect(wider).toBeCloseTo(over, 0.7);
    expect(wider - leastKpa(car)).toBeCloseTo(gains, 0.7);
  });
});

describe('a lift pump whose mouth stands over the fuel', () => {
  it('is said to draw air, and brings with a pipe inside what the cure says', () => {
    const car = changed({ liftLMin: 4, cellFillL: 20 }, outside(10));
    const air = all(fuelIn(car)).find(({ code }) => code === 'fuel-draws-air')!;
    // 20 of 30 L in 300 mm: 200 deep, the mouth in the top.
    expect(air.text).toMatch(/cell\.lift, stands 100 mm over the fuel$/u);
    expect(air).toMatchObject({ level: 'stop', line: 'F0' });
    expect(air.value).toBeCloseTo(100, 6);
    // The pump's inlet is told as its fuel's vapour at the deepest, not as whatever the pump would pull.
    expect(answer(car).pumps.find(({ dry }) => dry !== undefined)!.overVapourKpa).toBeCloseTo(0, 6);
    const [mm, lMin] = cureOf(
      car,
      'fuel-draws-air',
      /^a pipe inside down from cell\.lift, (\d+) mm .* brings ([\d.]+) L\/min/u,
    ) as [number, number];
    const piped = changed({ liftLMin: 4, cellFillL: 20 }, outside(10), (row) => {
      Object.assign(row.parts.find(({ id }) => id === 'cell')!.ports[0]!, { atMm: [1100, 0, 300 - mm] });
    });
    expect(answer(piped).liftM3S * 60_000).toBeCloseTo(lMin, 1);
    expect(all(fuelIn(piped)).map(({ code }) => code)).not.toContain('fuel-draws-air');
  });
});

describe('a return that puts pressure on the rail', () => {
  const wish = { pressureLMin: 9 };
  it('loses in the next size what the cure says', () => {
    const car = changed(wish, lineAs('F4', { dash: 4 }));
    const [dash, , loses] = cureOf(
      car,
      'return-loss',
      /^F4 in -(6), not -4: ([\d.]+) kPa off the rail, ([\d.]+) kPa/u,
    ) as [number, number, number];
    const wider = changed(wish, lineAs('F4', { dash }));
    expect(answer(wider).returnLossPa / 1000).toBeCloseTo(loses, 1);
    expect(answer(car).returnLossPa / 1000 - loses).toBeGreaterThan(5);
  });
});

describe('a vent of the cell', () => {
  const holds = (car: Car): number => answer(car).vent!.depressionPa / 1000;

  it('that is too small holds in the next size what the cure says', () => {
    const small = changed({}, lineAs('F5', { boreMm: 1 }));
    const [dash, , kpa] = cureOf(
      small,
      'vent-small',
      /^F5 in -(4): ([\d.]+) kPa less, ([\d.]+) kPa, which is enough/u,
    ) as [number, number, number];
    expect(holds(changed({}, lineAs('F5', { dash })))).toBeCloseTo(kpa, 2);
    expect(holds(small)).toBeGreaterThan(1);
  });

  it('that is not there is told in the least size that lets the air in, and what it holds', () => {
    const burning = { burnLPerH: 9000 };
    const without = changed(burning, (car) => void (car.circuits![0]!.lines = ['F1', 'F2', 'F3', 'F4']));
    const [dash, kpa] = cureOf(
      without,
      'no-fuel-vent',
      /^a vent of -(\d+), 500 mm up from the cell: it stands ([\d.]+) kPa .*; fuel runs out of it .*upside down.*; with a ball valve in it, if that is tight, fuel still runs out (?!.*upside down)/u,
    ) as [number, number];
    const up = { ...burning, ventAtMm: [1050, 0, 800] };
    expect(holds(changed(up, lineAs('F5', { dash })))).toBeCloseTo(kpa, 1.7);
    expect(holds(changed(up, lineAs('F5', { dash: dash - 2 })))).toBeGreaterThan(1);
  });
});
