import { type Car, carFrom } from '#car';
import { linesWorld } from '#lines';
import { describe, expect, it } from 'vitest';
import { wayAlone } from './plan-car.ts';
import { planKey, wayAloneKey } from './plan-key.ts';

const block = (id: string, minX: number, faceX: number, faces: number) => ({
  id,
  name: id,
  class: 'fixed',
  shapes: [{ box: { minMm: [minX, -60, 0], maxMm: [minX + 60, 160, 80] } }],
  ports: [0, 70].map((y, n) => ({
    id: `p${n}`,
    atMm: [faceX, y, 40],
    faces: [faces, 0, 0],
    end: { type: 'flare37-male', dash: 8 },
  })),
});
const line = (n: number) => ({
  id: `L${n}`,
  from: `left.p${n}`,
  to: `right.p${n}`,
  duty: 'water',
  dash: 8,
  hose: 'rubber-braid-8',
  state: 'planned',
});
const file = {
  fairlead: 1,
  name: 'Rig',
  parts: [block('left', 0, 60, 1), block('right', 760, 760, -1)],
  lines: [line(0), line(1)],
} as const;

function read(value: object): Car {
  const reading = carFrom(value as never);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.car;
}

const car = read(file);
const marks = new Map([['a.stl', 'aa']]);
const key = { car, meshMarks: marks, tool: 'one' };

/** Every number, text and truth in a value, each changed once. */
function* changedOnce(value: unknown): Generator<unknown> {
  if (typeof value === 'number') yield value + 1e-9;
  else if (typeof value === 'string') yield `${value}x`;
  else if (typeof value === 'boolean') yield !value;
  else if (Array.isArray(value))
    for (const [i, item] of value.entries())
      for (const other of changedOnce(item)) yield value.map((had: unknown, n) => (n === i ? other : had));
  else if (typeof value === 'object' && value !== null)
    for (const [name, item] of Object.entries(value))
      for (const other of changedOnce(item)) yield { ...value, [name]: other };
}

describe('the key of a plan', () => {
  it('hand: is another for any one number, word or mark that is another', () => {
    const others = [...changedOnce(car)].map((other) => planKey({ ...key, car: other as Car }));
    others.push(planKey({ ...key, meshMarks: new Map([['a.stl', 'ab']]) }), planKey({ ...key, tool: 'two' }));
    expect(others.length).toBeGreaterThan(50);
    expect(new Set([...others, planKey(key)]).size).toBe(others.length + 1);
  });

  it('hand: tells minus zero from zero and no limit from none', () => {
    const at = (x: number | null) => planKey({ ...key, car: { ...car, 'x-probe': x } as never });
    expect(new Set([0, -0, null, Infinity, -Infinity, NaN].map(at)).size).toBe(6);
  });

  it('hand: is the same however the file was laid out', () => {
    const again = read(JSON.parse(JSON.stringify(file, null, 4)) as object);
    expect(planKey({ ...key, car: again, meshMarks: new Map(marks) })).toBe(planKey(key));
  });
});

describe('the key of a line that has the car to itself', () => {
  const first = car.lines[0]!;
  const keyIn = (other: Car) => wayAloneKey({ ...key, car: other }, other.lines[0]!);

  it('second: stays where only the name or another planned line changes, and so does its way', () => {
    const other = read({
      ...file,
      name: 'Other',
      lines: [line(0), { ...line(1), duty: 'oil-return', temperatureC: 90 }],
    });
    expect(keyIn(other)).toBe(keyIn(car));
    const ways = [car, other].map((each) => wayAlone(linesWorld(each, new Map()), each.lines[0]!));
    expect(ways[0]!.feasible).toBe(true);
    expect(JSON.stringify(ways[1])).toBe(JSON.stringify(ways[0]));
  });

  it('hand: changes with the line, the parts, and what stands made', () => {
    const bodies = [
      {
        part: 'hose',
        pathMm: [
          [200, 0, 40],
          [200, 100, 40],
        ],
        odMm: 20,
      },
    ]; // prettier-ignore
    const keys = [
      car,
      { ...car, lines: [{ ...first, dash: 10 }, car.lines[1]!] },
      { ...car, parts: [{ ...car.parts[0]!, knownToMm: 9 }, car.parts[1]!] },
      { ...car, lines: [first, { ...car.lines[1]!, state: 'made', taken: { bodies } }] },
      { ...car, lines: [first, { ...car.lines[1]!, state: 'made', taken: { bodies: [{ ...bodies[0], odMm: 21 }] } }] },
    ].map((each) => keyIn(each as unknown as Car));
    expect(new Set(keys).size).toBe(keys.length);
  });
});
