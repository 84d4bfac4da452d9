import { movedPoint, rotationFromDeg, type Vec } from '#geometry';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { carText } from '../car-text.ts';
import { faultLine } from '../fault.ts';
import { findPort, portRefs } from '../lookups.ts';
import { carFrom, checkCar, readCar } from '../read-car.ts';
import type { Car, Line, Part } from '../schema/car.ts';
import { wholeCar } from '../whole-car.fixture.ts';
import { applyEdit } from './apply-edit.ts';
import { CarEditError } from './car-edit-error.ts';
import type { Edit } from './edit.ts';
import { mergeEdits } from './merge-edits.ts';

function whole(): Car {
  const reading = readCar(JSON.stringify(wholeCar));
  if (!reading.ok) throw new RangeError(reading.faults.map(faultLine).join('\n'));
  return reading.car;
}
const car = whole();
const edited = (edit: Edit, from = car): Car => applyEdit(from, edit).car;

/** A small random car: boxes with ports, some measured, lines between them. */
const randomCar: fc.Arbitrary<Car> = fc
  .record({
    parts: fc.integer({ min: 2, max: 5 }),
    ports: fc.integer({ min: 1, max: 3 }),
    places: fc.array(fc.integer({ min: -2000, max: 2000 }), { minLength: 60, maxLength: 60 }),
    measured: fc.boolean(),
  })
  .map(({ parts, ports, places, measured }) => {
    let next = 0;
    const point = () => [places[next++ % 60]!, places[next++ % 60]!, places[next++ % 60]!];
    const list = Array.from({ length: parts }, (_, i) => {
      const minMm = point();
      return {
        id: `p${i}`,
        class: (['fixed', 'hot', 'moving'] as const)[i % 3],
        'x-mark': i,
        shapes: [{ box: { minMm, maxMm: minMm.map((v) => v + 10) } }],
        ports: Array.from({ length: ports }, (_p, j) => {
          const isMeasured = measured && j === 0;
          return {
            id: `q${j}`,
            ...(isMeasured ? { measured: [{ from: 'o', readMm: point() }] } : { atMm: point() }),
            faces: [1, 0, j],
            end: { type: 'orb', dash: 12 },
          };
        }),
      };
    });
    const origins = measured
      ? [
          {
            id: 'o',
            kind: 'points',
            points: [
              { name: 'a', readMm: [0, 0, 0], atMm: [10, 20, 30] },
              { name: 'b', readMm: [900, 0, 0], atMm: [10, 920, 30] },
              { name: 'c', readMm: [0, 700, 0], atMm: [-690, 20, 30] },
            ],
          },
        ]
      : undefined;
    const lines = [{ id: 'L0', from: 'p0.q0', to: 'p1.q0', duty: 'oil-return' }];
    const reading = carFrom(JSON.parse(JSON.stringify({ fairlead: 1, name: 'random', parts: list, lines, origins })));
    if (!reading.ok) throw new RangeError(reading.faults.map(faultLine).join('\n'));
    return reading.car;
  });

interface Pick {
  readonly kind: number;
  readonly a: number;
  readonly b: number;
  readonly n: number;
}
const picks = fc.array(
  fc.record({ kind: fc.nat(23), a: fc.nat(50), b: fc.nat(50), n: fc.integer({ min: -500, max: 500 }) }),
  { minLength: 1, maxLength: 8 },
);

