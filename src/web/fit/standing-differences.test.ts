import { describe, expect, it } from 'vitest';
import type { Standing } from '../server/answers.ts';
import { standingDifferences } from './standing-differences.ts';

const gap = (part: string, gapMm: number) => ({
  part,
  class: 'fixed',
  gapMm,
  worstMm: gapMm - 5,
  bestMm: gapMm + 5,
  keepOffMm: 6,
  near: false,
  atMm: [0, 0, 0],
});
const row = (line: string, state: string, gapMm: number | null) => ({
  line,
  state,
  way:
    gapMm === null
      ? null
      : {
          gaps: [gap('floor', gapMm)],
          fails: gapMm < 0 ? [{ limit: 'reach', text: 'was worked out for another place' }] : [],
        },
});
const snag = (id: string, level: string, line: string) => ({
  id,
  level,
  line,
  question: 'fit',
  text: id,
  source: 'hand',
  cures: [],
});
const standing = (lines: object[], snags: object[], rows: object[]): Standing =>
  ({ revision: 1, lines, lineGaps: [], snags, order: { rows } }) as unknown as Standing;
const part = (id: string, toBuy: number) => ({ id, name: id, unit: 'each', toBuy });

describe('what a change does', () => {
  const before = standing(
    [row('O1', 'planned', 20), row('O2', 'made', 30), row('O3', 'planned', 12), row('O4', 'planned', 40)],
    [snag('O1-floor', 'fix', 'O1')],
    [part('end-45', 2), part('o-ring', 4), part('o-ring', 2)],
  );
  const after = standing(
    [row('O1', 'planned', 20.3), row('O2', 'made', 3), row('O3', 'planned', null), row('O4', 'planned', -1)],
    [snag('O2-floor', 'stop', 'O2'), snag('O1-floor', 'stop', 'O1')],
    [part('end-45', 3), part('o-ring', 6), part('cap', 1)],
  );
  const told = standingDifferences(before, after);

  it('tells gaps that moved by more than a tape tells, and lines that lost their way', () => {
    expect(told.gaps.map((pair) => [pair.line, pair.before?.gapMm, pair.after?.gapMm])).toEqual([['O2', 30, 3]]);
    expect(told.ways).toEqual([
      { line: 'O3', isLost: true, isMade: false },
      { line: 'O4', isLost: true, isMade: false },
    ]);
  });

  it('tells a made hose that no longer fits, and a snag that got worse as new', () => {
    expect(told.madeTouched).toEqual(['O2']);
    expect(told.newSnags.map((one) => one.id)).toEqual(['O2-floor', 'O1-floor']);
    expect(told.goneSnags.map((one) => one.level)).toEqual(['fix']);
  });

  it('adds up rows of one part, so that a spare and a use are one count', () => {
    expect(told.order.map((one) => [one.id, one.before, one.after])).toEqual([
      ['end-45', 2, 3],
      ['cap', 0, 1],
    ]);
  });
});
