import { describe, expect, it } from 'vitest';
import type { HeatCure } from '../heat-answer.ts';
import { rankedCures } from './ranked-cures.ts';

const cure = (words: string, gainK: number, parts: number, grams = 0, roomMm = 0): HeatCure => ({
  kind: 'gap',
  words,
  case: 'full-load',
  beforeC: 200,
  afterC: 200 - gainK,
  gainK,
  grams,
  roomMm,
  parts: Array.from({ length: parts }, () => 'a part'),
});

const order = (cures: readonly HeatCure[]): readonly string[] => rankedCures(cures).map(({ words }) => words);

describe('cures of a line', () => {
  it('come by degrees; of those within a tenth of the most that which takes fewer parts, grams, millimetres (by hand)', () => {
    expect(order([cure('shield', 80, 2, 16), cure('blanket', 100, 1, 540), cure('sleeve', 93, 1, 60)])).toEqual([
      'sleeve',
      'blanket',
      'shield',
    ]);
    expect(order([cure('sleeve', 89, 1, 60), cure('blanket', 100, 1, 540)])).toEqual(['blanket', 'sleeve']);
    expect(order([cure('50 mm', 12, 1, 0, 50), cure('25 mm', 11, 1, 0, 25), cure('pump', 60, 1)])).toEqual([
      'pump',
      '25 mm',
      '50 mm',
    ]);
  });

  it('that gain nothing come last, and none is lost', () => {
    const all = [cure('nothing', -1, 0), cure('a little', 3, 4), cure('most', 30, 4)];
    expect(order(all)).toEqual(['most', 'a little', 'nothing']);
  });
});