/** An edit that fits the car as it stands, out of random numbers; nothing where the car has nothing to do it to. */
function editFor(at: Car, { kind, a, b, n }: Pick, step: number): Edit | undefined {
  const part = at.parts[a % Math.max(1, at.parts.length)];
  const refs = portRefs(at);
  const port = refs.length === 0 ? undefined : refs[b % refs.length];
  const line = at.lines[a % Math.max(1, at.lines.length)];
  const makers: readonly (() => Edit | undefined)[] = [
    () => ({ do: 'set-name', ...(n > 0 ? { name: `n${n}` } : {}) }),
    () => part && { do: 'set-part', part: part.id, field: 'knownToMm', ...(n > 0 ? { value: n } : {}) },
    () => part && { do: 'set-part', part: part.id, field: 'class', value: n > 0 ? 'hot' : 'fixed' },
    () => (port === undefined ? undefined : { do: 'set-port', port, field: 'atMm', value: [n, a, b] }),
    () => (port === undefined ? undefined : { do: 'set-port', port, field: 'faces', value: [1, n, 0] }),
    () =>
      port === undefined
        ? undefined
        : {
            do: 'set-port',
            port,
            field: 'measured',
            ...(n > 0 ? { value: [{ xMm: n }, { yMm: a }, { zMm: b }] } : {}),
          },
    () =>
      port === undefined ? undefined : { do: 'set-port', port, field: 'knownToMm', ...(n > 0 ? { value: 7 } : {}) },
    () => line && { do: 'set-line', line: line.id, field: 'note', ...(n > 0 ? { value: 'x' } : {}) },
    () => ({ do: 'set-keep-off', class: 'hot', ...(n > 0 ? { keepOffMm: n } : {}) }),
    () => ({
      do: 'add-part',
      part: { id: `new${step}`, class: 'fixed', shapes: [], ports: [] },
      ...(n > 0 ? { index: a % 3 } : {}),
    }),
    () => part && { do: 'remove-part', part: part.id },
    () =>
      part && {
        do: 'add-port',
        part: part.id,
        port: { id: `new${step}`, atMm: [1, 2, 3], faces: [0, 0, 1], end: { type: 'orb', dash: 6 } },
        index: 0,
      },
    () => (port === undefined ? undefined : { do: 'remove-port', port }),
    () =>
      refs.length < 2
        ? undefined
        : {
            do: 'add-line',
            line: {
              id: `N${step}`,
              from: refs[0]!,
              to: refs[1]!,
              duty: 'water',
              pieces: [],
              through: [],
              state: 'planned',
            },
          },
    () => line && { do: 'remove-line', line: line.id },
    () =>
      part && {
        do: 'move-part',
        part: part.id,
        byMm: [n, a, b],
        ...(n % 2 === 0 ? { turnDeg: [0, 0, n] as Vec, aboutMm: [a, b, 0] as Vec } : {}),
      },
    () => (port === undefined ? undefined : { do: 'swap-ports', a: refs[0]!, b: port }),
    () => line && { do: 'set-state', line: line.id, state: n > 0 ? 'made' : 'fitted' },
    () => ({ do: 'set-box', ...(n > 0 ? { rows: [{ id: 'thing', qty: n }] } : {}) }),
    () =>
      at.origins?.length
        ? { do: 'remove-origin', origin: at.origins[0]!.id }
        : {
            do: 'add-mover',
            mover: {
              id: `m${step}`,
              slideMm: [
                [0, 0, 0],
                [0, 0, n],
              ],
            },
          },
    () =>
      at.cases?.length
        ? { do: 'set-case', case: at.cases[0]!.id, field: 'oilC', ...(n > 0 ? { value: n / 10 } : {}) }
        : { do: 'add-case', case: { id: `case${step}`, engineRpm: a } },
    () => (at.cases?.length ? { do: 'remove-case', case: at.cases[0]!.id } : undefined),
    () =>
      at.circuits?.length
        ? { do: 'remove-circuit', circuit: at.circuits[0]!.id }
        : { do: 'add-circuit', circuit: { id: `circuit${step}`, kind: 'fuel', lines: [] } },
    () => ({ do: 'set-fluids', ...(n > 0 ? { rows: [{ id: `fluid${step}`, water: {} }] } : {}) }),
  ];
  return makers[kind]!();
}

describe('an edit and its inverse', () => {
  it('give the car back, one by one and all at once, seed 20260301', () => {
    fc.assert(
      fc.property(randomCar, picks, (base, list) => {
        let now = base;
        const edits: Edit[] = [];
        const inverses: Edit[] = [];
        list.forEach((pick, step) => {
          const edit = editFor(now, pick, step);
          if (edit === undefined) return;
          const result = applyEdit(now, edit);
          expect(applyEdit(result.car, result.inverse).car).toEqual(now);
          edits.push(edit);
          inverses.unshift(JSON.parse(JSON.stringify(result.inverse)) as Edit);
          now = result.car;
        });
        const together = applyEdit(base, { do: 'several', edits });
        expect(together.car).toEqual(now);
        const back = applyEdit(now, { do: 'several', edits: inverses }).car;
        expect(back).toEqual(base);
        expect(carText(back)).toBe(carText(base));
        expect(carText(applyEdit(together.car, together.inverse).car)).toBe(carText(base));
      }),
      { seed: 20260301, numRuns: 250 },
    );
  });

  it('never write to the car they are given', () => {
    const before = JSON.stringify(car);
    applyEdit(car, {
      do: 'several',
      edits: [
        { do: 'move-part', part: 'tank', byMm: [1, 2, 3], turnDeg: [0, 0, 5] },
        { do: 'remove-part', part: 'wall' },
        { do: 'set-name' },
      ],
    });
    expect(JSON.stringify(car)).toBe(before);
  });

  it('name what is not there', () => {
    for (const edit of [
      { do: 'set-part', part: 'tnak', field: 'name', value: 'x' },
      { do: 'remove-port', port: 'tank.no' },
      { do: 'set-port', port: 'no.out', field: 'name', value: 'x' },
      { do: 'move-part', part: 'no', byMm: [0, 0, 1] },
      { do: 'swap-ports', a: 'tank.out', b: 'no.no' },
      { do: 'add-part', part: car.parts[0]! },
      { do: 'set-state', line: 'no', state: 'made' },
    ] as readonly Edit[])
      expect(() => applyEdit(car, edit), JSON.stringify(edit)).toThrow(CarEditError);
  });
});

