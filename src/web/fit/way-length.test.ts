import { describe, expect, it } from 'vitest';
import { centreline, pointAlong, wayLengthMm } from './way-length.ts';

const way = {
  bodies: [
    {
      part: 'adapter',
      odMm: 20,
      pathMm: [
        [0, 0, 0],
        [30, 0, 0],
      ] as const,
    },
    {
      part: 'hose',
      odMm: 12,
      pathMm: [
        [30, 0, 0],
        [30, 40, 0],
      ] as const,
    },
  ],
};

describe('the way along a line (hand: 30 along X, then 40 along Y)', () => {
  it('counts what bodies share once', () => {
    expect(centreline(way)).toHaveLength(3);
    expect(wayLengthMm(way)).toBe(70);
  });

  it('has a point and a direction at any length, its ends beyond them', () => {
    const path = centreline(way);
    expect(pointAlong(path, 50)).toEqual({ atMm: [30, 20, 0], towards: [0, 1, 0] });
    expect(pointAlong(path, 500)?.atMm).toEqual([30, 40, 0]);
    expect(pointAlong(path, -3)?.atMm).toEqual([0, 0, 0]);
    expect(pointAlong([], 3)).toBeNull();
  });
});
