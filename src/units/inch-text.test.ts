import { describe, expect, it } from 'vitest';
import { inchText, spreadInches } from './inch-text.ts';

describe('a sentence in millimetres, in inches (25.4 mm each)', () => {
  it.each([
    ['air stays in C1, 424 mm deep', 'air stays in C1, 16.7 in deep'],
    [
      'O8 passes the turbine at 36 mm (28 to 44); wants 50.',
      'O8 passes the turbine at 1.4 in (1.1 to 1.7); wants 2.0.',
    ],
    [
      'O8 passes the pump at 49.6 mm (41 to 57); wants 50.',
      'O8 passes the pump at 1.95 in (1.61 to 2.24); wants 1.97.',
    ],
    ['passes manifold at 34 mm; it wants 100', 'passes manifold at 1.3 in; it wants 3.9'],
    ['O1 and O2 pass each other at 2.4 mm; lines want 3.', 'O1 and O2 pass each other at 0.09 in; lines want 0.12.'],
    [
      'O1 runs 12 mm into the pump; wants 6 mm clear of it.',
      'O1 runs 0.47 in into the pump; wants 0.24 in clear of it.',
    ],
    ['dips by 22 mm; it must not', 'dips by 0.87 in; it must not'],
    ['cut length 605 → 485 mm', 'cut length 23 13/16 → 19 1/8 in'],
    ['bends to 120 mm; -16 hose allows 140 mm', 'bends to 4.7 in; -16 hose allows 5.5 in'],
    [
      'turbo.water-in moved 10 mm and turned 12°; it wants 348 mm, cut to 340',
      'turbo.water-in moved 0.39 in and turned 12°; it wants 13.7 in, cut to 13.4',
    ],
    ['of 38 x 1.6 mm tube', 'of 38 x 1.6 mm tube'],
    ['crow-foot 10 mm with a 76 mm bar', 'crow-foot 10 mm with a 3.0 in bar'],
    ['503 mm of flat 1.2 mm sheet; sheet of 2.4 mm', '19.8 in of flat 0.047 in sheet; sheet of 0.094 in'],
    [
      'keep-off 50 mm instead of 150; that leaves 14 mm short',
      'keep-off 2.0 in instead of 5.9; that leaves 0.55 in short',
    ],
    ['wants 2 brackets to clamp it to, 130, 410 mm along', 'wants 2 brackets to clamp it to, 5.1, 16.1 in along'],
    [
      'say so: "near": { "parts": ["a"], "mm": 120, "keepOffMm": 15 }',
      'say so: "near": { "parts": ["a"], "mm": 120, "keepOffMm": 15 }',
    ],
    ['1280 mm of rubber-16; 1270 mm (-5 to +15) is wanted', '50.4 in of rubber-16; 50.0 in (-0.2 to +0.6) is wanted'],
    ['may touch fork at worst (-3 mm)', 'may touch fork at worst (-0.12 in)'],
    ['it wants 3 clamps', 'it wants 3 clamps'],
    [
      'goes through PN2L over 182 mm, from 1494, -252, 787 to 1463, -420, 726; 69 mm of it',
      'goes through PN2L over 7.2 in, from 58.8, -9.9, 31.0 in to 57.6, -16.5, 28.6 in; 2.7 in of it',
    ],
    ['runs 8 mm (6 to 10) from the lever; 25 are wanted', 'runs 0.3 in (0.2 to 0.4) from the lever; 1.0 are wanted'],
    ['passes the cell at 13 mm (-6 at worst); wants 6', 'passes the cell at 0.51 in (-0.24 at worst); wants 0.24'],
    [
      'the knob is 82 to 139 mm from the rim; 100 to 150 is usual',
      'the knob is 3.2 to 5.5 in from the rim; 3.9 to 5.9 is usual',
    ],
    ['the stages sweep 3.3 times that; 2 to 4 is usual', 'the stages sweep 3.3 times that; 2 to 4 is usual'],
  ])('hand: %s', (mm, inches) => {
    expect(inchText(mm)).toBe(inches);
  });

  it('hand: gives no more digits than the spread allows, and one more where a limit is broken by less', () => {
    expect(spreadInches({ gapMm: 61, worstMm: 52, bestMm: 70, keepOffMm: 50 })).toBe('2.4 in (2.0 to 2.8), wants 2.0');
    expect(spreadInches({ gapMm: 61, worstMm: 60, bestMm: 62, keepOffMm: 50 })).toBe(
      '2.40 in (2.36 to 2.44), wants 1.97',
    );
    expect(spreadInches({ gapMm: 49.6, worstMm: 40, bestMm: 58, keepOffMm: 50 })).toBe(
      '1.95 in (1.57 to 2.28), wants 1.97',
    );
  });
});
