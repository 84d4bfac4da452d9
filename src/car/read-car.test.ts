import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carText } from './car-text.ts';
import { faultLine } from './fault.ts';
import type { Json } from './json-text.ts';
import { readCar } from './read-car.ts';
import { wholeCar } from './whole-car.fixture.ts';

const text = JSON.stringify(wholeCar, null, 1);

/** Never throws; ok, or faults that are one line each, with all three parts in words. */
function expectAnswer(input: string): boolean {
  const reading = readCar(input);
  if (reading.ok) return true;
  expect(reading.faults.length).toBeGreaterThan(0);
  expect(reading.faults.length).toBeLessThanOrEqual(51);
  for (const fault of reading.faults) {
    for (const words of [fault.place, fault.stands, fault.allowed]) expect(words.trim()).not.toBe('');
    expect(faultLine(fault)).not.toMatch(/[\p{Cc}\u2028\u2029]|undefined|\[object/u);
    expect(faultLine(fault).length).toBeLessThan(1200);
  }
  return false;
}

describe('readCar', () => {
  it('reads a car with every field, and what is left out is filled in', () => {
    expect(readCar(text)).toMatchObject({ ok: true });
    const small = readCar('\uFEFF{ "fairlead": 1, "parts": [ { "id": "a", "class": "fixed" } ] }');
    expect(small).toEqual({
      ok: true,
      car: { fairlead: 1, parts: [{ id: 'a', class: 'fixed', shapes: [], ports: [] }], movers: [], lines: [] },
    });
  });

  it('takes a hose that a fitting on its way divides, and no more lengths than fittings make', () => {
    const divided = (lengths: number, kind: string) => {
      const wall = { ...wholeCar.parts[2]!, crossable: ['bulkhead-fitting', 'grommet'] };
      const made = wholeCar.lines[1]!;
      const pieces = Array.from({ length: lengths }, () => made.taken!.pieces[0]!);
      const line = { ...made, through: [{ part: 'wall', kind }], taken: { ...made.taken, pieces } };
      return readCar(JSON.stringify({ ...wholeCar, parts: wholeCar.parts.with(2, wall as never), lines: [line] }));
    };
    expect(divided(2, 'bulkhead-fitting')).toMatchObject({ ok: true });
    expect(divided(1, 'grommet')).toMatchObject({ ok: true });
    for (const [lengths, kind] of [
      [3, 'bulkhead-fitting'],
      [2, 'grommet'],
      [0, 'bulkhead-fitting'],
    ] as const)
      expect(divided(lengths, kind), `${lengths} ${kind}`).toMatchObject({
        faults: [{ place: 'lines[0].taken.pieces', allowed: 'hose, as the line has them' }],
      });
  });

  it('takes a turn inside a solid or beside it as the same', () => {
    const file = (shape: object) =>
      JSON.stringify({ fairlead: 1, parts: [{ id: 'a', class: 'fixed', shapes: [shape] }] });
    const inside = readCar(file({ box: { minMm: [0, 0, 0], maxMm: [1, 2, 3], turnDeg: [0, 0, 90], atMm: [5, 0, 0] } }));
    const beside = readCar(file({ box: { minMm: [0, 0, 0], maxMm: [1, 2, 3] }, turnDeg: [0, 0, 90], atMm: [5, 0, 0] }));
    expect(inside).toEqual(beside);
    expect(inside.ok).toBe(true);
  });

  it('tells every fault of a file, not the first', () => {
    const broken = text.replace('"class":"hot"', '"class":"hott"');
    const car = JSON.parse(broken) as {
      parts: { class: string; ports?: { faces: number[] }[] }[];
      lines: { from: string; duty: string }[];
    };
    car.parts[0]!.class = 'warm';
    car.lines[0]!.duty = 'oil';
    car.lines[1]!.from = 'nowhere.out';
    const reading = readCar(JSON.stringify(car));
    const places = reading.ok ? [] : reading.faults.map((fault) => fault.place);
    expect(places).toEqual(expect.arrayContaining(['parts[0].class', 'lines[0].duty', 'lines[1].from']));
  });

  it('does not take offence at what refers to a malformed part', () => {
    const car = structuredClone(wholeCar) as unknown as { parts: { class: string }[] };
    car.parts[0]!.class = 'warm';
    const reading = readCar(JSON.stringify(car));
    expect(reading.ok ? [] : reading.faults.map((fault) => fault.place)).toEqual(['parts[0].class']);
  });

  it('shows at most 50 faults and counts the rest', () => {
    const parts = Array.from({ length: 80 }, (_, i) => ({ id: `p${i}`, class: 'warm' }));
    const reading = readCar(JSON.stringify({ fairlead: 1, parts }));
    expect(reading.ok ? [] : reading.faults).toHaveLength(51);
    expect(reading.ok ? '' : reading.faults[50]!.stands).toBe('and 30 more faults');
  });

  it('refuses a text over 64 MB in one line', () => {
    const reading = readCar(`{"fairlead":1,"x-pad":"${'a'.repeat(64 * 1024 * 1024)}"}`);
    expect(reading.ok ? [] : reading.faults.map(faultLine)).toEqual([
      `car file: stands ${64 * 1024 * 1024 + 25} characters; allowed: at most 67108864 (64 MB)`,
    ]);
  });

  it('answers a huge flat file of rubbish with a cap on what it tells', () => {
    expect(expectAnswer(`{"fairlead":1,"parts":[${Array(20_000).fill('1').join()}]}`)).toBe(false);
    expect(expectAnswer(`{${Array(50_000).fill('"a":1').join()}}`)).toBe(false);
    expect(expectAnswer('['.repeat(1_000_000))).toBe(false);
    expect(expectAnswer(`{"fairlead":1,"parts":[${Array(250_000).fill('1').join()}]}`)).toBe(false);
    expect(expectAnswer(`{"fairlead":1,${Array.from({ length: 150_000 }, (_, i) => `"k${i}":1`).join()}}`)).toBe(false);
    expect(
      expectAnswer(
        `{"fairlead":1,"parts":[${Array(2000).fill('1').join()},{"id":"a","class":"fixed","shapes":7,"ports":{}}],"lines":[{"through":3}]}`,
      ),
    ).toBe(false);
  });

  it('does not compare every name with every other to say which is nearest', () => {
    const parts = Array.from({ length: 3000 }, (_, i) => ({ id: `p${i}`, class: 'fixed' }));
    const lines = Array.from({ length: 3000 }, (_, i) => ({
      id: `l${i}`,
      from: `q${i}.a`,
      to: `p${i}.b`,
      duty: 'water',
    }));
    const reading = readCar(JSON.stringify({ fairlead: 1, parts, lines }));
    expect(reading.ok ? [] : reading.faults.map((fault) => fault.stands).at(-1)).toBe('and at least 950 more faults');
  });
});

describe('readCar on damaged files (fuzz)', () => {
  it('answers a file cut at every 50th byte', () => {
    const bytes = new TextEncoder().encode(text);
    for (let end = 0; end < bytes.length; end += 50)
      expect(expectAnswer(new TextDecoder().decode(bytes.subarray(0, end)))).toBe(false);
  });

  it('answers a file with bytes changed, put in or taken out, seed 20260101', () => {
    const damage = fc.array(
      fc.record({
        at: fc.nat(text.length),
        out: fc.nat(4),
        put: fc.oneof(
          fc.string({ maxLength: 3 }),
          fc.constantFrom('{', '}', '[', ']', ',', ':', '"', '-', 'e9', '\\', '\u0000', '1e999'),
        ),
      }),
      { minLength: 1, maxLength: 4 },
    );
    fc.assert(
      fc.property(damage, (cuts) => {
        let broken = text;
        for (const { at, out, put } of cuts) broken = broken.slice(0, at) + put + broken.slice(at + out);
        expectAnswer(broken);
      }),
      { seed: 20260101, numRuns: 600 },
    );
  });

  it('answers a file with any value in any place, seed 20260102', () => {
    const spots = spotsOf(wholeCar as unknown as Json, []);
    const odd = fc.oneof(
      fc.jsonValue({ maxDepth: 3 }),
      fc.constantFrom<unknown>(
        null,
        -0,
        1e308,
        -1e308,
        5e-324,
        '',
        'a.b',
        '__proto__',
        [],
        {},
        [[]],
        [0, 0, 0],
        [1, 2, 3],
      ),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(spots.length - 1), odd), { minLength: 1, maxLength: 3 }), (changes) => {
        const broken = structuredClone(wholeCar) as unknown as Json;
        for (const [spot, value] of changes) put(broken, spots[spot]!, value);
        expectAnswer(JSON.stringify(broken));
      }),
      { seed: 20260102, numRuns: 600 },
    );
  });

  it('answers any JSON and any text, seed 20260103', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 5 }), (json) => void expectAnswer(json)),
      { seed: 20260103, numRuns: 150 },
    );
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (any) => void expectAnswer(any)),
      { seed: 20260103, numRuns: 150 },
    );
  });
});

