import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carNotes } from './car-notes.ts';
import { placeOf, shortened, shown } from './fault.ts';
import { readJson } from './json-text.ts';
import { keepOffDefaults, keepOffs, partKeepOffMm } from './keep-off.ts';
import { findLineAt, findPort, linesById, moversById, partsById, portRefs, splitPortRef } from './lookups.ts';
import { migrated } from './migrate.ts';
import { findNearest, slips } from './nearest.ts';
import { readCar } from './read-car.ts';
import type { Part } from './schema/car.ts';
import { partTolerance, portTolerance, shapeKnownToMm } from './tolerance.ts';
import { wholeCar } from './whole-car.fixture.ts';

const reading = readCar(JSON.stringify(wholeCar));
if (!reading.ok) throw new RangeError('the sample car is broken');
const { car } = reading;
const part = (more: Partial<Part> = {}): Part => ({ id: 'a', class: 'hot', shapes: [], ports: [], ...more });

describe('keep-offs', () => {
  it('take the usual values where the car gives none', () => {
    // Common practice, no source.
    expect(keepOffDefaults).toEqual({ hot: 100, hotShielded: 50, moving: 25, fixed: 6, line: 3 });
    expect(keepOffs({ keepOffMm: { hot: 110 } })).toEqual({ ...keepOffDefaults, hot: 110 });
  });

  it.each([
    [part(), 'oil-return', 100],
    [part({ shielded: true }), 'oil-return', 50],
    [part({ shielded: true }), 'fuel', 76],
    [part({ shielded: true }), 'brake', 76],
    [part(), 'fuel', 100],
    [part({ turbine: true }), 'water', 150],
    [part({ turbine: true, shielded: true }), 'water', 50],
    [part({ keepOffMm: 40 }), 'water', 40],
    [part({ keepOffMm: 40 }), 'fuel', 76],
    [part({ class: 'moving' }), 'fuel', 25],
    [part({ class: 'moving', keepOffMm: 50 }), 'fuel', 50],
    [part({ class: 'fixed' }), 'brake', 6],
  ] as const)('%o with %s keep %d mm', (one, duty, wanted) => {
    expect(partKeepOffMm({}, one, duty)).toBe(wanted);
  });
});

describe('tolerances', () => {
  it('come from the port, the part, or the tape', () => {
    expect(portTolerance(car, 'tank.out')).toEqual({ knownToMm: 2, facingKnownDeg: 1 });
    expect(portTolerance(car, 'tank.back')).toEqual({ knownToMm: 4, facingKnownDeg: 3 });
    expect(portTolerance(car, 'turbo.feed')).toEqual({ knownToMm: 5, facingKnownDeg: 5 });
    expect(portTolerance(car, 'tank.nothing')).toBeUndefined();
    expect(partTolerance(part())).toEqual({ knownToMm: 5, facingKnownDeg: 5 });
  });

  it('of a part are those of its worst solid', () => {
    const wall = car.parts[2]!;
    expect(shapeKnownToMm(wall, wall.shapes[1]!)).toBe(2);
    expect(shapeKnownToMm(wall, wall.shapes[0]!)).toBe(5);
    // The third was read from an origin, so it is known less well than the tape alone.
    expect(shapeKnownToMm(wall, wall.shapes[2]!)).toBeGreaterThan(5);
    expect(partTolerance(wall).knownToMm).toBe(shapeKnownToMm(wall, wall.shapes[2]!));
  });
});

describe('lookups', () => {
  it('find what is there and nothing else', () => {
    expect(findPort(car, 'tank.out')).toEqual({ part: car.parts[0], port: car.parts[0]!.ports[0] });
    for (const ref of ['tank', 'tank.', '.out', 'no.out', 'tank.no', '', 'constructor.name'])
      expect(findPort(car, ref)).toBeUndefined();
    expect(splitPortRef('a.b')).toEqual({ part: 'a', port: 'b' });
    expect(findLineAt(car, 'tank.back')?.id).toBe('O1');
    expect(portRefs(car)).toHaveLength(6);
    expect([...partsById(car).keys(), ...linesById(car).keys(), ...moversById(car).keys()]).toEqual([
      'tank',
      'turbo',
      'wall',
      'O1',
      'O2',
      'engine',
      'wheel',
    ]);
  });
});

