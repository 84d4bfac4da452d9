import { readCar } from '#car';
import { catalogue } from '#standards';
import { describe, expect, it } from 'vitest';
import { monthsBetween, monthsLater } from './days.ts';
import { dueFindings, standsWords } from './due-findings.ts';
import { dueList } from './due-list.ts';
import { weekendSpares } from './weekend-spares.ts';

const port = (id: string, x: number) => ({
  id,
  atMm: [x, 0, 0],
  faces: [1, 0, 0],
  end: { type: 'flare37-male', dash: 8 },
});
const part = (id: string, x: number, more: object = {}) => ({
  id,
  class: 'fixed',
  shapes: [],
  ports: [port('a', x), port('b', x + 50)],
  ...more,
});
const line = (id: string, from: string, to: string, duty: string, more: object = {}) => ({
  id,
  from,
  to,
  duty,
  dash: 8,
  pieces: [{ hose: 'rubber-8' }],
  through: [],
  state: 'fitted',
  signed: [
    { state: 'made', by: 'A', on: '2021-11-16' },
    { state: 'fitted', by: 'A', on: '2026-03-01' },
  ],
  ...more,
});

function car(more: object = {}) {
  const reading = readCar(
    JSON.stringify({
      fairlead: 1,
      name: 'Lives',
      parts: [
        part('pump', 0, { life: { fittedOn: '2026-09-01', runs: 40, standsRuns: 50 } }),
        part('rail', 500),
        part('tank', 900),
      ],
      movers: [],
      lines: [line('F1', 'pump.a', 'rail.a', 'fuel'), line('V1', 'tank.a', 'rail.b', 'fuel-vent')],
      runDays: [
        { on: '2026-02-01', runs: 9 },
        { on: '2026-08-15', runs: 4 },
        { on: '2026-09-05', runs: 5, heatCycles: 6 },
      ],
      ...more,
    }),
  );
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.car;
}

const end = (id: string, n: number) => ({
  port: n === 0 ? 'pump.a' : 'rail.a',
  makeUp: [id],
  parts: [
    { id, name: id, kind: 'hose-end', qty: 1 },
    { id: 'o-ring-908', name: 'ring', kind: 'seal', qty: 1 },
  ],
});
const way = (ends: readonly string[], cutLengthMm: number) =>
  ({
    ends: ends.map(end),
    pieces: [{ hose: 'rubber-8', cutLengthMm, allowanceMm: [0, 0] }],
    bodies: [],
    clamps: [],
  }) as never;

const shelf = catalogue();

function asked(day = '2026-11-16') {
  const of = car();
  const lines = of.lines.map((row, n) => ({
    line: row,
    way: way(n === 0 ? ['end-a', 'end-b'] : ['end-a', 'end-c'], n === 0 ? 640 : 1210),
  }));
  return { car: of, lines, shelf, day };
}

describe('months', () => {
  it('are counted by the calendar (hand)', () => {
    expect(monthsBetween('2024-03-01', '2026-11-16')).toBe(32.5);
    expect(monthsBetween('2026-11-16', '2026-10-16')).toBe(-1);
    expect(monthsLater('2024-03-31', 11)).toBe('2025-02-28');
    expect(monthsLater('2023-08-31', 6)).toBe('2024-02-29');
  });
});

describe('what is due', () => {
  it('counts months from made, seals and runs from fitted, a part by what it did before (hand)', () => {
    const items = new Map(dueList(asked()).map((item) => [item.id, item]));
    // Made 2021-11-16: 60 of 60 months. Fitted 2026-03-01: the runs of February do not count.
    expect(items.get('F1')).toMatchObject({
      months: 60,
      usedShare: 1,
      isDue: true,
      runs: 9,
      heatCycles: 10,
      dueOn: '2026-11-16',
    });
    expect(items.get('F1 seals')).toMatchObject({ months: 8.5, isDue: false });
    expect(items.get('pump')).toMatchObject({ runs: 45, usedShare: 0.9, isDue: false });
    expect(dueList(asked('2026-11-15')).find(({ id }) => id === 'F1')!.isDue).toBe(false);
    expect(standsWords(items.get('pump')!)).toBe('fitted 2026-09-01; 45 of 50 runs');
  });

  it('is a fix where it stops the car, a note for a vent or what is nearly due', () => {
    const of = asked();
    const found = dueFindings(of.car, dueList(of)).map(({ line: id, part: p, level, value }) => [
      id ?? p,
      level,
      value,
    ]);
    expect(found).toEqual([
      ['F1', 'fix', 100],
      ['V1', 'note', 100],
      ['pump', 'note', 90],
    ]);
  });

  it('stands last, with no share, where no day is entered; a planned line has none', () => {
    const bare = car({
      lines: [
        line('F1', 'pump.a', 'rail.a', 'fuel', { signed: [] }),
        line('F2', 'tank.a', 'rail.b', 'fuel', { state: 'planned' }),
      ],
    });
    const lines = bare.lines.map((row) => ({ line: row, way: way(['end-a', 'end-b'], 500) }));
    const items = dueList({ car: bare, lines, shelf, day: '2026-11-16' });
    expect(items.at(-1)).toMatchObject({ usedShare: null, isDue: false });
    expect(items.some(({ id }) => id.startsWith('F2'))).toBe(false);
  });
});

describe('spares for a weekend', () => {
  it('stand by the lines that stop the car, then by how many they serve; a vent last', () => {
    const of = asked();
    const spares = weekendSpares({ ...of, due: dueList(of) });
    const row = (id: string) => spares.find((spare) => spare.id === id)!;
    expect(spares.map(({ id }) => id).indexOf('end-a')).toBeLessThan(spares.map(({ id }) => id).indexOf('end-b'));
    expect(spares.at(-1)!.id).toBe('end-c');
    expect(row('end-a')).toMatchObject({ servesLines: ['F1', 'V1'], stops: 1, qty: 1 });
    expect(row('end-a').why).toBe('a line that stops the car, 1 more that does not');
    // O2 comes before O11, as it is counted and not as it is spelt.
    const pair = ['F11', 'F2'].map((id) => ({ ...of.lines[0]!, line: { ...of.lines[0]!.line, id } }));
    const [first] = weekendSpares({ ...of, lines: pair, due: [] });
    expect([first!.servesLines, first!.why]).toEqual([['F2', 'F11'], 'any of 2 lines that stop the car']);
    expect(row('o-ring-908').qty).toBe(4);
    expect(row('rubber-8')).toMatchObject({ qty: 1.3, unit: 'm' });
  });
});
