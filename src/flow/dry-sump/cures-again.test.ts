import { describe, expect, it } from 'vitest';
import type { Car, Part } from '#car';
import { catalogue } from '#standards';
import type { CircuitFlow } from '../circuit/flow-answer.ts';
import type { FlowFinding } from '../finding.ts';
import {
  boxCar,
  type BoxCarWish,
  type CarChange,
  changedBox,
  cureLike,
  findingsIn,
  flowIn,
} from './box-car.fixture.ts';

/** What a cure says is put into the car file and the car worked out anew, or reckoned by hand in closed form. */
const found = (car: Car, code: string): FlowFinding => findingsIn(car, 'cases').find((row) => row.code === code)!;
const cureOf = (car: Car, code: string, like: RegExp): RegExpExecArray => cureLike(found(car, code), like);

const dashOf =
  (id: string, dash: number): CarChange =>
  (car) =>
    void Object.assign(car.lines.find((row) => row.id === id)!, { dash });
const pumpAs =
  (change: object, ...ids: string[]): CarChange =>
  (car) => {
    for (const pump of car.circuits![0]!.pumps!)
      if (ids.length === 0 || ids.includes(pump.id!)) Object.assign(pump, change);
  };
const caseAs =
  (change: object): CarChange =>
  (car) =>
    void Object.assign(car.cases![0]!, change);

const galleryBar = ({ states }: CircuitFlow): number =>
  states[0]!.passages.find(({ id }) => id === 'gallery')!.fromPa / 1e5;
const inletBar = ({ states }: CircuitFlow): number => {
  const [state] = states;
  const feed = state!.lines.find(({ line }) => line === 'F')!;
  return (feed.toPa - (state!.fluid!.densityKgM3 * feed.velocityMS ** 2) / 2) / 1e5;
};
const stageBar = ({ states }: CircuitFlow): number => states[0]!.stages![0]!.inletPa / 1e5;
const deepestBar = ({ states }: CircuitFlow): number => states[0]!.stages![0]!.inletSpreadPa[0] / 1e5;

const cold = { cases: [{ id: 'cold', engineRpm: 1500, oilC: 0 }] };
const LOW_RELIEF = { cracksBar: 2.5, fullFlowBar: 2.8, fullFlowLMin: 30 };
const low: CarChange = pumpAs({ relief: LOW_RELIEF }, 'pressure');
const none: CarChange = () => {};

interface Row {
  readonly wish: BoxCarWish;
  readonly first?: CarChange;
  readonly code: string;
  readonly cure: RegExp;
  /** What is changed, by the figure that the cure names. */
  readonly change: (figure: number) => CarChange;
  readonly reads: (flow: CircuitFlow) => number;
  readonly digits: number;
}

const rows: readonly (readonly [string, Row])[] = [
  [
    'a feed in the next sizes',
    {
      wish: cold,
      code: 'feed-draws-air',
      cure: /F in -(20), not -16: \+[\d.]+ kPa, (-[\d.]+) bar/u,
      change: (dash) => dashOf('F', dash),
      reads: inletBar,
      digits: 2,
    },
  ],
  [
    'a scavenge suction in the next sizes',
    {
      wish: cold,
      code: 'suction-depth',
      cure: /S in -(16), not -12: \+[\d.]+ kPa, (-[\d.]+) bar/u,
      change: (dash) => dashOf('S', dash),
      reads: stageBar,
      digits: 2,
    },
  ],
  [
    'a scavenge suction in the next sizes, as deep as models of froth have it',
    {
      wish: cold,
      code: 'suction-depth',
      cure: /S in -(16), not -12: \+[\d.]+ kPa, -[\d.]+ bar \((-[\d.]+) at its deepest\)/u,
      change: (dash) => dashOf('S', dash),
      reads: deepestBar,
      digits: 2,
    },
  ],
  [
    'a relief valve set higher',
    {
      wish: {},
      first: low,
      code: 'gallery-pressure',
      cure: /set to open at (3\.5) bar instead of 2\.5 bar,.*: \+[\d.]+ bar, ([\d.]+) bar/u,
      change: (cracksBar) => pumpAs({ relief: { ...LOW_RELIEF, cracksBar, fullFlowBar: cracksBar + 0.3 } }, 'pressure'),
      reads: galleryBar,
      digits: 2,
    },
  ],
  [
    'a pump driven faster',
    {
      wish: {},
      code: 'gallery-pressure',
      cure: /driven at (0\.\d+) of engine speed.*: \+[\d.]+ bar, ([\d.]+) bar, which is enough/u,
      change: (driveRatio) => pumpAs({ driveRatio }),
      reads: galleryBar,
      digits: 2,
    },
  ],
  [
    'cooler oil',
    {
      wish: { cases: [{ id: 'hot', engineRpm: 6000, oilC: 130 }] },
      code: 'gallery-pressure',
      cure: /the oil at (\d+) °C instead of 130 °C .*: \+[\d.]+ bar, ([\d.]+) bar/u,
      change: (oilC) => caseAs({ oilC }),
      reads: galleryBar,
      digits: 2,
    },
  ],
  [
    'a wider line on the pressure side',
    {
      wish: {},
      first: low,
      code: 'gallery-pressure',
      cure: /P in -(20), not -12: \+[\d.]+ bar, ([\d.]+) bar/u,
      change: (dash) => dashOf('P', dash),
      reads: galleryBar,
      digits: 2,
    },
  ],
  [
    'a feed in which the oil runs slowly enough',
    {
      wish: {},
      first: dashOf('F', 12),
      code: 'feed-speed',
      cure: /F in -(\d+), not -12: ([\d.]+) m\/s, which is enough/u,
      change: (dash) => dashOf('F', dash),
      reads: ({ states }) => states[0]!.lines.find(({ line }) => line === 'F')!.velocityMS,
      digits: 2,
    },
  ],
];

