import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, checkCar, readCar } from '#car';
import { crossingsOf, lineDraft, lineEdits, portsFor } from './line-draft.ts';

const reading = readCar(readFileSync(new URL('../../../demo/fellside.json', import.meta.url), 'utf8'));
if (!reading.ok) throw new Error('the demo car is no car');
const { car } = reading;
const kept = (line: string, change: Partial<ReturnType<typeof lineDraft>>): Car => {
  const old = car.lines.find(({ id }) => id === line)!;
  const made = lineEdits(car, old, { ...lineDraft(old), ...change }, 'mm');
  if (!made.ok) throw new Error(made.fault);
  return made.value.edits.reduce((now, edit) => applyEdit(now, edit).car, car);
};

describe('a line in the form', () => {
  it('every line of the demo car opened and kept again changes nothing', () => {
    for (const line of car.lines) {
      const made = lineEdits(car, line, lineDraft(line), 'mm');
      expect([line.id, made.ok && made.value.edits]).toEqual([line.id, []]);
    }
  });

  // hand: 75 psi = 75 * 6894.757 Pa = 5.171 bar; 220 F = 104.4 C.
  it('pressure and temperature in any unit, size and crossing', () => {
    const line = car.lines.find(({ through }) => through.length > 0)!;
    const now = kept(line.id, { pressure: '75 psi', temperature: '220 F', through: [] });
    expect(checkCar(now)).toEqual([]);
    expect(now.lines.find(({ id }) => id === line.id)).toMatchObject({
      pressureBar: 5.17,
      temperatureC: 104.4,
      through: [],
    });
  });

  it('a line that is made keeps what it joins; a way taken goes where another hose is wanted', () => {
    const old = { ...car.lines[0]!, state: 'made' as const };
    const free = portsFor(car, old).map(({ value }) => value);
    expect(free).toContain(old.from);
    expect(free).not.toContain(car.lines[1]!.from);
    expect(lineEdits(car, old, { ...lineDraft(old), size: { pick: '20', bore: '' } }, 'mm')).toMatchObject({
      ok: false,
      fault: expect.stringMatching(/is made: what it joins and its size stay/),
    });
    expect(lineEdits(car, old, { ...lineDraft(old), temperature: '120 C' }, 'mm').ok).toBe(true);
    const taken = { ...car.lines[0]!, taken: { ends: [], pieces: [], bodies: [] } };
    expect(lineEdits(car, taken, { ...lineDraft(taken), size: { pick: '20', bore: '' } }, 'mm')).toMatchObject({
      ok: true,
      value: { drops: true, edits: [{ do: 'several', edits: [{ do: 'take-way', line: taken.id }, {}] }] },
    });
  });

  it('offers the ways through', () => {
    expect(crossingsOf(car).length).toBeGreaterThan(0);
  });

  it('is made of the lengths that are said, falls as it is said, and passes where it is fixed; all of it one sound step', () => {
    const line = car.lines.find(({ through }) => through.length > 0)!;
    const was = lineDraft(line);
    const [step] = was.through;
    const tube = {
      kind: 'tube',
      hose: '',
      od: '3/4 in',
      wall: '1.2 mm',
      bend: '57 mm',
      material: 'steel',
      was: null,
    } as const;
    const now = kept(line.id, {
      pieces: [{ ...tube }],
      through: [
        {
          ...step!,
          fixed: {
            place: {
              from: 'datum',
              sides: ['plus', 'minus', 'plus'],
              far: ['1350', '120', '300'],
              known: '5',
              goesAlong: false,
            },
            facing: { way: 'rearward', mostly: 'rearward', tip: '30', towards: 'up', numbers: ['', '', ''] },
          },
        },
      ],
      extras: {
        ...was.extras,
        runs: 'falls',
        leans: ['-5', '8', '', ''],
        plumb: '20',
        flow: '12,5 L/min',
        vacuum: '0.3',
        keepOff: '1 in',
      },
    }).lines.find(({ id }) => id === line.id)!;
    // Hand: 3/4 in and 1 in are 19.05 and 25.4 mm; left of the car is -Y.
    expect(now).toMatchObject({
      pieces: [{ tube: { odMm: 19.05, wallMm: 1.2, bendRadiusMm: 57, material: 'steel' } }],
      fall: { pitchDeg: [-5, 8], withinPlumbDeg: 20 },
      flowLMin: 12.5,
      vacuumBar: 0.3,
      keepOffMm: 25.4,
      through: [
        { part: line.through[0]!.part, kind: line.through[0]!.kind, atMm: [1350, -120, 300], faces: [1, 0, 0] },
      ],
    });
    expect(now.fall?.rollDeg).toBeUndefined();
  });

  it('says what of it cannot be', () => {
    const line = car.lines[0]!;
    const was = lineDraft(line);
    const fault = (change: Partial<typeof was>): string => {
      const made = lineEdits(car, line, { ...was, ...change }, 'mm');
      return made.ok ? '' : made.fault;
    };
    const extras = (change: Partial<typeof was.extras>): string => fault({ extras: { ...was.extras, ...change } });
    expect(extras({ vacuum: '2 bar' })).toMatch(/not from 0 to 1 bar/u);
    expect(extras({ runs: 'falls', leans: ['8', '-5', '', ''] })).toMatch(/lesser one comes first/u);
    const piece = { kind: 'tube', hose: '', od: '10', wall: '5', bend: '30', material: '', was: null } as const;
    expect(fault({ pieces: [piece] })).toMatch(/piece 1: a tube of 10 x 5 mm has no bore/u);
    expect(fault({ pieces: [{ ...piece, kind: 'hose' }] })).toMatch(/piece 1: which hose/u);
  });
});
