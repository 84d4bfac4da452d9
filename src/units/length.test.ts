import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatInches, formatMm, parseLength, parseLengthMm } from './index.ts';

const mm = (value: number) => ({ ok: true, value: { kind: 'length', mm: expect.closeTo(value, 9) } });

describe('parseLength', () => {
  // hand: 1 in = 25.4 mm exactly (the 1959 agreement), 1 ft = 12 in.
  it.each([
    ['3/4 in', 19.05],
    ['1 1/16"', 26.9875],
    ['1-1/16 in', 26.9875],
    ['1\u00BD"', 38.1],
    ['1\u00BD in', 38.1],
    ['19mm', 19],
    ['19 mm', 19],
    ['0.75in', 19.05],
    ['.75"', 19.05],
    ['12,5 mm', 12.5],
    ['1\' 2"', 355.6],
    ['1\'2 1/2"', 368.3],
    ['1 ft 2 in', 355.6],
    ["6'", 1828.8],
    ['-40 mm', -40],
    ['\u221240 mm', -40],
    ['-3/4 in', -19.05],
    ['2.5 cm', 25],
    ['1.2 m', 1200],
    ['1 m 20', 1200],
    ['1m20', 1200],
    ['1 m 205', 1205],
    ['-1 m 05', -1050],
    ['30 thou', 0.762],
    ['5\u2033', 127],
    ["5''", 127],
  ])('reads %s', (text, expected) => {
    expect(parseLength(text)).toEqual(mm(expected));
  });

  it.each([
    ['-12', 12],
    ['\u221212', 12],
    ['AN-8', 8],
    ['dash 16', 16],
    ['#6', 6],
  ])('reads %s as a dash size', (text, dash) => {
    expect(parseLength(text)).toEqual({ ok: true, value: { kind: 'dash', dash } });
  });

  it.each([
    ['12', ['12 mm', '12 in', '-12 (dash size)']],
    ['5', ['5 mm', '5 in', '-5 (dash size)']],
    ['57', ['57 mm', '57 in']],
    ['3/4', ['3/4 in']],
    ['1.1/16', ['1 1/16 in', '1.1 in']],
    ['1.1/16"', ['1 1/16 "', '1.1 "']],
    ['1,200 mm', ['1.200 mm', '1200 mm']],
    ['-40', ['-40 mm', '-40 in']],
    ['1 m 5', ['1.5 m', '1.05 m']],
  ])('refuses %s with the ways it could be meant', (text, ways) => {
    const read = parseLength(text);
    expect(read).toMatchObject({ ok: false, ways });
    if (!read.ok) expect(read.fault).not.toMatch(/\n/u);
  });

  it.each([
    '',
    ' ',
    'mm',
    'NaN mm',
    'Infinity mm',
    '1e9 mm',
    '1e400mm',
    '1.2.3 mm',
    '1/3 in',
    '1 17/16 in',
    '12 furlongs',
    '999999999 mm',
    '3/0 in',
    '1/2/3 in',
    '0x10 mm',
    '1 2 3 mm',
    '--12',
  ])('refuses %j in one line', (text) => {
    const read = parseLength(text);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.fault).toMatch(/^[^\n]{5,200}$/u);
  });

  it('every way it offers is itself accepted', () => {
    for (const text of ['12', '3/4', '1.1/16', '1.1/16"', '1,200 mm', '57', '-40', '1 m 5']) {
      const read = parseLength(text);
      if (read.ok) throw new Error(text);
      for (const way of read.ways) expect([way, parseLength(way.replace(' (dash size)', '')).ok]).toEqual([way, true]);
    }
  });

  it('a field without dash sizes refuses one', () => {
    expect(parseLengthMm('-12')).toMatchObject({ ok: false, ways: ['-12 mm', '-12 in'] });
  });

  it('never throws, and gives only finite lengths, whatever is typed', () => {
    const signs = fc.string({
      unit: fc.constantFrom(...'0123456789./-+,"\' eEmincft\u00BD\u2033\u00B0#\n'),
      maxLength: 24,
    });
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 120 }), signs), (text) => {
        const read = parseLength(text);
        if (read.ok)
          return read.value.kind === 'dash' ? Number.isInteger(read.value.dash) : Number.isFinite(read.value.mm);
        return read.fault.length > 0 && !read.fault.includes('\n');
      }),
      { seed: 7, numRuns: 4000 },
    );
  });

  it('reads back what it prints, in millimetres and on both tapes', () => {
    fc.assert(
      fc.property(fc.integer({ min: -200_000, max: 200_000 }), fc.constantFrom(16 as const, 32 as const), (n, tape) => {
        const onTape = (n / tape) * 25.4;
        const inches = parseLengthMm(formatInches(onTape, tape));
        const metric = parseLengthMm(formatMm(n / 10, 1));
        const near = (read: typeof metric, value: number): boolean =>
          Math.abs(value) > 100_000
            ? !read.ok
            : read.ok && Math.abs(read.value - value) < 1e-9 * Math.max(1, Math.abs(value));
        return near(inches, onTape) && near(metric, n / 10);
      }),
      { seed: 8, numRuns: 2000 },
    );
  });
});

describe('formatInches', () => {
  // hand: 27 mm = 1.0630 in, nearest sixteenth 17/16; nearest thirty-second 34/32.
  it('gives the nearest sixteenth in lowest terms', () => {
    expect(formatInches(27)).toBe('1 1/16 in');
    expect(formatInches(-19.05)).toBe('-3/4 in');
    expect(formatInches(0.2)).toBe('0 in');
    expect(formatInches(25.4 * 0.96875, 32)).toBe('31/32 in');
    expect(formatInches(25.39)).toBe('1 in');
    expect(formatInches(Number.NaN)).toBe('not known');
  });
});
