import { type Car, readCar, type RulePack } from '#car';
import { linesWorld, type Way } from '#lines';
import { describe, expect, it } from 'vitest';
import { conflictsOf } from './conflicts.ts';
import type { Clause } from './measured.ts';
import { ruleFindings } from './rule-findings.ts';
import { type LineMeasure, measuredOfLine } from './measured-of-line.ts';
import { rulesOfCar } from './rules-of-car.ts';

const port = (id: string, x: number) => ({
  id,
  atMm: [x, 0, 100],
  faces: [1, 0, 0],
  end: { type: 'flare37-male', dash: 8 },
});

function car(clauses: readonly Partial<Clause>[], more: object = {}): Car {
  const text = JSON.stringify({
    fairlead: 1,
    name: 'Rules',
    parts: [
      {
        id: 'cell',
        class: 'fixed',
        shapes: [{ box: { minMm: [-100, -50, 40], maxMm: [0, 50, 160] } }],
        ports: [port('out', 0)],
      },
      { id: 'rail', class: 'fixed', shapes: [], ports: [port('in', 1000)] },
      {
        id: 'bulkhead',
        class: 'fixed',
        shapes: [{ box: { minMm: [500, -200, 0], maxMm: [501, 200, 400] } }],
        ports: [],
        crossable: ['grommet', 'bulkhead-fitting'],
      },
    ],
    movers: [],
    lines: [
      {
        id: 'F1',
        from: 'cell.out',
        to: 'rail.in',
        duty: 'fuel',
        dash: 8,
        pressureBar: 5,
        pieces: [{ hose: 'mine-8' }],
        through: [{ part: 'bulkhead', kind: 'grommet' }],
        state: 'made',
        sleeve: 'silicone glass',
        ...more,
      },
    ],
    catalogue: { hoses: [{ id: 'mine-8', dash: 8, boreMm: 10.3, odMm: 18, minBendRadiusMm: 100, pressureBar: 30 }] },
    circuits: [
      {
        id: 'fuel',
        kind: 'fuel',
        lines: ['F1'],
        vessels: [{ part: 'cell', kind: 'cell', inside: { box: { minMm: [-100, -50, 40], maxMm: [0, 50, 160] } } }],
      },
    ],
    rulePacks: [
      {
        id: 'club',
        name: 'Club',
        year: 2026,
        clauses: clauses.map((clause, n) => ({
          clause: `1.${n + 1}`,
          text: 'as it says',
          about: 'line',
          measure: 'by-eye',
          ...clause,
        })),
      },
    ],
  });
  const reading = readCar(text);
  if (!reading.ok)
    throw new Error(reading.faults.map(({ place, stands, allowed }) => `${place}: ${stands}; ${allowed}`).join('\n'));
  return reading.car;
}

/** A straight line of 1000 mm with a clamp at 300 and at 700, 60 mm from a hot part. */
const way = {
  rank: 1,
  feasible: true,
  cost: 1000,
  ends: [],
  joints: [],
  pieces: [
    {
      hose: 'mine-8',
      cutLengthMm: 1000,
      allowanceMm: [0, 0],
      odMm: 18,
      minBendRadiusMm: 100,
      tightestBendMm: 130,
      endToEndDeg: null,
    },
  ],
  clamps: [
    { alongMm: 300, atMm: [300, 0, 100], on: 'floor', bracket: false },
    { alongMm: 700, atMm: [700, 0, 100], on: 'floor', bracket: false },
  ],
  bodies: [
    {
      part: 'hose',
      pathMm: [
        [0, 0, 100],
        [1000, 0, 100],
      ],
      odMm: 18,
    },
  ],
  gaps: [
    {
      part: 'turbine',
      class: 'hot',
      gapMm: 60,
      worstMm: 52,
      bestMm: 68,
      keepOffMm: 50,
      near: false,
      atMm: [400, 0, 120],
    },
    { part: 'rail', class: 'fixed', gapMm: 8, worstMm: 4, bestMm: 12, keepOffMm: 6, near: true, atMm: [990, 0, 100] },
  ],
  fails: [],
  notes: [],
  reasons: [],
} as unknown as Way;

function verdicts(clauses: readonly Partial<Clause>[], more: object = {}) {
  const of = car(clauses, more);
  const answer = rulesOfCar({ world: linesWorld(of, new Map()), ways: new Map([['F1', way]]), layouts: [] });
  return {
    answer,
    rows: answer.packs[0]!.clauses.map(({ verdict, evidence }) => [verdict, evidence[0]?.value ?? null]),
  };
}

const MET = 'meets the entered rule';
const NOT = 'does not meet';
const LOOK = 'not measured: look';

