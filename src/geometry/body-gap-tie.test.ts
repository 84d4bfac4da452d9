import { describe, expect, it } from 'vitest';
import { bodyGap } from './body-gap.ts';
import { box } from './box.ts';

const straight = (
  from: readonly [number, number, number],
  along: readonly [number, number, number],
  lengthMm: number,
): Float64Array => {
  const steps = Math.ceil(lengthMm / 2.9);
  return Float64Array.from(
    { length: 3 * (steps + 1) },
    (_, n) => from[n % 3]! + (along[n % 3]! * lengthMm * Math.floor(n / 3)) / steps,
  );
};

// The next body of a line begins with the disc that the last one ended with, so a search is often asked for less than what
// it has itself: both of these once split cells for ever.
describe('a search ends', () => {
  const belt = box([1440, -280, 120], [1470, 120, 330]);

  it('where the limit is exactly the gap', () => {
    const body = { part: 'hose-end', path: straight([1405, -227.47, 430], [0, 1, 0], 32.8), radiusMm: 18.33 };
    const { gapMm } = bodyGap(body, belt);
    expect(bodyGap(body, belt, gapMm).gapMm).toBe(Number.POSITIVE_INFINITY);
  });

  it('where a port face leans into its own part: r sin(lean) deep (hand)', () => {
    const lean = 0.28698091640356765;
    const face = {
      part: 'port face',
      path: straight([1860, -60, 660], [-lean, -0.9579362993540691, 0], 1e-4),
      radiusMm: 17,
    };
    expect(bodyGap(face, box([1500, -60, 625], [1940, 80, 680]), 6).gapMm).toBeCloseTo(-17 * lean, 1);
  });
});