describe('what a cure says of the changed circuit, the changed car says', () => {
  it.each(rows)('%s', (_, { wish, first = none, code, cure, change, reads, digits }) => {
    const car = changedBox(wish, first);
    const [, figure, says] = cureOf(car, code, cure).map(Number) as [number, number, number];
    const again = changedBox(wish, (row) => {
      first(row);
      change(figure)(row);
    });
    expect(reads(flowIn(again, 'cases'))).toBeCloseTo(says, digits);
    // What it is told apart from: the car as it was.
    expect(Math.abs(reads(flowIn(car, 'cases')) - says)).toBeGreaterThan(2 * 10 ** -digits);
  });

  it('the degree at which a feed lives, to the degree', () => {
    const oilC = Number(cureOf(boxCar(cold), 'feed-draws-air', /the oil at (\d+) °C or warmer/u)[1]);
    const codes = (at: number): string[] =>
      findingsIn(changedBox(cold, caseAs({ oilC: at })), 'cases').map(({ code }) => code);
    expect(codes(oilC)).not.toContain('feed-draws-air');
    expect(codes(oilC - 1)).toContain('feed-draws-air');
  });
});

/** A turbo with its own oil, that drains by gravity into the pan. */
const turbo =
  (dash: number): CarChange =>
  (car) => {
    const pan = car.parts.find(({ id }) => id === 'pan')!;
    const port = (id: string, atMm: [number, number, number], faces: [number, number, number]) => ({
      id,
      atMm,
      faces,
      end: { type: 'orb' as const, dash: 6 },
    });
    car.parts.push({
      ...(structuredClone(pan) as Part),
      id: 'turbo',
      shapes: [{ box: { minMm: [1150, 300, 180], maxMm: [1250, 400, 280] } }],
      ports: [port('drain', [1200, 300, 180], [0, -1, 0])],
    });
    pan.ports.push(port('drain', [1200, 100, 90], [0, 1, 0]));
    const plain = { through: [], pieces: [], state: 'planned' as const };
    car.lines.push({ ...plain, id: 'D', from: 'turbo.drain', to: 'pan.drain', duty: 'oil-drain', dash });
    const circuit = car.circuits![0]!;
    circuit.lines.push('D');
    circuit.vessels!.push({ part: 'turbo', kind: 'housing' });
    circuit.passages!.push({
      id: 'bearing',
      from: 'block.gallery',
      to: 'turbo',
      curveLMinKpa: [
        [0.4, 50],
        [0.8, 200],
      ],
      atC: 100,
    });
  };