describe('each edit does what it says', () => {
  it('a turn of a part takes solids, ports and facings with it', () => {
    // Hand: a quarter turn about Z through (2070, 330, 0) takes (2170, 330, z) to (2070, 430, z); facing down stays down.
    const now = edited({
      do: 'several',
      edits: [
        { do: 'set-port', port: 'turbo.drain', field: 'atMm', value: [2170, 330, 205] },
        { do: 'set-port', port: 'turbo.feed', field: 'faces', value: [1, 0, 0] },
        { do: 'move-part', part: 'turbo', byMm: [0, 0, -10], turnDeg: [0, 0, 90], aboutMm: [2070, 330, 0] },
      ],
    });
    const near = (got: readonly number[], wanted: readonly number[]) =>
      got.forEach((v, i) => expect(v).toBeCloseTo(wanted[i]!, 9));
    near(findPort(now, 'turbo.drain')!.port.atMm, [2070, 430, 195]);
    near(findPort(now, 'turbo.feed')!.port.faces, [0, 1, 0]);
    near(now.parts[1]!.shapes[0]!.tube!.pointsMm[0]!, [2070 - (200 - 330), 330 + (1600 - 2070), 490]);
  });

  it('a turned box, a mesh and a box read from an origin land where the motion puts them', () => {
    const turnDeg: Vec = [10, 20, 30];
    const now = edited({ do: 'move-part', part: 'wall', byMm: [5, 6, 7], turnDeg });
    const place = (part: Part, i: number, p: Vec): Vec => {
      const shape = part.shapes[i]!;
      const turned = movedPoint(rotationFromDeg(shape.turnDeg ?? [0, 0, 0]), p);
      return [
        turned[0] + (shape.atMm?.[0] ?? 0),
        turned[1] + (shape.atMm?.[1] ?? 0),
        turned[2] + (shape.atMm?.[2] ?? 0),
      ];
    };
    for (const i of [0, 1, 2]) {
      const was = movedPoint(rotationFromDeg(turnDeg), place(car.parts[2]!, i, [11, 12, 13]));
      place(now.parts[2]!, i, [11, 12, 13]).forEach((v, j) => expect(v).toBeCloseTo(was[j]! + [5, 6, 7][j]!, 6));
    }
    expect(now.parts[2]!.shapes[2]!.from).toBeUndefined();
    expect(checkCar(now)).toEqual([]);
  });

  it('a moved part keeps the places its measurements gave, without the measurements', () => {
    const was = findPort(car, 'tank.read')!.port;
    const now = findPort(edited({ do: 'move-part', part: 'tank', byMm: [10, 0, 0] }), 'tank.read')!.port;
    expect(now.measured).toBeUndefined();
    expect(now.atMm[0] - was.atMm[0]).toBeCloseTo(10, 9);
    expect(now.knownToMm).toBe(was.knownToMm);
  });

  it('a port measured anew is placed anew', () => {
    const now = edited({
      do: 'set-port',
      port: 'tank.out',
      field: 'measured',
      value: [{ xMm: 1 }, { yMm: 2 }, { zMm: 3, knownToMm: 9 }],
    });
    findPort(now, 'tank.out')!.port.atMm.forEach((v, i) => expect(v).toBeCloseTo([1, 2, 3][i]!, 6));
    expect(findPort(now, 'tank.out')!.port.knownToMm).toBeCloseTo(9, 6);
    expect(checkCar(now)).toEqual([]);
  });

  it('two ports change lines; a way taken on them is dropped, the state stays', () => {
    const now = edited({ do: 'swap-ports', a: 'tank.out', b: 'tank.back' });
    expect(now.lines.map((line) => [line.from, line.to])).toEqual([
      ['turbo.drain', 'tank.out'],
      ['turbo.feed', 'tank.back'],
    ]);
    expect(now.lines[1]).toMatchObject({ state: 'made' });
    expect(now.lines[1]!.taken).toBeUndefined();
    expect(checkCar(now)).toEqual([]);
  });

  it('a figure of a circuit and of a case is set and taken back, its neighbours stay', () => {
    const circuit = car.circuits![0]!;
    const pumps = circuit.pumps!.map((pump, i) => (i === 0 ? { ...pump, volumetricPercent: 88 } : pump));
    const { car: now, inverse } = applyEdit(car, {
      do: 'several',
      edits: [
        { do: 'set-circuit', circuit: circuit.id, field: 'pumps', value: pumps },
        { do: 'set-case', case: car.cases![0]!.id, field: 'oilC', value: 60 },
      ],
    });
    expect(now.circuits![0]).toEqual({ ...circuit, pumps });
    expect(now.cases![0]).toEqual({ ...car.cases![0], oilC: 60 });
    expect(applyEdit(now, inverse).car).toEqual(car);
    expect(() => edited({ do: 'set-case', case: 'nobody', field: 'oilC', value: 1 })).toThrow(CarEditError);
  });

  it('a part taken away leaves faults that name the lines', () => {
    const now = edited({ do: 'remove-part', part: 'turbo' });
    expect(checkCar(now).map((fault) => fault.place)).toEqual(['lines[0].from', 'lines[1].from']);
  });
});

