import { describe, expect, it } from 'vitest';
import type { Snag } from './snag.ts';
import { withAccepted } from './with-accepted.ts';

const snag = (id: string, level: Snag['level'], value: number): Snag => ({
  id,
  kind: 'keep-off',
  level,
  question: 'fit',
  text: `${id}.`,
  value,
  limit: 50,
  unit: 'mm',
  source: 'common practice, no source',
  cures: [],
});
const row = { by: 'Marrow', why: 'shielded by hand', on: '2026-11-25' };

describe('a snag that the builder lives with', () => {
  const list = [snag('a', 'stop', 36), snag('b', 'fix', 44)];

  it('stands behind what is open, keeps its level, and says who accepts it and why', () => {
    const found = withAccepted(list, [{ snag: 'a', level: 'stop', missedPercent: 28, ...row }]);
    expect(found.map(({ id }) => id)).toEqual(['b', 'a']);
    expect(found[1]).toMatchObject({ level: 'stop', accepted: { ...row, isWorse: false } });
  });

  // Hand: 36 mm of 50 wanted misses by 28 %; 35.5 misses by 29 %, the same point worked out again; 34 by 32 %, which is worse.
  it.each([
    [35.5, false],
    [40, false],
    [34, true],
    [-3, true],
  ])('accepted at 36 mm of 50 and now %d mm: worse %s', (value, isWorse) => {
    const [first, second] = withAccepted(
      [snag('a', 'stop', value), snag('b', 'fix', 44)],
      [{ snag: 'a', level: 'stop', missedPercent: 28, ...row }],
    );
    expect((isWorse ? first : second)!.id).toBe('a');
    expect((isWorse ? first : second)!.accepted?.isWorse).toBe(isWorse);
  });

  it('counts again when it has become a stop', () => {
    const [first] = withAccepted(list, [{ snag: 'a', level: 'fix', missedPercent: 60, ...row }]);
    expect(first).toMatchObject({ id: 'a', accepted: { isWorse: true } });
  });
});