describe('a drain that is too small', () => {
  const cool = { cases: [{ id: 'cool', engineRpm: 2000, oilC: 90 }] };
  const car = changedBox(cool, turbo(6));
  const { value: comes = 0 } = found(car, 'drain-capacity');
  const { densityKgM3, viscosityPaS } = flowIn(car, 'cases').states[0]!.fluid!;
  const boreM = (dash: number): number => (0.9 * catalogue().hoses.find((row) => row.dash === dash)!.boreMm) / 1000;
  /** hand, laminar: half of what a full pipe lets down (Hagen and Poiseuille); foam weighs a third, and a third of it is oil. */
  const carries = (bore: number, fallDeg: number): number =>
    ((Math.PI * densityKgM3 * 9.80665 * Math.sin((fallDeg * Math.PI) / 180) * bore ** 4) /
      (128 * viscosityPaS) /
      2 /
      9) *
    60_000;
  // From (1200, 300, 180) to (1200, 100, 90).
  const fallDeg = (Math.atan(90 / 200) * 180) / Math.PI;

  it('is told the size that carries the foam, as Hagen and Poiseuille have it, and no size past it', () => {
    const told = found(car, 'drain-capacity').cures.flatMap((words) => {
      const [, dash, most] = /D in -(\d+), not -6: carries ([\d.]+) L\/min as foam/u.exec(words)?.map(Number) ?? [];
      return dash === undefined ? [] : [{ dash, most: most! }];
    });
    const enough = told.toSorted((a, b) => a.dash - b.dash).at(-1)!;
    expect(told.length).toBeGreaterThan(1);
    for (const { dash, most } of told) expect(most).toBeCloseTo(carries(boreM(dash), fallDeg), 2);
    for (const { dash } of told) expect(carries(boreM(dash), fallDeg) >= comes).toBe(dash === enough.dash);
    // second: the car with that drain is well.
    expect(findingsIn(changedBox(cool, turbo(enough.dash)), 'cases').map(({ code }) => code)).not.toContain(
      'drain-capacity',
    );
  });

  it('is told the fall that carries it, to the degree', () => {
    const near = changedBox({ cases: [{ id: 'warm', engineRpm: 2000, oilC: 90 }] }, turbo(10));
    const words = cureOf(near, 'drain-capacity', /D falling (\d+) degrees .*: carries ([\d.]+) L\/min/u);
    const [deg, most] = [Number(words[1]), Number(words[2])];
    const wants = found(near, 'drain-capacity').value!;
    expect(most).toBeCloseTo(carries(boreM(10), deg), 2);
    expect(carries(boreM(10), deg)).toBeGreaterThanOrEqual(wants);
    expect(carries(boreM(10), deg - 1)).toBeLessThan(wants);
  });
});

/** The crankcase breathes into a catch tank of its own, its blow-by the only gas that goes there. */
const breathing =
  (dash: number): CarChange =>
  (car) => {
    const [pan, tank] = ['pan', 'tank'].map((id) => car.parts.find((row) => row.id === id)!) as [Part, Part];
    const port = (id: string, atMm: [number, number, number]) => ({
      id,
      atMm,
      faces: [0, 0, 1] as [number, number, number],
      end: { type: 'orb' as const, dash: 12 },
    });
    pan.ports.push(port('breath', [1300, 0, 100]));
    tank.ports.push(port('breath', [2150, -50, 400]));
    car.parts.push({
      ...structuredClone(tank),
      id: 'catch',
      shapes: [{ box: { minMm: [2300, -50, 300], maxMm: [2400, 50, 400] } }],
      ports: [port('in', [2350, 0, 400]), port('in-2', [2350, 20, 400])],
    });
    const plain = { through: [], pieces: [], state: 'planned' as const, duty: 'oil-vent' as const };
    car.lines.push(
      { ...plain, id: 'V', from: 'pan.breath', to: 'catch.in', dash },
      { ...plain, id: 'W', from: 'tank.breath', to: 'catch.in-2', dash: 16 },
    );
    car.circuits![0]!.lines.push('V', 'W');
    car.circuits![0]!.vessels!.push({ part: 'catch', kind: 'catch-tank', volumeL: 1, fillL: 0 });
  };

describe('a vent that is too small', () => {
  const wish = { scavengeCc: 12, cases: [{ id: 'full', engineRpm: 6000, oilC: 100, blowByLMin: 300 }] };
  const car = changedBox(wish, breathing(6));
  const boreMm = (dash: number): number => catalogue().hoses.find((row) => row.dash === dash)!.boreMm;

  it('is told sizes up to the one that is slow enough, flow over area by hand', () => {
    const flow =
      Math.abs(findingsIn(car, 'cases').find(({ code, line }) => code === 'vent-way' && line === 'V')!.value!) / 60_000;
    const told = found(car, 'vent-speed').cures.map((words) => {
      const [, dash, speed] = /V in -(\d+), not -6: [\d.]+ m\/s slower, ([\d.]+) m\/s/u.exec(words)!.map(Number);
      return { dash: dash!, speed: speed!, isEnough: words.endsWith('which is enough') };
    });
    expect(told.length).toBeGreaterThan(2);
    for (const { dash, speed, isEnough } of told) {
      expect(speed).toBeCloseTo(flow / ((Math.PI / 4) * (boreMm(dash) / 1000) ** 2), 0);
      expect(isEnough).toBe(speed <= 10);
    }
    expect(told.filter(({ isEnough }) => isEnough)).toHaveLength(1);
  });

  it('lets the gas of the crankcase stand as the cure says once it is wider', () => {
    const [, dash, mbar] = cureOf(car, 'gas-pressure', /V in -(10), not -6: [\d.]+ mbar less, ([\d.]+) mbar/u).map(
      Number,
    ) as [number, number, number];
    const { vessels } = flowIn(changedBox(wish, breathing(dash)), 'cases').states[0]!;
    expect(vessels.find(({ part }) => part === 'pan')!.gasPa / 100).toBeCloseTo(mbar, 0);
  });
});
