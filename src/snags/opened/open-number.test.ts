import fc from 'fast-check';
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { bay, keepOff as bayKeepOff } from '#bay';
import { type Car, carFrom } from '#car';
import type { Limit, Way } from '#lines';
import { catalogue, duties } from '#standards';
import type { Snag } from '../snag.ts';
import { keepOffRule } from './gap-opened.ts';
import { openedKinds, openNumber } from './open-number.ts';
import type { OpenedAt } from './opened-at.ts';

const car: Car = (() => {
  const reading = carFrom({
    fairlead: 1,
    parts: [
      {
        id: 'tank',
        class: 'fixed',
        knownToMm: 4,
        ports: [{ id: 'out', atMm: [0, 0, 0], faces: [1, 0, 0], end: { type: 'orb', dash: 8 } }],
      },
      {
        id: 'pump',
        class: 'fixed',
        knownToMm: 2,
        ports: [{ id: 'in', atMm: [500, 0, 0], faces: [-1, 0, 0], end: { type: 'orb', dash: 8 } }],
      },
      { id: 'rail', name: 'Rail', class: 'fixed', knownToMm: 3, shapes: [] },
    ],
    movers: [],
    lines: [{ id: 'O1', from: 'tank.out', to: 'pump.in', duty: 'oil-suction', dash: 8 }],
  });
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.car;
})();

const snag = (over: Partial<Snag>): Snag => ({
  id: 'O1-x',
  kind: 'x',
  level: 'fix',
  question: 'fit',
  line: 'O1',
  text: 'x.',
  source: 'common-practice',
  cures: [],
  ...over,
});

const way = {
  ends: [],
  joints: [],
  pieces: [],
  clamps: [],
  bodies: [],
  gaps: [
    { part: 'rail', class: 'fixed', gapMm: 14, worstMm: -1, bestMm: 29, keepOffMm: 6, near: false, atMm: [0, 0, 0] },
  ],
} as unknown as Way;

const at = (over: Partial<Snag>): OpenedAt => ({
  car,
  shelf: catalogue(undefined),
  snag: snag(over),
  line: car.lines[0],
  way,
});

describe('a number opened up', () => {
  it('says of a gap what was taken off: part, the worse port, and the rest for movement and hanging', () => {
    const opened = openNumber(at({ kind: 'keep-off-at-worst', part: 'rail', value: -1, limit: 6, unit: 'mm' }));
    const value = (name: RegExp) => opened.inputs.find((row) => name.test(row.name))?.value;
    // Hand: 14 as drawn, -1 at worst; rail 3 mm, the worse of 4 and 2 mm for the ports; 14 + 1 - 3 - 4 = 8 are left.
    expect(value(/as drawn/u)).toBe('14.0 mm');
    expect(value(/Rail known/u)).toBe('±3.0 mm');
    expect(value(/ports/u)).toBe('±4.0 mm');
    expect(value(/movement/u)).toBe('8.0 mm');
    expect(opened.rule.text).toMatch(/fixed structure.*6\.0 mm/u);
    expect(opened.rule.known).toMatch(/common practice/u);
  });

  it('gives the duty’s usual figure as such, and the builder’s as the builder’s', () => {
    const usual = openNumber(at({ kind: 'vacuum' })).inputs[0]!;
    // The usual depth for suction in the table of duties: 0.7 bar.
    expect([usual.value, usual.from]).toEqual(['0.70 bar below the air outside', expect.stringContaining('usual for')]);
    const own = openNumber({ ...at({ kind: 'vacuum' }), line: { ...car.lines[0]!, vacuumBar: 0.4 } }).inputs[0]!;
    expect([own.value, own.from]).toEqual(['0.40 bar below the air outside', 'you, on the line']);
  });

  it('opens what another room found by what that room says of it, and by its source where it says nothing', () => {
    const opens = { equation: 'p = q', inputs: [{ name: 'q', value: '2 bar' }], range: 'oil', formulas: ['bore-area'] };
    expect(openNumber(at({ kind: 'flow-starved', opens }))).toMatchObject(opens);
    const bare = openNumber(at({ kind: 'flow-starved', value: 1, limit: 2, unit: 'bar', source: 'navy-14105' }));
    expect(bare.rule.whose).toMatch(/US Navy training manual 14105/u);
    expect(bare.inputs.map((row) => row.value)).toEqual(['1.00 bar', '2.00 bar']);
  });

  it('knows every limit and every finding of the rooms that feed the list', () => {
    const limits: Record<Limit, true> = {
      'keep-off': true,
      bend: true,
      straight: true,
      mating: true,
      pressure: true,
      temperature: true,
      vacuum: true,
      fluid: true,
      fall: true,
      reach: true,
      self: true,
    };
    const src = fileURLToPath(new URL('../../', import.meta.url));
    const codesIn = (room: string, key: string): string[] =>
      readdirSync(`${src}${room}`, { recursive: true, encoding: 'utf8' })
        .filter((name) => name.endsWith('.ts') && !/\.(?:test|fixture)\./u.test(name))
        .map((name) => readFileSync(`${src}${room}/${name}`, 'utf8'))
        .flatMap((text) => [...text.matchAll(new RegExp(`\\b${key}: '([a-z-]+)'`, 'gu'))].map(([, code]) => code!));
    const codes = [...codesIn('bay', 'code'), ...codesIn('lines', 'code'), ...codesIn('snags', 'kind')];
    expect(codes.length).toBeGreaterThan(20);
    const missing = [...Object.keys(limits), ...codes].filter((kind) => !openedKinds.includes(kind));
    expect([...new Set(missing)]).toEqual([]);
    for (const kind of openedKinds) {
      const { equation, range, rule } = openNumber(at({ kind, part: 'rail', value: 1, limit: 2, unit: 'mm' }));
      expect([kind, equation, range, rule.text, rule.whose, rule.known].every((word) => word.length > 3)).toBe(true);
    }
  });

  it('finds the same keep-off as the bay does, whoever set which figure', () => {
    const mm = fc.option(fc.integer({ min: 0, max: 200 }), { nil: undefined });
    fc.assert(
      fc.property(
        fc.constantFrom('hot', 'moving', 'fixed'),
        fc.boolean(),
        fc.boolean(),
        mm,
        mm,
        mm,
        fc.constantFrom(...duties),
        (cls, shielded, turbine, ofPart, ofCar, ofLine, duty) => {
          const part = {
            ...car.parts[2]!,
            class: cls,
            ...(shielded ? { shielded } : {}),
            ...(turbine ? { turbine } : {}),
            ...(ofPart === undefined ? {} : { keepOffMm: ofPart }),
          };
          const table = cls === 'hot' && shielded ? 'hotShielded' : cls;
          const set: Car = {
            ...car,
            parts: [part],
            lines: [],
            ...(ofCar === undefined ? {} : { keepOffMm: { [table]: ofCar } }),
          };
          const line = { duty, ...(ofLine === undefined ? {} : { keepOffMm: ofLine }) };
          const space = bay(set, new Map());
          const rule = keepOffRule(set, part, line);
          expect(rule.mm).toBe(bayKeepOff(space, space.parts[0]!, line).mm);
          // What counts is one of the figures shown.
          expect(rule.inputs.map((row) => row.value)).toContain(`${rule.mm.toFixed(1)} mm`);
        },
      ),
      { seed: 20_261_125, numRuns: 400 },
    );
  });
});
