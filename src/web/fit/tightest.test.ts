import { describe, expect, it } from 'vitest';
import { gapLevel, gapsTightestFirst } from './tightest.ts';

const gap = (part: string, gapMm: number, keepOffMm: number, more: object = {}) => ({
  part,
  class: 'fixed',
  gapMm,
  worstMm: gapMm - 10,
  bestMm: gapMm + 10,
  keepOffMm,
  near: false,
  atMm: [0, 0, 0] as const,
  ...more,
});

describe('the tightest gap', () => {
  it('is the one with the least room beyond its limit, not the smallest (hand: 60 - 50 < 15 - 3)', () => {
    const rows = gapsTightestFirst({ gaps: [gap('floor', 15, 3), gap('turbine', 60, 50)] });
    expect(rows.map((row) => row.part)).toEqual(['turbine', 'floor']);
  });

  it('leaves out the part that a line starts on, but not what it does to it further along', () => {
    const beyond = { gapMm: 20, worstMm: -0.4, keepOffMm: 6, atMm: [1, 2, 3] as const };
    const rows = gapsTightestFirst({ gaps: [gap('tank', 0, 0, { near: true, beyond })] });
    expect(rows).toHaveLength(1);
    expect(rows[0]).toMatchObject({ part: 'tank', gapMm: 20, worstMm: -0.4, bestMm: 40.4, isNear: false });
  });

  it('is a stop where broken as drawn and a fix where broken at worst only', () => {
    expect(gapLevel({ gapMm: 49.9, worstMm: 40, keepOffMm: 50 })).toBe('stop');
    expect(gapLevel({ gapMm: 50, worstMm: 49, keepOffMm: 50 })).toBe('fix');
    expect(gapLevel({ gapMm: 60, worstMm: 50, keepOffMm: 50 })).toBe('clear');
  });
});
