import { readFileSync } from 'node:fs';
import { applyEdit, type Car, type Edit, readCar } from '#car';
import { describe, expect, it } from 'vitest';
import { flowKey } from './flow-key.ts';

const reading = readCar(readFileSync(new URL('../../demo/fellside.json', import.meta.url), 'utf8'));
if (!reading.ok) throw new Error('fellside.json is no car');
const { car } = reading;
const keyOf = (of: Car, marks: readonly (readonly [string, string])[] = []): string =>
  flowKey({ car: of, meshMarks: new Map(marks) });
const after = (edit: unknown): string => keyOf(applyEdit(car, edit as Edit).car);
const pumps = (edit: (row: object) => object): object[] =>
  car.circuits!.find(({ id }) => id === 'oil')!.pumps!.map((row, i) => (i === 0 ? edit(row) : row));

describe('what the flow of a car is kept by', () => {
  it.each([
    ['the name of the car', { do: 'set-name', name: 'Another' }],
    ['a snag accepted', { do: 'set-accepted', rows: [{ snag: 'x', level: 'fix', by: 'Marrow', why: 'y', on: 'z' }] }],
    ['what lies in the box', { do: 'set-box', rows: [{ id: 'x', qty: 2 }] }],
    ['how far a line is made', { do: 'set-state', line: 'O1', state: 'bought' }],
    ['the name of a brake line', { do: 'set-line', line: 'B1', field: 'name', value: 'Another' }],
  ])('%s leaves it as it was', (_, edit) => {
    expect(after(edit)).toBe(keyOf(car));
  });

  it.each([
    ['a way taken', { do: 'take-way', line: 'O1', way: { ends: [], pieces: [], bodies: [] } }],
    ['a size', { do: 'set-line', line: 'O1', field: 'dash', value: 20 }],
    ['a case', { do: 'set-case', case: 'cold-start', field: 'oilC', value: 20 }],
    [
      'a pump',
      { do: 'set-circuit', circuit: 'oil', field: 'pumps', value: pumps((row) => ({ ...row, displacementCcRev: 20 })) },
    ],
    ['where a part stands', { do: 'move-part', part: 'tank', byMm: [0, 0, 10] }],
  ])('%s makes another of it', (_, edit) => {
    expect(after(edit)).not.toBe(keyOf(car));
  });

  it('a fluid and what is in a scan make another of it', () => {
    expect(keyOf({ ...car, fluids: car.fluids!.slice(1) })).not.toBe(keyOf(car));
    expect(keyOf(car, [['a.stl', 'bb']])).not.toBe(keyOf(car, [['a.stl', 'aa']]));
    expect(
      keyOf(car, [
        ['b', '2'],
        ['a', '1'],
      ]),
    ).toBe(
      keyOf(car, [
        ['a', '1'],
        ['b', '2'],
      ]),
    );
  });
});
