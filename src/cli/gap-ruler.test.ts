import { describe, expect, it } from 'vitest';
import { gapRuler } from './gap-ruler.ts';
import { wrapped } from './wrapped.ts';

describe('the gap ruler', () => {
  // hand: 11 cells over 100 mm are 10 mm apart; the limit of 50 stands in cell 5, 70 in cell 7, its whisker from 6 to 8
  it('shades the dead ground, posts the limit, draws the whisker and the dot', () => {
    expect(gapRuler({ valueMm: 70, worstMm: 60, bestMm: 80, limitMm: 50 }, 100, 11)).toBe('░░░░░┃─●─');
  });
  it('turns the dot into a triangle on the dead side of the post', () => {
    expect(gapRuler({ valueMm: 30, worstMm: 20, bestMm: 40, limitMm: 50 }, 100, 11)).toBe('░░─▲─┃');
    expect(gapRuler({ valueMm: 49.9, worstMm: 49, bestMm: 51, limitMm: 50 }, 100, 11)).toMatch(/▲┃/u);
    expect(gapRuler({ valueMm: 50, worstMm: 50, bestMm: 50, limitMm: 50 }, 100, 11)).toMatch(/┃●/u);
  });
  it('stays on its scale', () => {
    expect(gapRuler({ valueMm: 400, worstMm: 390, bestMm: 410, limitMm: 6 }, 100, 11)).toBe('░┃        →');
    for (const mm of [-500, 0, 3, 150, 1e6])
      expect(
        [...gapRuler({ valueMm: mm, worstMm: mm - 40, bestMm: mm + 40, limitMm: 150 }, 150, 31)].length,
      ).toBeLessThanOrEqual(31);
  });
});

describe('wrapped', () => {
  it('breaks at spaces, indents what follows, keeps long words whole', () => {
    expect(wrapped('one two three', 7, '  ')).toEqual(['one two', '  three']);
    expect(wrapped('unbreakably long', 5, '')).toEqual(['unbreakably', 'long']);
  });
});
