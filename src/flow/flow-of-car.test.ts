import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type Car, readCar } from '#car';
import { linesWorld, standingWay } from '#lines';
import type { FlowAnswer } from './circuit/flow-answer.ts';
import { flowOfCar } from './flow-of-car.ts';
import { seeded } from './network/planted/seeded.ts';

const taken = fileURLToPath(new URL('../../test/screen/fellside-taken.json.gz', import.meta.url));
const reading = readCar(gunzipSync(readFileSync(taken)).toString());
if (!reading.ok) throw new Error('the demo with its taken ways does not read');
const demo = reading.car;
const world = linesWorld(demo, new Map());
const ways = new Map(
  demo.lines.flatMap((line) => (line.taken ? [[line.id, standingWay(world, line, line.taken)] as const] : [])),
);
const flowOf = (car: Car, caseId = 'full-load'): FlowAnswer =>
  flowOfCar({ car, shelf: world.shelf, ways, meshes: new Map(), caseId });

/** Places of an answer where a number is none: NaN and infinities do not survive JSON. */
function badNumbers(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isNaN(value) ? [path] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, item]) => badNumbers(item, `${path}.${key}`));
}

const texts = (answer: FlowAnswer): string[] =>
  answer.circuits.flatMap((circuit) => [
    ...circuit.findings.map(({ text }) => text),
    ...circuit.states.flatMap(({ findings }) => findings.map(({ text }) => text)),
  ]);

describe('a car whose circuits are wrong', () => {
  const wrong = (change: (car: Car) => void): string[] => {
    const car = structuredClone(demo);
    change(car);
    return texts(flowOf(car));
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

describe('circuits at random', () => {
  it('give an answer or say why not, never NaN and never an exception: 12 changed demos, seed 7', () => {
    const random = seeded(7);
    const below = (n: number): number => random.whole(0, n - 1);
    const numbers = [0, 1e-9, 0.001, 0.5, 3, 40, 999, 1e5];
    for (let i = 0; i < 12; i++) {
      const car = structuredClone(demo);
      const circuits = car.circuits!.filter(({ kind }) => kind !== 'other');
      for (let k = 0; k <= below(3); k++) {
        const circuit = circuits[below(circuits.length)]!;
        const lists = [circuit.pumps ?? [], circuit.passages ?? [], circuit.vessels ?? []] as unknown as Record<
          string,
          unknown
        >[][];
        const list = lists[below(lists.length)]!;
        const row = list[below(Math.max(1, list.length))];
        if (row === undefined) continue;
        const what = below(4);
        if (what === 0) list.splice(list.indexOf(row), 1);
        else if (what === 1) circuit.lines = circuit.lines.filter(() => below(4) > 0);
        else {
          const keys = Object.keys(row).filter((key) => typeof row[key] === 'number');
          const key = keys[below(Math.max(1, keys.length))];
          if (key !== undefined) row[key] = numbers[below(numbers.length)];
        }
      }
      const answer = flowOf(car, ['cold-start', 'full-load', 'switched-off'][below(3)]);
      expect([i, badNumbers(answer)]).toEqual([i, []]);
      expect(texts(answer).filter((text) => /NaN|undefined|Infinity/.test(text))).toEqual([]);
    }
  });
});
