import { describe, expect, it } from 'vitest';
import { applyEdit } from '../edits/apply-edit.ts';
import { readEdits } from '../edits/read-edits.ts';
import { carText } from '../car-text.ts';
import { faultLine } from '../fault.ts';
import { readCar } from '../read-car.ts';
import type { Car, Lever } from '../schema/car.ts';
import { wholeCar } from '../whole-car.fixture.ts';

type Row = Record<string, unknown>;
const levers = () => structuredClone(wholeCar.levers) as unknown as [Row, Row];

/** The faults of the whole car with its levers changed. */
function faults(change: (stick: Row, selector: Row) => void): string[] {
  const rows = levers();
  change(...rows);
  const reading = readCar(JSON.stringify({ ...wholeCar, levers: rows }));
  return reading.ok ? [] : reading.faults.map(faultLine);
}

const list = (row: Row, key: string) => row[key] as Row[];

describe('levers of a car file', () => {
  it('are read and written as they stand', () => {
    const reading = readCar(JSON.stringify(wholeCar));
    expect(reading.ok && JSON.parse(carText(reading.car)).levers).toEqual(wholeCar.levers);
  });

  it.each<[string, (stick: Row, selector: Row) => void, RegExp]>([
    ['an id twice', (_, b) => (b['id'] = 'stick'), /^levers\[1\]\.id: stands "stick" a second time/],
    ['the id of a part', (a) => (a['id'] = 'tank'), /^levers\[0\]\.id: stands "tank"; allowed: an id that no part/],
    [
      'an arm that is none',
      (a) => (list(a, 'cables')[0]!['arm'] = 'shfit'),
      /^levers\[0\]\.cables\[0\]\.arm: stands "shfit"; allowed: an arm of this lever \(nearest: shift\)/,
    ],
    [
      'another lever that is none',
      (a) => (list(a, 'rods')[0]!['to'] = { lever: 'slector', arm: 'in' }),
      /^levers\[0\]\.rods\[0\]\.to\.lever: stands "slector"; allowed: another lever of this car \(nearest: selector\)/,
    ],
    [
      'itself as the other lever',
      (a) => (list(a, 'rods')[0]!['to'] = { lever: 'stick', arm: 'push' }),
      /^levers\[0\]\.rods\[0\]\.to\.lever: stands "stick"/,
    ],
    [
      'an arm that the other lever has not',
      (a) => (list(a, 'rods')[0]!['to'] = { lever: 'selector', arm: 'out' }),
      /^levers\[0\]\.rods\[0\]\.to\.arm: stands "out"; allowed: an arm of selector/,
    ],
    [
      'a mover that slides',
      (a) => (list(a, 'rods')[1]!['to'] = { mover: 'wheel', atMm: [1, 2, 3] }),
      /^levers\[0\]\.rods\[1\]\.to\.mover: stands "wheel", which does not swing; allowed: a mover with pivotMm/,
    ],
    [
      'both kinds of other end',
      (a) => (list(a, 'rods')[0]!['to'] = { lever: 'selector', arm: 'in', mover: 'engine', atMm: [0, 0, 0] }),
      /^levers\[0\]\.rods\[0\]\.to: .*allowed: either lever and arm, or mover and atMm/,
    ],
    [
      'a handle on the axis',
      (a) => (a['handle'] = { atMm: [600, 480, 350] }),
      /^levers\[0\]\.handle\.atMm: stands a place on its own axis; allowed: a place beside the axis it turns about/,
    ],
    [
      'an arm on the axis before it was moved',
      (a) =>
        ((a['was'] as Row)['arms'] = [
          { id: 'shift', atMm: [540, 300, 350] },
          { id: 'push', atMm: [1, 2, 3] },
        ]),
      /^levers\[0\]\.was\.arms\[0\]\.atMm: stands a place on its own axis/,
    ],
    [
      'no handle for a hand',
      (_, b) => (b['acts'] = 'hand'),
      /^levers\[1\]: .*allowed: a handle, where hand or foot works it/,
    ],
    [
      'a swing beside as drawn',
      (a) => (a['turnDeg'] = [5, 15]),
      /^levers\[0\]\.turnDeg: .*with 0 \(as drawn\) between/,
    ],
    [
      'a path that stands still',
      (a) =>
        (list(a, 'cables')[0]!['pathMm'] = [
          [0, 0, 0],
          [0, 0, 0],
        ]),
      /^levers\[0\]\.cables\[0\]\.pathMm\[1\]: stands the same place twice/,
    ],
    [
      'a pressure band upside down',
      (a) => (list(a, 'cylinders')[0]!['wantedBar'] = [80, 50]),
      /^levers\[0\]\.cylinders\[0\]\.wantedBar: .*the lower first/,
    ],
  ])('with %s are a fault', (_, change, line) => {
    const told = faults(change);
    expect(told.length).toBeGreaterThan(0);
    expect(told[0]).toMatch(line);
  });
});

describe('edits of levers', () => {
  const reading = readCar(JSON.stringify(wholeCar));
  const car = (reading.ok ? reading.car : undefined) as Car;
  const added: Lever = { id: 'new', acts: 'link', pivotMm: [0, 0, 0], axis: [0, 1, 0], arms: [], turnDeg: [-5, 5] };

  it('set, add and remove, and are taken back by their inverse', () => {
    const edits = readEdits([
      { do: 'set-lever', lever: 'stick', field: 'turnDeg', value: [-10, 10] },
      { do: 'add-lever', lever: added },
      { do: 'remove-lever', lever: 'selector' },
    ]);
    expect(edits.ok).toBe(true);
    const result = applyEdit(car, { do: 'several', edits: edits.ok ? [...edits.edits] : [] });
    expect(result.car.levers?.map(({ id }) => id)).toEqual(['stick', 'new']);
    expect(result.car.levers?.[0]?.turnDeg).toEqual([-10, 10]);
    expect(applyEdit(result.car, result.inverse).car).toEqual(car);
  });

  it('add the first one to a car without any', () => {
    const { levers: _, ...bare } = car;
    const result = applyEdit(bare as Car, { do: 'add-lever', lever: added });
    expect(result.car.levers).toEqual([added]);
    expect(applyEdit(result.car, result.inverse).car).toEqual(bare);
  });
});
