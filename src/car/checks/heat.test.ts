import { describe, expect, it } from 'vitest';
import { carText } from '../car-text.ts';
import { applyEdit } from '../edits/apply-edit.ts';
import type { Edit } from '../edits/edit.ts';
import { readEdits } from '../edits/read-edits.ts';
import { faultLine } from '../fault.ts';
import { checkCar, readCar } from '../read-car.ts';
import type { Car } from '../schema/car.ts';
import { wholeCar } from '../whole-car.fixture.ts';

type Row = Record<string, unknown>;
type File = Record<string, unknown>;
const copy = () => JSON.parse(JSON.stringify(wholeCar)) as File;
const list = (file: File | Row, key: string) => file[key] as Row[];

/** The faults of the whole car with something changed. */
function faults(change: (file: File) => void): string[] {
  const file = copy();
  change(file);
  const reading = readCar(JSON.stringify(file));
  return reading.ok ? [] : reading.faults.map(faultLine);
}

function whole(): Car {
  const reading = readCar(JSON.stringify(wholeCar));
  if (!reading.ok) throw new RangeError(reading.faults.map(faultLine).join('\n'));
  return reading.car;
}

describe('heat in a car file', () => {
  it('is read and written as it stands', () => {
    const text = JSON.parse(carText(whole())) as Car;
    expect(text.bays).toEqual(wholeCar.bays);
    expect(text.heatReadings).toEqual(wholeCar.heatReadings);
    expect(text.cases).toEqual(wholeCar.cases);
  });

  const bay = (file: File) => list(file, 'bays')[0]!;
  const reading = (file: File, i: number) => list(file, 'heatReadings')[i]!;
  const corner = (file: File) => list(file, 'cases')[0]!;
  const off = (file: File) => list(file, 'cases')[1]!;

  it.each<[string, (file: File) => void, RegExp]>([
    [
      'a case that is none, of a surface',
      (f) => (list(list(f, 'parts')[1]!, 'surfaceByCase')[0]!['case'] = 'cornr'),
      /^parts\[1\]\.surfaceByCase\[0\]\.case: stands "cornr"; allowed: a case of this car \(nearest: corner\)/,
    ],
    [
      'a finish that no table has',
      (f) => (list(f, 'parts')[1]!['finish'] = 'stainless-usd'),
      /^parts\[1\]\.finish: stands "stainless-usd"; allowed: one of .*; or emissivity in its place \(nearest: stainless-used\)/,
    ],
    [
      'a case twice, of a surface',
      (f) => (list(list(f, 'parts')[1]!, 'surfaceByCase')[0]!['case'] = 'off'),
      /^parts\[1\]\.surfaceByCase\[1\]\.case: stands "off" a second time/,
    ],
    [
      'a window that is none',
      (f) => (list(corner(f), 'pressures')[0]!['at'] = 'lid.W9'),
      /^cases\[0\]\.pressures\[0\]\.at: stands "lid\.W9"; allowed: an opening of a bay, .* \(nearest: lid\.W1\)/,
    ],
    [
      'a pressure twice',
      (f) => (list(corner(f), 'pressures')[0]!['at'] = 'gap'),
      /^cases\[0\]\.pressures\[1\]\.at: stands "gap" a second time/,
    ],
    [
      'a cover that is none',
      (f) => (off(f)['coversOff'] = ['lidd']),
      /^cases\[1\]\.coversOff\[0\]: stands "lidd"; allowed: a panel of this car \(nearest: lid\)/,
    ],
    ['after itself', (f) => (off(f)['after'] = 'off'), /^cases\[1\]\.after: stands "off"; allowed: another case/],
    [
      'after a case that is none',
      (f) => (off(f)['after'] = 'korner'),
      /^cases\[1\]\.after: stands "korner"; allowed: a case of this car \(nearest: corner\)/,
    ],
    [
      'after a case, with the engine running',
      (f) => (off(f)['engineRpm'] = 900),
      /^cases\[1\]\.after: stands "corner" at 900 rpm; allowed: after only in a case with engineRpm 0/,
    ],
    ['a bay twice', (f) => list(f, 'bays').push(bay(f)), /^bays\[1\]\.id: stands "engine-bay" a second time/],
    [
      'a panel that closes two bays',
      (f) => list(f, 'bays').push({ ...bay(f), id: 'other' }),
      /^bays\[1\]\.panels\[0\]: stands "lid", which closes "engine-bay"; allowed: one bay a panel/,
    ],
    [
      'a box without inside',
      (f) => (bay(f)['minMm'] = [2500, -640, 0]),
      /^bays\[0\]: stands minMm \[2500,-640,0\], maxMm .*allowed: each of minMm less/,
    ],
    [
      'a panel that is none',
      (f) => (bay(f)['panels'] = ['lip']),
      /^bays\[0\]\.panels\[0\]: stands "lip"; allowed: a panel of this car \(nearest: lid\)/,
    ],
    [
      'an opening that is called as a panel is',
      (f) => (list(bay(f), 'openings')[0]!['id'] = 'lid'),
      /openings\[0\]\.id: stands "lid"; allowed: an id that no panel has/m,
    ],
    [
      'a fan in no opening',
      (f) => ((bay(f)['fan'] as Row)['opening'] = 'gapp'),
      /^bays\[0\]\.fan\.opening: stands "gapp"; allowed: an opening of a bay, .*nearest: gap\)/,
    ],
    [
      'an intake on no part',
      (f) => (list(bay(f), 'intakes')[0]!['part'] = 'turbi'),
      /^bays\[0\]\.intakes\[0\]\.part: stands "turbi"; allowed: a part of this car \(nearest: turbo\)/,
    ],
    ['a reading twice', (f) => (reading(f, 1)['id'] = 'T1'), /^heatReadings\[1\]\.id: stands "T1" a second time/],
    [
      'a reading on no line',
      (f) => (reading(f, 0)['line'] = 'O3'),
      /^heatReadings\[0\]\.line: stands "O3"; allowed: a line of this car \(nearest: O[12]\)/,
    ],
    [
      'a reading in no bay',
      (f) => (reading(f, 3)['bay'] = 'engin-bay'),
      /^heatReadings\[3\]\.bay: stands "engin-bay"; allowed: a bay of this car \(nearest: engine-bay\)/,
    ],
    [
      'a place along a part',
      (f) => (reading(f, 1)['alongMm'] = 10),
      /^heatReadings\[1\]\.alongMm: stands 10; allowed: that only beside line/,
    ],
    [
      'a place in the car on a line',
      (f) => (reading(f, 0)['atMm'] = [1, 2, 3]),
      /^heatReadings\[0\]\.atMm: stands \[1,2,3\]; allowed: that only beside part or panel/,
    ],
    ['nothing read', (f) => delete reading(f, 1)['readC'], /^heatReadings\[1\]: stands neither readC nor belowC/],
    [
      'a strip whose marks are the wrong way round',
      (f) => (reading(f, 0)['belowC'] = 110),
      /^heatReadings\[0\]\.belowC: stands 110 beside readC 110; allowed: a mark above the last one that turned/,
    ],
    [
      'marks on a probe',
      (f) => (reading(f, 2)['belowC'] = 90),
      /^heatReadings\[2\]\.belowC: stands 90 beside means "probe"; allowed: that only of a strip or paint/,
    ],
    [
      'minutes after switching off, in a corner',
      (f) => (reading(f, 0)['case'] = 'corner'),
      /^heatReadings\[0\]\.atMin: stands 6 in "corner", which is running; allowed: that only in a case with engineRpm 0/,
    ],
    [
      'two kinds of thing',
      (f) => (reading(f, 0)['part'] = 'turbo'),
      /^heatReadings\[0\]: .*allowed: exactly one of line, part, panel, bay/,
    ],
    [
      'two kinds of pressure',
      (f) => (list(corner(f), 'pressures')[0]!['pa'] = 3),
      /^cases\[0\]\.pressures\[0\]: .*allowed: exactly one of cp, pa, mmWater/,
    ],
  ])('%s is a fault', (_, change, line) => {
    expect(faults(change).join('\n')).toMatch(line);
  });

  it('does not judge names that lie in a list with a fault of its own', () => {
    const told = faults((file) => {
      (list(file, 'panels')[0] as Row)['thicknessMm'] = 'thin';
      off(file)['coversOff'] = ['no-such-panel'];
    });
    expect(told).toEqual([expect.stringMatching(/^panels\[0\]\.thicknessMm/)]);
  });
});

