import { describe, expect, it } from 'vitest';
import type { LineHeat } from '../heat-answer.ts';
import { whyNothing } from './cures-of-line.ts';

/** Places along a line with their temperatures [mm, degC]. */
function line(...places: readonly (readonly [number, number])[]): Pick<LineHeat, 'worst' | 'points'> {
  const points = places.map(([alongMm, worstC]) => ({
    alongMm,
    atMm: [0, 0, 0] as const,
    worstC,
    meanC: worstC,
    fluidC: 90,
    airC: 30,
  }));
  const { alongMm, worstC } = points.reduce((best, point) => (point.worstC > best.worstC ? point : best));
  const worst: LineHeat['worst'] = {
    alongMm,
    atMm: [0, 0, 0],
    faces: [0, 0, 1],
    surfaceC: worstC,
    underC: worstC,
    innerC: worstC,
    errorK: 3,
    shares: [],
  };
  return { points, worst };
}

describe('why moving the hottest place away gains nothing', () => {
  const was = line([100, 90], [400, 121], [450, 120]);

  it('hand: the place itself is 121 - 104 = 17 K cooler, and another one is then the hottest', () =>
    expect(whyNothing(was, line([100, 90], [402, 104], [452, 121]))).toBe(
      'that place gains 17 K, but 452 mm along the line it is then as hot',
    ));

  it('or it is no cooler itself', () =>
    expect(whyNothing(was, line([100, 90], [402, 120.6], [452, 110]))).toBe('it is as hot there'));
});
