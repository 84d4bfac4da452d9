import { describe, expect, it } from 'vitest';
import { readAs, tapeMm, type TapeUnit, unitWritten } from './tape-text.ts';

const mm = (text: string, unit: TapeUnit) => {
  const read = tapeMm(text, unit);
  return read.ok ? read.value : read.ways;
};

describe('what was read off the tape', () => {
  // hand: 1 in = 25.4 mm exactly; 23 5/8 in = 23.625 * 25.4 = 600.075 mm.
  it.each([
    ['23 5/8 in', null, 600.075],
    ['600', 'mm', 600],
    ['23,5', 'cm', 235],
    ['12', 'in', 304.8],
    ['-12', 'mm', -12],
    ['1 m 20', 'in', 1200],
    // hand: only inches have fractions: 86.5 * 25.4, 8.625 * 25.4.
    ['86 1/2', 'in', 2197.1],
    ['-8 5/8', 'in', -219.075],
    ['0', null, 0],
    ['0.0', 'in', 0],
    ['\u22125 mm', null, -5],
  ] as const)('%s with the last unit %s', (text, unit, expected) => {
    expect(mm(text, unit)).toBeCloseTo(expected, 9);
  });

  it.each([
    ['12', null, ['12 mm', '12 in', '-12 (dash size)']],
    ['600', 'in', ['600 mm', '600 in']],
    ['5/8', 'mm', ['5/8 in']],
  ] as const)('%s with the last unit %s is asked about', (text, unit, ways) => {
    expect(mm(text, unit)).toEqual(ways);
  });

  it('an empty field asks for a distance, not for a dash size', () => {
    expect(tapeMm(' ', 'mm')).toMatchObject({
      ok: false,
      fault: expect.stringMatching(/^is empty; a distance/),
      ways: [],
    });
  });

  it('the unit that was written is the next one', () => {
    expect(['600 mm', '3/4"', '12 in.', '5 cm', '12', '1 m 20'].map(unitWritten)).toEqual([
      'mm',
      'in',
      'in',
      'cm',
      undefined,
      undefined,
    ]);
  });

  it('says millimetres under a field that does not', () => {
    expect([readAs('600 mm', 600), readAs('23 5/8 in', 600.075), readAs('12', 304.8)]).toEqual([
      '',
      '= 600.1 mm',
      '= 304.8 mm',
    ]);
  });
});