describe('a clause on a line', () => {
  it('is measured off the way as it lies (each by hand)', () => {
    const { rows } = verdicts([
      { measure: 'gap-mm', to: 'hot', least: 50 },
      { measure: 'gap-mm', to: 'hot', least: 76 },
      { measure: 'gap-mm', to: 'turbine', most: 60 },
      { measure: 'bend-share', least: 1.3 },
      { measure: 'bend-share', least: 1.31 },
      { measure: 'pressure-share', least: 6 },
      { measure: 'pressure-share', least: 6.1 },
      { measure: 'clamp-pitch-mm', most: 400 },
      { measure: 'clamp-pitch-mm', most: 399 },
      { measure: 'length-mm', most: 1000 },
      { measure: 'height-mm', least: 91 },
      { measure: 'height-mm', least: 92 },
      { measure: 'bore-mm', least: 10.3 },
    ]);
    expect(rows).toEqual([
      [MET, 60],
      [NOT, 60],
      [MET, 60],
      [MET, 1.3],
      [NOT, 1.3],
      [MET, 6],
      [NOT, 6],
      [MET, 400],
      [NOT, 400],
      [MET, 1000],
      [MET, 91],
      [NOT, 91],
      [MET, 10.3],
    ]);
  });

  it('about what is farther off than was looked is met below that, and for the eye above it', () => {
    const { rows } = verdicts([
      { measure: 'gap-mm', to: 'moving', least: 50 },
      { measure: 'gap-mm', to: 'moving', least: 200 },
    ]);
    expect(rows.map(([verdict]) => verdict)).toEqual([MET, LOOK]);
  });

  it('about a word: a state or further, a sleeve, a material of every piece, what fills its hole', () => {
    const words = (more: object = {}) =>
      verdicts(
        [
          { measure: 'state', is: 'bought' },
          { measure: 'state', is: 'proved' },
          { measure: 'sleeve', is: 'silicone' },
          { measure: 'sealed', is: 'yes', about: 'bulkhead', parts: ['bulkhead'] },
          { measure: 'wall-mm', least: 1 },
          { measure: 'by-eye' },
        ],
        more,
      ).rows.map(([verdict]) => verdict);
    expect(words()).toEqual([MET, NOT, MET, LOOK, LOOK, LOOK]);
    expect(words({ through: [{ part: 'bulkhead', kind: 'bulkhead-fitting' }] })[3]).toBe(MET);
  });

  it('on a bulkhead asks only about the holes in it: no tee, no other wall', () => {
    const through = [
      { part: 'bulkhead', kind: 'bulkhead-fitting' },
      { part: 'tee', kind: 'tee' },
      { part: 'seat', kind: 'grommet' },
    ];
    const of = { line: { through } } as unknown as LineMeasure;
    const asked = (about: 'bulkhead' | 'line', parts?: readonly string[]) =>
      measuredOfLine(of, { measure: 'sealed', about, parts } as Clause);
    expect(asked('bulkhead', ['bulkhead'])).toMatchObject({ word: 'yes' });
    expect(asked('bulkhead', ['seat']).text).toBe('passes seat by a grommet: look that it closes');
    expect(asked('line').text).toContain('passes bulkhead by a bulkhead-fitting, seat by a grommet');
  });

  it('about other duties is about none of the lines, and met', () => {
    expect(verdicts([{ measure: 'gap-mm', to: 'hot', least: 500, duties: ['brake'] }]).rows).toEqual([[MET, null]]);
  });

  it('that measures to a part that the car has not is not met by that: look', () => {
    const { rows, answer } = verdicts([{ measure: 'gap-mm', to: 'hott', least: 50 }]);
    expect(rows.map(([verdict]) => verdict)).toEqual([LOOK]);
    expect(answer.packs[0]!.clauses[0]!.evidence[0]!.text).toBe('the car has no part "hott" to measure to');
  });
});

describe('a clause on a part', () => {
  it('takes the room inside as entered (hand: 100 x 100 x 120 mm are 1.2 L)', () => {
    const { answer } = verdicts([
      { about: 'part', parts: ['cell'], measure: 'volume-l', least: 1.2 },
      { about: 'part', parts: ['cell'], measure: 'height-mm', least: 41 },
      { about: 'part', parts: ['nothing'], measure: 'volume-l', least: 1 },
    ]);
    const [volume, height, gone] = answer.packs[0]!.clauses;
    expect(volume).toMatchObject({ verdict: MET });
    expect(volume!.evidence[0]!.value).toBeCloseTo(1.2, 9);
    expect(height).toMatchObject({ verdict: NOT, evidence: [{ value: 40 }] });
    expect(gone).toMatchObject({ verdict: LOOK, evidence: [{ text: 'the car has no such part' }] });
  });
});

describe('packs', () => {
  const pack = (id: string, clause: Partial<Clause>): RulePack => ({
    id,
    name: id,
    year: 2026,
    clauses: [{ clause: '1', text: 't', about: 'line', measure: 'clamp-pitch-mm', ...clause } as Clause],
  });

  it('contradict each other where no number keeps both, and else differ', () => {
    const of = (a: Partial<Clause>, b: Partial<Clause>) =>
      conflictsOf([pack('a', a), pack('b', b)]).map(({ isContradiction }) => isContradiction);
    expect(of({ least: 2 }, { most: 1 })).toEqual([true]);
    expect(of({ most: 450 }, { most: 300 })).toEqual([false]);
    expect(of({ most: 450 }, { most: 450 })).toEqual([]);
    expect(of({ most: 450, duties: ['fuel'] }, { most: 300, duties: ['brake'] })).toEqual([]);
    expect(of({ measure: 'state', is: 'proved' }, { measure: 'state', is: 'fitted' })).toEqual([false]);
    expect(of({ measure: 'material', is: 'steel' }, { measure: 'material', is: 'alloy' })).toEqual([true]);
  });

  it('give a finding with number, limit, clause and place for what is not met, and never more than that', () => {
    const { answer } = verdicts([{ measure: 'gap-mm', to: 'hot', least: 76 }]);
    const [finding] = ruleFindings(answer);
    expect(finding).toMatchObject({ level: 'fix', line: 'F1', value: 60, limit: 76, unit: 'mm', place: [400, 0, 120] });
    expect(finding!.source).toBe('Club 2026, 1.1, as entered');
  });
});
