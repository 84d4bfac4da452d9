import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findSource, workFormula } from '#sources';
import { fluidAt } from './fluid-at.ts';
import type { FluidSpec } from './fluid-spec.ts';
import { fluidFormulas } from './formulas.ts';
import { oilGradeNames } from './j300.ts';

/** Anything that a file or a form may hold in place of a fluid. */
const bad = (spec: unknown): FluidSpec => spec as FluidSpec;

const faultsOf = (spec: unknown, celsius: unknown = 60, pressure?: unknown): readonly string[] => {
  const answer = fluidAt(bad(spec), celsius as number, pressure as number | undefined);
  return answer.ok ? [] : answer.faults;
};

describe('bad input is one line: where, what stands there, what is allowed', () => {
  const point = (temperatureC: unknown, cSt: unknown) => ({ temperatureC, cSt });
  it.each([
    [
      'an unknown kind',
      { kind: 'oli' },
      60,
      'fluid.kind: stands "oli"; allowed: oil, glycol, water, fuel, air; nearest: oil',
    ],
    ['no kind', {}, 60, 'fluid.kind: stands undefined; allowed: oil, glycol, water, fuel, air'],
    ['nothing', null, 60, 'fluid: stands null; allowed: { kind: oil | glycol | water | fuel | air, ... }'],
    [
      'a misspelt grade',
      { kind: 'oil', grade: '10W60' },
      60,
      'fluid.grade: stands "10W60"; allowed: a grade of SAE J300 such as 10W-60, 5W-30 or 40; nearest: 10W-60',
    ],
    [
      'a grade no oil can have',
      { kind: 'oil', grade: '25W-20' },
      60,
      /^fluid\.grade: stands "25W-20"; allowed: a grade of SAE J300/,
    ],
    [
      'a grade that is a number',
      { kind: 'oil', grade: 40 },
      60,
      'fluid.grade: stands 40; allowed: a grade of SAE J300 such as 10W-60, 5W-30 or 40',
    ],
    [
      'oil without anything',
      { kind: 'oil' },
      60,
      /neither grade nor points; allowed: a grade, two points, or one with viscosityIndex/,
    ],
    [
      'one point',
      { kind: 'oil', points: [point(40, 100)] },
      60,
      /allowed: two points, or one at 100 C together with viscosityIndex$/,
    ],
    [
      'one point elsewhere',
      { kind: 'oil', points: [point(40, 100)], viscosityIndex: 100 },
      60,
      'fluid.points[0].temperatureC: stands 40; allowed: 100 C when viscosityIndex gives the other',
    ],
    [
      'a point outside the index table',
      { kind: 'oil', points: [point(100, 90)], viscosityIndex: 100 },
      60,
      /^fluid\.points\[0\]\.cSt: stands 90; allowed: 2 to 70 mm2\/s/,
    ],
    [
      'points upside down',
      { kind: 'oil', points: [point(40, 10), point(100, 100)] },
      60,
      'fluid.points: stands 100 mm2/s at 100 C beside 10 at 40 C; allowed: thinner when warmer',
    ],
    [
      'two points in one place',
      { kind: 'oil', points: [point(40, 100), point(40.5, 99)] },
      60,
      /allowed: points at least 1 C apart$/,
    ],
    [
      'a viscosity that is none',
      { kind: 'oil', points: [point(40, Number.NaN), point(100, 14)] },
      60,
      'fluid.points[0].cSt: stands NaN; allowed: 0.5 to 1000000 mm2/s',
    ],
    [
      'a point that is none',
      { kind: 'oil', points: [7, point(100, 14)] },
      60,
      'fluid.points[0]: stands 7; allowed: { temperatureC, cSt }',
    ],
    ['no list', { kind: 'oil', points: 'thick' }, 60, /^fluid\.points: stands "thick"; allowed: two or more of/],
    [
      'a density in the wrong unit',
      { kind: 'oil', grade: '40', densityAt15KgM3: 0.87 },
      60,
      'fluid.densityAt15KgM3: stands 0.87; allowed: 800 to 1100 kg/m3',
    ],
    [
      'percent for a fraction',
      { kind: 'glycol', massFraction: 50 },
      60,
      'fluid.massFraction: stands 50; allowed: 0 to 0.6 by mass',
    ],
    [
      'ice',
      { kind: 'glycol', massFraction: 0.3 },
      -20,
      /^temperatureC: stands -20; allowed: from -14\.6 C, where 0\.3 glycol by mass begins to freeze, or more glycol$/,
    ],
    ['frozen water', { kind: 'water' }, -5, 'temperatureC: stands -5; allowed: 0 to 150 C'],
    [
      'a negative share',
      { kind: 'fuel', ethanolFraction: -0.1 },
      20,
      'fluid.ethanolFraction: stands -0.1; allowed: 0 to 1 by volume',
    ],
    [
      'Reid in Pa',
      { kind: 'fuel', ethanolFraction: 0.1, reidKpa: 60_000 },
      20,
      'fluid.reidKpa: stands 60000; allowed: 10 to 110 kPa',
    ],
    ['no temperature', { kind: 'air' }, Number.NaN, 'temperatureC: stands NaN; allowed: -80 to 800 C'],
  ])('%s', (_, spec, celsius, line) => {
    const faults = faultsOf(spec, celsius);
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatch(line instanceof RegExp ? line : /./);
    if (typeof line === 'string') expect(faults[0]).toBe(line);
  });

  it('pressure below nothing, and two faults as two lines', () => {
    expect(faultsOf({ kind: 'air' }, 20, -5)).toEqual(['pressureAbsPa: stands -5; allowed: 100 to 1000000 Pa']);
    expect(faultsOf({ kind: 'water' }, 999, 'high')).toHaveLength(2);
  });

  it('points whose line runs away when cold are refused, not answered with infinity', () => {
    const points = [
      { temperatureC: 99, cSt: 900_000 },
      { temperatureC: 100, cSt: 1 },
    ];
    expect(faultsOf({ kind: 'oil', points }, -40)[0]).toMatch(
      /^fluid: stands \[\{"temperatureC":99.*allowed: points whose line gives a viscosity/,
    );
  });
});

describe('an answer', () => {
  /** Even over the range, and at times any double in it (fast-check's are mostly minute). */
  const between = (min: number, max: number) =>
    fc.oneof(
      { weight: 9, arbitrary: fc.integer({ min: 0, max: 1000 }).map((i) => min + ((max - min) * i) / 1000) },
      fc.double({ min, max }),
    );
  const junk = fc.oneof(
    fc.double(),
    fc.integer({ min: -300, max: 1000 }),
    fc.string({ maxLength: 8 }),
    fc.constantFrom(null, undefined, [], {}, '10W-60', '40', true),
  );
  /** Mostly not stated, at times sense, at times junk. */
  const maybe = (sense: fc.Arbitrary<unknown>) =>
    fc.oneof({ weight: 24, arbitrary: fc.constant(undefined) }, { weight: 6, arbitrary: sense }, junk);
  const spec = fc.record(
    {
      kind: fc.oneof(
        { weight: 12, arbitrary: fc.constantFrom('oil', 'glycol', 'water', 'fuel', 'air') },
        { weight: 1, arbitrary: junk },
      ),
      grade: fc.oneof({ weight: 9, arbitrary: fc.constantFrom(...oilGradeNames) }, junk),
      points: maybe(
        fc.array(fc.record({ temperatureC: between(-45, 170), cSt: between(0, 2000) }), {
          maxLength: 3,
        }),
      ),
      viscosityIndex: maybe(between(-10, 450)),
      massFraction: fc.oneof({ weight: 9, arbitrary: between(-0.1, 0.7) }, junk),
      ethanolFraction: fc.oneof({ weight: 9, arbitrary: between(-0.1, 1.1) }, junk),
      densityAt15KgM3: maybe(between(600, 1200)),
      viscosityCSt: maybe(between(0.2, 6)),
      reidKpa: maybe(between(5, 120)),
    },
    { requiredKeys: ['kind'] },
  );

  it('is sound or says what is wrong, for anything at all (seed 20; 4000 specs)', () => {
    let answered = 0;
    fc.assert(
      fc.property(
        spec,
        between(-60, 170),
        fc.option(between(-1e4, 1e6), { nil: undefined }),
        (any, celsius, pressure) => {
          const answer = fluidAt(bad(any), celsius, pressure);
          if (!answer.ok) {
            expect(answer.faults.length).toBeGreaterThan(0);
            for (const line of answer.faults) expect(line).toMatch(/^[^\n]+: stands [^\n]+; allowed: [^\n]+$/);
            return;
          }
          answered += 1;
          for (const state of [answer.state, ...Object.values(answer.spread ?? {})]) {
            const { vapourAbsPa, ...positive } = state;
            expect(Number.isFinite(vapourAbsPa) && vapourAbsPa >= 0).toBe(true);
            for (const value of Object.values(positive)) expect(Number.isFinite(value) && value > 0).toBe(true);
          }
          for (const remark of answer.remarks) expect(findSource(remark.source), remark.code).toBeDefined();
        },
      ),
      { seed: 20, numRuns: 4000 },
    );
    expect(answered).toBeGreaterThan(500);
  });

  const wide = (from: number, to: number) => Array.from({ length: 41 }, (_, i) => from + ((to - from) * i) / 40);
  it.each([
    ['10W-60', { kind: 'oil', grade: '10W-60' }, -40, 160],
    [
      'measured oil',
      {
        kind: 'oil',
        points: [
          { temperatureC: 40, cSt: 160 },
          { temperatureC: 100, cSt: 23 },
        ],
      },
      -40,
      160,
    ],
    ['half glycol', { kind: 'glycol', massFraction: 0.5 }, -35, 130],
    ['water, above 4 C where it is densest', { kind: 'water' }, 5, 150],
    ['E10', { kind: 'fuel', ethanolFraction: 0.1 }, -30, 80],
  ] as const)(
    '%s: colder is never thinner nor lighter; vapour pressure never falls with heat',
    (_, fluid, from, to) => {
      const states = wide(from, to).map((celsius) => {
        const answer = fluidAt(fluid as FluidSpec, celsius);
        if (!answer.ok) throw new Error(answer.faults.join());
        return answer.state;
      });
      for (const [i, warm] of states.slice(1).entries()) {
        expect(warm.viscosityPaS).toBeLessThan(states[i]!.viscosityPaS);
        expect(warm.densityKgM3).toBeLessThan(states[i]!.densityKgM3);
        if (fluid.kind === 'oil') expect(warm.vapourAbsPa).toBe(0);
        else expect(warm.vapourAbsPa).toBeGreaterThan(states[i]!.vapourAbsPa);
      }
    },
  );
});

describe('the formulas of the fluids', () => {
  it.each(fluidFormulas.map((row) => [row.id, row] as const))('%s works its example', (_, row) => {
    const worked = workFormula(row, row.example.given);
    if (!worked.ok) throw new Error(worked.faults.join());
    expect(worked.findings).toEqual([]);
    expect(Math.abs(worked.value - row.example.gives)).toBeLessThanOrEqual(0.5 * 10 ** -row.example.digits);
  });
});
