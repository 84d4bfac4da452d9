import type { StripOfStep } from '#answers';
import { describe, expect, it } from 'vitest';
import { lookOf, markedAt, seenFrom } from './strip-look.ts';

const straight = (what: string, direction: readonly [number, number, number], along: readonly string[] = []) =>
  ({ what, kind: 'part', along, coming: { how: 'straight', direction, lengthMm: 300 } }) as unknown as StripOfStep;

describe('where a strip-down is looked at from', () => {
  const nearLeft = [-0.6, -0.64, 0.48] as const;

  it('hand: what goes right is seen from the right, a mirror in the middle plane; left, up and down from where one stands', () => {
    expect(seenFrom(nearLeft, [0, 1, 0])).toEqual([-0.6, 0.64, 0.48]);
    expect(seenFrom(nearLeft, [0, -1, 0])).toBe(nearLeft);
    expect(seenFrom(nearLeft, [0.1, 0.1, 0.99])).toBe(nearLeft);
    expect(seenFrom(nearLeft, [0, 0, -1])).toBe(nearLeft);
  });

  it('what goes square across the view, or off a view straight from above, comes a quarter towards the viewer', () => {
    for (const viewer of [
      [0, -1, 0],
      [0, 0, 1],
    ] as const) {
      const [x, , z] = seenFrom(viewer, [1, 0, 0]);
      expect(x).toBeCloseTo(0.25 / Math.hypot(0.25, 1), 9);
      expect(z).toBeCloseTo(viewer[2] / Math.hypot(0.25, 1), 9);
    }
  });

  it('marks the target throughout and what comes off in the step that is looked at', () => {
    const steps = [straight('lid', [0, 0, 1]), straight('pot', [0, 1, 0], ['tank'])];
    const answer = { target: 'tank', steps };
    expect([0, 0.5, 1, 2].map((done) => [...markedAt(answer, done)])).toEqual([
      ['tank'],
      ['tank', 'lid'],
      ['tank', 'pot'],
      ['tank'],
    ]);
    expect(lookOf(answer)).toEqual({ target: 'tank', comesOff: ['lid', 'pot', 'tank'], out: [0, 1, 0] });
  });
});