describe('carText', () => {
  it('gives the file back: same values, same order, x- keys kept, twice the same text', () => {
    const reading = readCar(text);
    if (!reading.ok) throw new RangeError(reading.faults.map(faultLine).join('\n'));
    const written = carText(reading.car);
    expect(JSON.stringify(JSON.parse(written))).toBe(JSON.stringify(wholeCar));
    const again = readCar(written);
    expect(again).toEqual(reading);
    expect(again.ok && carText(again.car)).toBe(written);
  });

  it('keeps keys that begin with x- at any depth, seed 20260104', () => {
    const objects = spotsOf(wholeCar as unknown as Json, []).filter((spot) =>
      isObject(at(wholeCar as unknown as Json, spot)),
    );
    fc.assert(
      fc.property(
        fc.nat(objects.length - 1),
        fc.string({ maxLength: 8 }),
        fc.jsonValue({ maxDepth: 2 }),
        (spot, name, value) => {
          const marked = structuredClone(wholeCar) as unknown as Json;
          put(marked, [...objects[spot]!, `x-${name}`], value);
          const reading = readCar(JSON.stringify(marked));
          if (!reading.ok) throw new RangeError(reading.faults.map(faultLine).join('\n'));
          expect(JSON.parse(carText(reading.car))).toEqual(JSON.parse(JSON.stringify(marked)));
        },
      ),
      { seed: 20260104, numRuns: 150 },
    );
  });
});

type Spot = readonly (string | number)[];

const isObject = (value: unknown) => typeof value === 'object' && value !== null && !Array.isArray(value);

function spotsOf(value: Json, path: Spot): Spot[] {
  if (typeof value !== 'object' || value === null) return [path];
  const below = Object.entries(value).flatMap(([key, item]) =>
    spotsOf(item as Json, [...path, Array.isArray(value) ? Number(key) : key]),
  );
  return path.length === 0 ? below : [path, ...below];
}

function at(value: Json, path: Spot): Json | undefined {
  let found: Json | undefined = value;
  for (const step of path)
    found = isObject(found) || Array.isArray(found) ? (found as Record<string, Json>)[step] : undefined;
  return found;
}

function put(value: Json, path: Spot, item: unknown): void {
  const owner = at(value, path.slice(0, -1));
  if (owner !== undefined && typeof owner === 'object' && owner !== null)
    (owner as Record<string | number, unknown>)[path.at(-1)!] = item;
}