describe('edits of bays and temperatures as measured', () => {
  const car = whole();
  const bays = car.bays!;
  const readings = car.heatReadings!;

  it.each<[Edit, (after: Car) => unknown, unknown]>([
    [{ do: 'set-bay', bay: 'engine-bay', field: 'otherHeatKw', value: 2 }, (c) => c.bays![0]!.otherHeatKw, 2],
    [{ do: 'set-bay', bay: 'engine-bay', field: 'fan' }, (c) => c.bays![0]!.fan, undefined],
    [
      { do: 'add-bay', bay: { ...bays[0]!, id: 'second', panels: [] } },
      (c) => c.bays!.map(({ id }) => id),
      ['engine-bay', 'second'],
    ],
    [{ do: 'set-heat-reading', reading: 'T1', field: 'readC', value: 99 }, (c) => c.heatReadings![0]!.readC, 99],
    [{ do: 'add-heat-reading', reading: { ...readings[1]!, id: 'T9' }, index: 0 }, (c) => c.heatReadings![0]!.id, 'T9'],
    [{ do: 'remove-heat-reading', reading: 'T2' }, (c) => c.heatReadings!.map(({ id }) => id), ['T1', 'T3', 'T4']],
  ])('%j does what it says, may be sent, and is taken back', (edit, seen, want) => {
    expect(readEdits([edit])).toEqual({ ok: true, edits: [edit] });
    const step = applyEdit(car, edit);
    expect(seen(step.car)).toEqual(want);
    expect(checkCar(step.car)).toEqual([]);
    expect(carText(applyEdit(step.car, step.inverse).car)).toBe(carText(car));
  });

  it('begin a list where there is none', () => {
    const { bays: _, heatReadings: __, cases, ...rest } = car;
    const bare = { ...rest, cases: cases!.map(({ pressures: ___, ...row }) => row) } as Car;
    expect(applyEdit(bare, { do: 'add-bay', bay: bays[0]! }).car.bays).toEqual(bays);
    expect(applyEdit(bare, { do: 'add-heat-reading', reading: readings[0]! }).car.heatReadings).toEqual([readings[0]]);
  });

  // Hand: what names the thing in the fixture.
  it.each<[Edit, (after: Car) => unknown, unknown]>([
    [{ do: 'remove-line', line: 'O2' }, (c) => c.heatReadings!.map(({ id }) => id), ['T2', 'T3', 'T4']],
    [
      { do: 'remove-case', case: 'corner' },
      (c) => [
        c.heatReadings!.map(({ id }) => id),
        c.cases![0]!.after,
        c.parts[1]!.surfaceByCase!.map((row) => row.case),
      ],
      [['T1'], undefined, ['off']],
    ],
    [
      { do: 'remove-panel', panel: 'lid' },
      (c) => [
        c.heatReadings!.map(({ id }) => id),
        c.cases!.map((row) => [row.coversOff, row.pressures?.map(({ at }) => at)]),
        c.bays!.map((row) => [row.panels, row.fan]),
      ],
      [
        ['T1', 'T2', 'T4'],
        [
          [undefined, ['gap']],
          [undefined, undefined],
        ],
        [[[], undefined]],
      ],
    ],
    [
      { do: 'remove-bay', bay: 'engine-bay' },
      (c) => [c.heatReadings!.map(({ id }) => id), c.cases![0]!.pressures!.map(({ at }) => at)],
      [
        ['T1', 'T2', 'T3'],
        ['lid.W1', 'lid'],
      ],
    ],
    [
      { do: 'set-panel', panel: 'lid', field: 'windows', value: [] },
      (c) => [c.cases![0]!.pressures!.map(({ at }) => at), c.bays![0]!.fan],
      [['gap', 'lid'], undefined],
    ],
  ])('%j takes along what would name nothing, and brings it back', (edit, seen, want) => {
    const step = applyEdit(car, edit);
    expect(seen(step.car)).toEqual(want);
    // The fixture's own lid is mirrored by another panel and named by its line: only heat is looked at here.
    expect(
      checkCar(step.car).filter(({ place }) => /^(cases|bays|heatReadings|parts\[\d\]\.surface)/.test(place)),
    ).toEqual([]);
    expect(carText(applyEdit(step.car, step.inverse).car)).toBe(carText(car));
  });

  it('a part that comes off draws no more air and was not read', () => {
    const { car: without, inverse } = applyEdit(car, { do: 'remove-part', part: 'turbo' });
    expect(without.bays![0]!.intakes).toBeUndefined();
    expect(without.heatReadings!.map(({ id }) => id)).toEqual(['T1', 'T3', 'T4']);
    expect(carText(applyEdit(without, inverse).car)).toBe(carText(car));
  });
});
