import { describe, expect, it } from 'vitest';
import { settledPoint } from './settled-point.ts';

describe('a figure that brings itself forth', () => {
  const solved = (start: number, next: (x: number) => number) => {
    let rounds = 0;
    const point = settledPoint(start, [-90_000, 100_000], 0.01, (x) => {
      rounds++;
      return { gives: next(x), with: rounds };
    });
    return { ...point, rounds };
  };

  it('is found where plain rounds swing out of all bounds: x = 8 - 5 x', () => {
    expect(solved(0, (x) => 8 - 5 * x).at).toBeCloseTo(8 / 6, 6);
  });

  it('is found in a few rounds where plain ones creep: x = 10 + 0.95 x', () => {
    const { at, rounds } = solved(0, (x) => 10 + 0.95 * x);
    expect(at).toBeCloseTo(200, 0);
    expect(rounds).toBeLessThan(6);
  });

  it('is found past a kink, from either side', () => {
    const next = (x: number): number => Math.max(-90_000, -60_000 - 0.7 * Math.abs(x + 50_000));
    // hand: x = -60000 - 0.7 (-50000 - x) below the kink: 0.3 x = -25000.
    for (const start of [0, -89_000]) expect(solved(start, next).at).toBeCloseTo(-25_000 / 0.3, 1);
  });

  it('says how far off it is where there is none', () => {
    const { off, rounds } = solved(0, (x) => (x > 3 ? -1000 : 1000));
    expect(off).toBeGreaterThan(900);
    expect(rounds).toBeLessThanOrEqual(40);
  });
});