describe('carNotes', () => {
  it('says what is allowed but odd', () => {
    const odd = readCar(
      JSON.stringify({
        fairlead: 1,
        parts: [
          {
            id: 'a',
            class: 'hot',
            ports: [
              { id: 'p', atMm: [0, 0, 0], faces: [1, 0, 0], end: { type: 'orb', dash: 4 } },
              { id: 'q', atMm: [0, 0, 9], faces: [1, 0, 0], end: { type: 'orb', dash: 4 } },
            ],
          },
        ],
        movers: [{ id: 'm', pivotMm: [0, 0, 0], axis: [0, 0, 1], turnDeg: [5, 30] }],
        lines: [{ id: 'L', from: 'a.p', to: 'a.q', duty: 'water', state: 'made' }],
      }),
    );
    expect(odd.ok && carNotes(odd.car)).toEqual([
      {
        place: 'lines[0].state',
        text: 'L is made, but no way is taken: what was made is not known, so other lines cannot keep clear of it',
      },
      { place: 'parts[0]', text: 'a has no shape: nothing keeps clear of it' },
      { place: 'parts[0]', text: 'a is hot, but its surfaceC is not given' },
      { place: 'movers[0]', text: 'no part moves with m' },
      { place: 'movers[0].turnDeg', text: 'm swings from 5 to 30 deg, which leaves out 0, where it is drawn' },
    ]);
  });
});

describe('migrated', () => {
  const steps = { 1: (file: object) => ({ ...file, b: 1 }), 2: (file: object) => ({ ...file, c: 2 }) };
  it('takes an older file through every step', () => {
    expect(migrated({ fairlead: 1, a: 0 }, steps, 3)).toEqual({ file: { fairlead: 3, a: 0, b: 1, c: 2 } });
    expect(migrated({ fairlead: 3 }, steps, 3)).toEqual({ file: { fairlead: 3 } });
  });
  it('refuses a newer one, none, and one it knows no way from', () => {
    for (const file of [{ fairlead: 4 }, {}, { fairlead: 0 }, { fairlead: 1.5 }, { fairlead: '1' }])
      expect(migrated(file, steps, 3)).toHaveProperty('fault');
    expect(migrated({ fairlead: 1 }, {}, 2)).toHaveProperty('fault');
  });
});

describe('slips', () => {
  // Hand: counted on paper.
  it.each([
    ['', '', 0],
    ['abc', '', 3],
    ['class', 'clas', 1],
    ['duty', 'duyt', 1],
    ['from', 'form', 1],
    ['boreMm', 'BoreMM', 2],
    ['kitten', 'sitting', 3],
  ])('%s -> %s is %d', (a, b, count) => {
    expect(slips(a, b)).toBe(count);
    expect(slips(b, a)).toBe(count);
  });
  it('finds the nearest, case aside, the first of two alike', () => {
    expect(findNearest('BOREMM', ['dash', 'boreMm'])).toBe('boreMm');
    expect(findNearest('x', ['a', 'b'])).toBe('a');
    expect(findNearest('x', [])).toBeUndefined();
  });
});

describe('readJson', () => {
  it('reads what the language itself reads, the same, seed 20260401', () => {
    // Second: JSON.parse.
    fc.assert(
      fc.property(fc.jsonValue({ maxDepth: 6 }), fc.constantFrom(undefined, 1, '\t', '\r\n'), (value, space) => {
        const text = JSON.stringify(value, null, space);
        const got = readJson(text);
        if (got.ok) expect(got.value).toEqual(JSON.parse(text));
        else expect(got.faults.map((fault) => fault.stands).join()).toMatch(/__proto__/);
      }),
      { seed: 20260401, numRuns: 500 },
    );
  });

  it('refuses what the language itself refuses, seed 20260402', () => {
    // Second: JSON.parse, on texts of the signs JSON is made of.
    const sign = fc.constantFrom(
      '{',
      '}',
      '[',
      ']',
      ',',
      ':',
      '"',
      '\\',
      '-',
      '+',
      '.',
      'e',
      '0',
      '1',
      '9',
      'true',
      'null',
      ' ',
      '\n',
      '"a"',
      '\\u00e9',
      '/',
    );
    fc.assert(
      fc.property(fc.array(sign, { maxLength: 8 }), (signs) => {
        const text = signs.join('');
        let wanted = true;
        try {
          JSON.parse(text);
        } catch {
          wanted = false;
        }
        const got = readJson(text);
        const isStricter = !got.ok && got.faults.every((fault) => /second time|^-?\d/.test(fault.stands));
        expect(got.ok || (wanted && isStricter), text).toBe(wanted);
      }),
      { seed: 20260402, numRuns: 4000 },
    );
  });

  it('holds 64 brackets and no more', () => {
    const nested = (depth: number) => '['.repeat(depth) + ']'.repeat(depth);
    expect(readJson(nested(64)).ok).toBe(true);
    expect(readJson(nested(66)).ok).toBe(false);
  });
});

it('what stands in a file is shown on one line, shortened', () => {
  expect(shown('a\nb\u2028c\u0000')).toBe('"a\\nb\\u2028c\\u0000"');
  expect(shown(Array(1000).fill(1)).length).toBeLessThanOrEqual(60);
  expect(shortened('x'.repeat(100))).toHaveLength(60);
  expect(shown(undefined)).toBe('nothing');
  expect(placeOf([])).toBe('car file');
  expect(placeOf(['parts', 3, 'ports', 0, 'faces'])).toBe('parts[3].ports[0].faces');
  expect(placeOf(['a b', 'c'])).toBe('["a b"].c');
});
