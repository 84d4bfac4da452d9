import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, carFrom, checkCar, type Origin, type Reading } from '#car';
import {
  emptyMark,
  emptyOrigin,
  emptyReading,
  inShopWords,
  originDraft,
  originEdits,
  originFrom,
  originReport,
  portReport,
  readingDraft,
  readingFrom,
  readingLabels,
  readingStarts,
} from './measuring.ts';

const reading = carFrom({
  fairlead: 1,
  origins: [
    {
      id: 'sill',
      kind: 'straightedge',
      points: [
        { name: 'a', atMm: [0, 0, 500] },
        { name: 'b', atMm: [1000, 0, 500] },
      ],
    },
    { id: 'lid', kind: 'marks', points: [{ name: 'pin', atMm: [300, 40, 840] }] },
  ],
  parts: [
    {
      id: 'tank',
      class: 'fixed',
      ports: [{ id: 'out', atMm: [0, 0, 0], faces: [0, 0, 1], end: { type: 'orb', dash: 8 } }],
    },
  ],
});
if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
const { car } = reading;
const read = (from: string, ...values: string[]): Reading => {
  const made = readingFrom(
    car,
    { ...emptyReading, from, values: [values[0] ?? '', values[1] ?? '', values[2] ?? ''] },
    'mm',
  );
  if (!made.ok) throw new Error(made.fault);
  return made.value;
};

describe('readings of a port', () => {
  // hand: the edge runs along X from (0, 0, 500): 300 along it, 40 out to the right, 60 down is (300, 40, 440).
  it('from a straightedge', () => {
    const { report } = portReport(car, 'tank.out', [read('sill', '300', '40', '60')]);
    [300, 40, 440].forEach((mm, i) => expect(report!.atMm[i]).toBeCloseTo(mm, 6));
  });

  // hand: the datum and the pin 400 above say the same place; the edge read again at 350 instead of 300 is 50 away.
  it('the reading that does not agree is named at once', () => {
    const good = [read('', '300', '40', '440'), read('sill', '300', '40', '60'), read('lid.pin', '400')];
    expect(portReport(car, 'tank.out', good).report!.remarks).toEqual([]);
    const { report } = portReport(car, 'tank.out', [...good, read('sill', '350')]);
    expect(report!.remarks.join()).toMatch(
      /reading 4 \(alongMm from sill\) is 50 mm from where the other readings put the point/,
    );
    expect(inShopWords(report!.remarks.join())).toMatch(/reading 4 \(along from sill\) is 50 mm/);
    expect(report!.readings.map(({ disagrees }) => disagrees)).toEqual([false, false, false, true]);
  });

  it('too few are said to be too few', () => {
    expect(portReport(car, 'tank.out', [read('sill', '300')]).fault).toMatch(/give 1 number; allowed: at least three/);
    expect(readingFrom(car, emptyReading, 'mm')).toMatchObject({ ok: false, fault: 'no number is read yet' });
    expect(readingFrom(car, { ...emptyReading, values: ['12', '', ''] }, null)).toMatchObject({ ok: false });
  });

  it('come back out of the form as they went in', () => {
    for (const one of [read('sill', '300', '', '2 in'), read('', '', '-5 mm', ''), read('lid.pin', '400')]) {
      const again = readingFrom(car, readingDraft(car, one), null);
      expect(again.ok && again.value).toEqual(one);
    }
    expect(readingLabels(car, 'lid.pin')).toEqual(['Straight distance']);
    expect(readingStarts(car).map(({ value }) => value)).toEqual(['', 'sill', 'sill.a', 'sill.b', 'lid.pin']);
  });
});

describe('origins in the form', () => {
  const mark = (n: number, at: readonly [string, string, string], seen: readonly [string, string, string]) => ({
    ...emptyMark(n),
    at,
    read: seen,
  });
  // hand: a table turned by 90 deg about Z and shifted: read (x, y, z) is car (1000 - y, x, z).
  const table = {
    ...emptyOrigin,
    name: 'Table',
    kind: 'points' as const,
    points: [
      mark(1, ['1000', '0', '0'], ['0', '0', '0']),
      mark(2, ['1000', '500', '0'], ['500', '0', '0']),
      mark(3, ['600', '0', '0'], ['0', '400', '0']),
      mark(4, ['600', '500', '300'], ['500', '400', '300']),
    ],
  };
  const made = (draft: typeof table): Origin => {
    const origin = originFrom('table', draft, 'mm');
    if (!origin.ok) throw new Error(origin.fault);
    return origin.value;
  };

  it('points that agree miss by nothing; one that was read 60 mm off is named', () => {
    expect(originReport(car, made(table)).report!.rmsMm).toBeLessThan(1e-6);
    const off = { ...table, points: [...table.points, mark(5, ['800', '250', '0'], ['310', '200', '0'])] };
    const { report } = originReport(car, made(off));
    expect(report!.remarks.join()).toMatch(/table\.p5 reads 60 mm from where the others put it/);
  });

  it('points on one line are refused in words', () => {
    const line = {
      ...table,
      points: [0, 1, 2].map((n) => mark(n + 1, [`${n * 100}`, '0', '0'], [`${n * 100}`, '0', '0'])),
    };
    expect(originReport(car, made(line)).fault).toMatch(/on one line.*allowed: three points/);
  });

  it('goes onto the car, comes back into the form, and changes in one step', () => {
    const origin = made(table);
    const after = originEdits(undefined, origin).reduce<Car>((now, edit) => applyEdit(now, edit).car, car);
    expect(checkCar(after)).toEqual([]);
    const again = originFrom('table', originDraft(origin), null);
    expect(again.ok && again.value).toEqual(origin);
    expect(originEdits(origin, origin)).toEqual([]);
    expect(originEdits(origin, { ...origin, name: 'Slab' })).toEqual([
      { do: 'several', edits: [{ do: 'set-origin', origin: 'table', field: 'name', value: 'Slab' }] },
    ]);
  });

  it('what is missing is said with the point it is missing at', () => {
    const fault = (draft: typeof emptyOrigin): string => {
      const origin = originFrom('x', draft, null);
      return origin.ok ? '' : origin.fault;
    };
    expect(fault(emptyOrigin)).toMatch(/no name/);
    expect(fault({ ...emptyOrigin, name: 'Sill' })).toMatch(/^point 1: its place/);
    const level = {
      ...emptyOrigin,
      name: 'Laser',
      kind: 'level' as const,
      points: [{ ...emptyMark(1), at: ['0', '0', '0'] as const, down: '40' }],
    };
    expect(fault(level)).toMatch(/^point 1: "40" has no unit/);
  });
});