describe('two lists of edits merge', () => {
  const name: Edit = { do: 'set-part', part: 'tank', field: 'name', value: 'Mine' };
  it('where they touch different things', () => {
    const theirs: Edit[] = [
      { do: 'set-part', part: 'tank', field: 'knownToMm', value: 1 },
      { do: 'set-name', name: 'Theirs' },
    ];
    const merged = mergeEdits(car, [name], theirs);
    expect(merged.clashes).toEqual([]);
    expect(merged.faults).toEqual([]);
    expect(merged.car).toMatchObject({ name: 'Theirs', parts: [{ name: 'Mine', knownToMm: 1 }, {}, {}] });
    // The order does not matter where nothing clashes.
    expect(mergeEdits(car, theirs, [name]).car).toEqual(merged.car);
  });

  it('and report the same thing touched twice, mine kept', () => {
    const theirs: Edit = { do: 'set-part', part: 'tank', field: 'name', value: 'Theirs' };
    const merged = mergeEdits(car, [name], [theirs]);
    expect(merged.clashes).toEqual([{ at: 'parts/#tank/name', theirs }]);
    expect(merged.car.parts[0]!.name).toBe('Mine');
    expect(mergeEdits(car, [name], [name]).clashes).toEqual([]);
  });

  it('and report a thing changed by one and taken away by the other, and what rests on it', () => {
    const gone: Edit = { do: 'remove-part', part: 'tank' };
    expect(mergeEdits(car, [name], [gone]).clashes.map((clash) => clash.at)).toEqual(['parts/#tank']);
    expect(mergeEdits(car, [gone], [name]).clashes.map((clash) => clash.at)).toEqual(['parts/#tank/name']);
    const part: Part = { id: 'pot', class: 'fixed', shapes: [], ports: [] };
    const theirs: Edit[] = [
      { do: 'add-part', part },
      { do: 'set-part', part: 'pot', field: 'name', value: 'Pot' },
    ];
    expect(mergeEdits(car, [{ do: 'add-part', part: { ...part, class: 'hot' } }], theirs).clashes).toHaveLength(2);
  });

  it('and tell what is wrong with both together', () => {
    const line: Line = {
      id: 'W1',
      from: 'tank.read',
      to: 'tank.taped',
      duty: 'water',
      pieces: [],
      through: [],
      state: 'planned',
    };
    const merged = mergeEdits(car, [{ do: 'remove-port', port: 'tank.read' }], [{ do: 'add-line', line }]);
    expect(merged.clashes).toEqual([]);
    expect(merged.faults.map((fault) => fault.place)).toEqual(['lines[2].from']);
  });
});
