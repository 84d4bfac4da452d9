import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { describeSource, type Formula, nearestName, sources, workFormula } from './index.ts';

const ohm: Formula = {
  id: 'lever-force',
  title: 'Force of a lever',
  equation: 'F = P a / b',
  inputs: [
    { name: 'handN', unit: 'N', range: [0, 400], text: 'force of the hand' },
    { name: 'longMm', unit: 'mm', text: 'long arm' },
    { name: 'shortMm', unit: 'mm', text: 'short arm' },
  ],
  result: { unit: 'N', text: 'force out' },
  source: 'geometry',
  known: 'computed',
  example: { given: { handN: 300, longMm: 250, shortMm: 50 }, gives: 1500, digits: 0 },
  evaluate: (g) => ((g['handN'] ?? Number.NaN) * (g['longMm'] ?? Number.NaN)) / (g['shortMm'] ?? Number.NaN),
};

describe('workFormula', () => {
  // hand: 300 N x 250 / 50 = 1500 N.
  it('gives the value with its unit', () => {
    expect(workFormula(ohm, { handN: 300, longMm: 250, shortMm: 50 })).toEqual({
      ok: true,
      value: 1500,
      unit: 'N',
      findings: [],
    });
  });
  it('notes an input out of range and does not clamp it', () => {
    const worked = workFormula(ohm, { handN: 800, longMm: 250, shortMm: 50 });
    expect(worked).toMatchObject({
      ok: true,
      value: 4000,
      findings: [{ code: 'formula-range', level: 'fix', value: 800, limit: 400, unit: 'N' }],
    });
  });
  it('says what is missing and what an unknown name was meant to be', () => {
    const worked = workFormula(ohm, { hndN: 300, longMm: 250 });
    if (worked.ok) throw new Error('worked');
    expect(worked.faults).toHaveLength(3);
    expect(worked.faults[0]).toMatch(/no input named "hndN"; nearest: handN/u);
    expect(worked.faults[1]).toMatch(/handN is missing \[N\]/u);
    expect(worked.faults[2]).toMatch(/shortMm is missing/u);
  });
  it('refuses what is not a finite number, and a result that is none', () => {
    expect(workFormula(ohm, { handN: Number.NaN, longMm: 1, shortMm: 1 }).ok).toBe(false);
    expect(workFormula(ohm, { handN: 1, longMm: Number.POSITIVE_INFINITY, shortMm: 1 }).ok).toBe(false);
    expect(workFormula(ohm, { handN: 1, longMm: 1, shortMm: 0 })).toMatchObject({
      ok: false,
      faults: [expect.stringContaining('no finite result')],
    });
  });
  it('takes no input from the prototype', () => {
    const trap: Formula = { ...ohm, inputs: [{ name: 'toString', unit: '-', text: 'a trap' }] };
    expect(workFormula(trap, {}).ok).toBe(false);
  });
  it('never throws whatever the names', () => {
    fc.assert(
      fc.property(fc.dictionary(fc.string({ maxLength: 12 }), fc.double()), (given) => {
        const worked = workFormula(ohm, given);
        return worked.ok ? Number.isFinite(worked.value) : worked.faults.every((f) => f.length > 0);
      }),
      { seed: 5, numRuns: 500 },
    );
  });
});

describe('nearestName', () => {
  it('finds a slip of the finger and leaves a stranger alone', () => {
    expect(nearestName('overalMm', ['overallMm', 'odMm'])).toBe('overallMm');
    expect(nearestName('odMM', ['overallMm', 'odMm'])).toBe('odMm');
    expect(nearestName('bananas', ['overallMm', 'odMm'])).toBeUndefined();
  });
});

describe('the bibliography', () => {
  it('has one row an id, in one line', () => {
    expect(new Set(sources.map((s) => s.id)).size).toBe(sources.length);
    for (const s of sources) expect(describeSource(s.id)).toMatch(/^[^\n]{5,200}$/u);
  });
  it('marks what was not read, and leaves the words of the builder alone', () => {
    expect(describeSource('as568')).toMatch(/\(from-memory\)$/u);
    expect(describeSource('navy-14018')).not.toMatch(/\((?:read|from-memory)\)/u);
    expect(describeSource('my caliper')).toBe('my caliper');
  });
});
