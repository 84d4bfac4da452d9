import { describe, expect, it } from 'vitest';
import { seeded } from '../../test/flow/fluids-for-tests.ts';
import { toldApart } from './told-apart.ts';

describe('a number beside the limit that it breaks', () => {
  it.each([
    [-0.204, -0.2, 2, '-0.204'],
    [-0.22, -0.2, 2, '-0.22'],
    [19.8, 20, 0, '19.8'],
    [12, 20, 0, '12'],
    [2.9996, 3, 1, '2.9996'],
    [20, 20, 0, '20'],
  ])('%d beside %d is told as %s', (value, limit, digits, words) => {
    expect(toldApart(value, limit, digits)).toBe(words);
  });

  it('never reads as its limit, and is never off by more than its last digit', () => {
    const chance = seeded(7);
    for (let i = 0; i < 500; i++) {
      const limit = Math.round(chance() * 400) / 10;
      const value = limit + (chance() - 0.5) * 10 ** (-4 * chance());
      const words = toldApart(value, limit, 1);
      expect(words).not.toBe(limit.toFixed(1));
      expect(Math.abs(Number(words) - value)).toBeLessThanOrEqual(0.0501);
    }
  });
});
