import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Car, readCar } from '#car';
import { linesWorld, standingWay } from '#lines';
import type { FlowAnswer } from './circuit/flow-answer.ts';
import { flowOfCar } from './flow-of-car.ts';

const taken = fileURLToPath(new URL('../../test/screen/fellside-taken.json.gz', import.meta.url));
const reading = readCar(gunzipSync(readFileSync(taken)).toString());
if (!reading.ok) throw new Error('the demo with its taken ways does not read');
const demo = reading.car;
const world = linesWorld(demo, new Map());
const ways = new Map(
  demo.lines.flatMap((line) => (line.taken ? [[line.id, standingWay(world, line, line.taken)] as const] : [])),
);
const flowOf = (car: Car, caseId = 'full-load'): FlowAnswer =>
  flowOfCar({ car, shelf: world.shelf, ways, meshes: new Map(), caseId, part: 'cases' });

const texts = (answer: FlowAnswer): string[] =>
  answer.circuits.flatMap((circuit) => [
    ...circuit.findings.map(({ text }) => text),
    ...circuit.states.flatMap(({ findings }) => findings.map(({ text }) => text)),
  ]);

describe('a car whose circuits are wrong', () => {
  const wrong = (change: (car: Car) => void): string[] => {
    const car = structuredClone(demo);
    change(car);
    // Circuits that the change leaves as they are say what they say of the demo, whose pumps and tanks are looked at in other tests.
    const isChanged = (one: object, i: number): boolean => JSON.stringify(one) !== JSON.stringify(demo.circuits![i]);
    const circuits = car.circuits!.filter(isChanged);
    return texts(flowOf(circuits.length === 0 ? car : { ...car, circuits }));
  };
  const oil = (car: Car) => car.circuits!.find(({ id }) => id === 'oil')!;
  const water = (car: Car) => car.circuits!.find(({ id }) => id === 'water')!;

  it.each<[string, (car: Car) => void, RegExp]>([
    [
      'a pump whose head rises with its flow',
      (car) =>
        void (water(car).pumps![0]!.curveLMinKpa = [
          [0, 50],
          [100, 130],
          [220, 40],
        ]),
      /Water pump: its curve rises from 50 kPa at 0 L.min to 130 at 100/,
    ],
    [
      'a curve that falls',
      (car) =>
        void (oil(car).passages![0]!.curveLMinKpa = [
          [25, 25],
          [50, 9],
        ]),
      /Oil filter: its curve falls from 25 kPa at 25 L.min to 9 at 50/,
    ],
    [
      'a fluid that is not on the car',
      (car) => void (oil(car).fluid = 'oyl'),
      /has no fluid: oyl; one of oil, coolant/,
    ],
    ['a grade that is none', (car) => void (car.fluids![0]!.oil = { grade: '10W60' }), /10W-60/],
    [
      'two free surfaces in one space',
      (car) => void oil(car).passages!.push({ id: 'x', from: 'tank', to: 'sump', open: true }),
      /two free surfaces/,
    ],
    ['a vessel overfull', (car) => void (oil(car).vessels![0]!.fillL = 20), /20 L and holds 12.2 L/],
    ['a volume that its shape cannot hold', (car) => void (oil(car).vessels![0]!.volumeL = 60), /at most/],
    ['a line taken off', (car) => void (car.lines = car.lines.filter(({ id }) => id !== 'O2')), /names line O2/],
  ])('with %s is told so by name', (_, change, words) => {
    expect(wrong(change).filter((text) => words.test(text)).length).toBeGreaterThan(0);
  });
});

describe('a shed kit: tank, pump and two lines, no stages', () => {
  const port = (id: string, atMm: readonly number[], faces: readonly number[], dash: number) => ({
    id,
    atMm,
    faces,
    end: { type: 'orb', dash },
  });
  const kit = readCar(
    JSON.stringify({
      fairlead: 1,
      parts: [
        {
          id: 'tank',
          class: 'fixed',
          shapes: [{ cylinder: { fromMm: [1000, -300, 100], toMm: [1000, -300, 500], radiusMm: 90 } }],
          ports: [port('out', [910, -300, 130], [-1, 0, 0], 12), port('back', [910, -300, 470], [-1, 0, 0], 10)],
        },
        {
          id: 'pump',
          class: 'fixed',
          shapes: [{ box: { minMm: [400, -350, 150], maxMm: [500, -250, 250] } }],
          ports: [port('in', [500, -300, 180], [1, 0, 0], 12), port('out', [450, -300, 250], [0, 0, 1], 10)],
        },
      ],
      lines: [
        { id: 'A', from: 'tank.out', to: 'pump.in', duty: 'oil-suction', dash: 12 },
        { id: 'B', from: 'pump.out', to: 'tank.back', duty: 'oil-return', dash: 10 },
      ],
      fluids: [{ id: 'oil', oil: { grade: '15W-50' } }],
      cases: [{ id: 'idle', engineRpm: 900, oilC: -10 }],
      circuits: [
        {
          id: 'loop',
          kind: 'dry-sump',
          fluid: 'oil',
          lines: ['A', 'B'],
          pumps: [{ id: 'p', from: 'pump.in', to: 'pump.out', displacementCcRev: 10, driveRatio: 0.5 }],
          vessels: [{ part: 'tank', kind: 'tank', fillL: 6 }],
        },
      ],
    }),
  );
  if (!kit.ok) throw new Error('the shed kit does not read');
  const answer = flowOfCar({ car: kit.car, shelf: world.shelf, ways: new Map(), meshes: new Map() });
  const found = answer.circuits.flatMap(({ states, findings }) => [
    ...findings,
    ...states.flatMap((state) => state.findings),
  ]);

  it('does not run its tank dry: what the pump draws comes straight back', () => {
    expect(answer.circuits[0]!.states[0]!.tanks![0]!.secondsCovered).toBe(Infinity);
    expect(found.filter(({ code }) => code === 'runs-bare')).toEqual([]);
  });

  it('is told sizes above its own, smallest last, and each fill once', () => {
    const cures = found.find(({ code }) => code === 'feed-draws-air')!.cures.join(' | ');
    expect(cures).toMatch(/A in -20, not -12.*A in -16, not -12/);
    expect(cures).not.toMatch(/in -12, not -12/);
    const { text } = found.find(({ code }) => code === 'outlet-g')!;
    expect(text.match(/with \d/g)).toHaveLength(2);
  });
});
