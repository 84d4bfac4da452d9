import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { keptText, usualText } from './kept-text.ts';
import { tapeMm } from './tape-text.ts';

describe('a length that is kept, in the field that changes it', () => {
  // hand: 1 in = 25.4 mm exactly; 23 5/8 in = 600.075 mm, 0.063 in = 1.6002 mm.
  it.each([
    [600.075, 0, '23 5/8 in'],
    [-600.075, 0, '-23 5/8 in'],
    [1.6002, 1e-4, '0.063 in'],
    [600, 0, '600 mm'],
    [600, 0.1, '23.622 in'],
    [19.05, 0.1, '3/4 in'],
    [0, 0.1, '0 in'],
    [12.34, 0.1, '0.484 in'],
  ])('%d mm in steps of %d mm is shown as %s where inches are worked in', (mm, step, text) => {
    expect(keptText(mm, step, 'in')).toBe(text);
  });

  it('is in millimetres where they are worked in', () => {
    expect([keptText(600.075, 0, 'mm'), keptText(600.075, 0.1, null)]).toEqual(['600.075 mm', '600.1 mm']);
  });

  it('means what is kept, to the step of the form, whatever it is and whichever unit', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -5000, max: 5000, noNaN: true }),
        fc.constantFrom(0, 0.01, 0.1),
        fc.constantFrom('mm', 'in'),
        (mm, step, unit) => {
          const kept = step === 0 ? Number(mm.toFixed(4)) : Math.round(mm / step) * step;
          const read = tapeMm(keptText(kept, step, unit), unit);
          const back = read.ok ? (step === 0 ? read.value : Math.round(read.value / step) * step) : NaN;
          return Math.abs(back - kept) < 1e-9;
        },
      ),
      { seed: 11, numRuns: 3000 },
    );
  });
});

describe('how well a length is known, before anybody says', () => {
  // hand: the next sixteenth over 5 mm is 4/16 in = 6.35 mm; the next hundredth over 2 mm is 0.08 in = 2.032 mm.
  it('is the tape’s next mark in inches, never less than in millimetres', () => {
    expect([usualText(5, 'in'), usualText(2, 'in'), usualText(0.5, 'in')]).toEqual(['1/4 in', '0.08 in', '0.02 in']);
    expect([usualText(5, 'mm'), usualText(2, null)]).toEqual(['5 mm', '2 mm']);
  });
});
