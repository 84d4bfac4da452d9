import { describe, expect, it } from 'vitest';
import type { Body, Vec } from '#geometry';
import { turnBetweenEnds } from './laid-way.ts';

const body = (part: string, ...points: Vec[]): Body => ({ part, path: Float64Array.from(points.flat()), radiusMm: 10 });

const HOSE = body('hose', ...Array.from({ length: 11 }, (_, n): Vec => [50 + 20 * n, 0, 0]));

/** A hose end as it is drawn: nut, elbow, socket, from the port; the port lies at `nut` from the elbow's corner at X 0 or 300. */
const firstEnd = (nut: Vec): Body[] => [
  body('adapter', [2 * nut[0], 2 * nut[1], 2 * nut[2]], nut),
  body('hose-end', nut, [nut[0] / 2, nut[1] / 2, nut[2] / 2]),
  body('hose-end', [nut[0] / 2, nut[1] / 2, nut[2] / 2], [0, 0, 0], [20, 0, 0]),
  body('hose-end', [20, 0, 0], [50, 0.0004, 0]),
];
/** The first end put at the other: turned half round about the car's Z, so that X and Y change their signs. */
const secondEnd = (nut: Vec): Body[] =>
  firstEnd([-nut[0], -nut[1], nut[2]])
    .reverse()
    .map(({ part, path }) => {
      const points = Array.from(
        { length: path.length / 3 },
        (_, n): Vec => [300 - path[3 * n]!, 0 - path[3 * n + 1]!, path[3 * n + 2]!],
      );
      return body(part, ...points.reverse());
    });

const turn = (first: Vec, second: Vec): number | null =>
  turnBetweenEnds([...firstEnd(first), HOSE, ...secondEnd(second)]);

describe('the angle between the two elbows of a hose', () => {
  // hand: looking from the first end along +X, up (+Z) is 12 o'clock and the car's left (-Y) is 3 o'clock
  it.each([
    ['both up', [0, 0, 50], [0, 0, 50], 0],
    ['up, then left', [0, 0, 50], [0, -50, 0], 90],
    ['up, then right', [0, 0, 50], [0, 50, 0], 270],
    ['left, then down', [0, -50, 0], [0, 0, -50], 90],
    ['45 degrees left, then 45 degrees down', [-50, -50, 0], [50, 0, -50], 90],
  ] as [string, Vec, Vec, number][])('hand: %s', (_, first, second, deg) => {
    const found = turn(first, second)!;
    expect(Math.abs(((found - deg + 540) % 360) - 180)).toBeLessThan(0.2);
  });

  it('hand: is none where an end is straight or on a spigot', () => {
    expect(turn([-50, 0, 0], [0, 0, 50])).toBeNull();
    expect(turn([0, 0, 50], [50, 0, 0])).toBeNull();
    expect(turnBetweenEnds([body('adapter', [0, 0, 0], [50, 0, 0]), HOSE, ...secondEnd([0, 0, 50])])).toBeNull();
  });

  it('hand: of a return bend is that of the side its port lies on', () => {
    const back = [
      body('hose-end', [80, 0, 60], [40, 0, 60]),
      body('hose-end', [40, 0, 60], [0, 0, 60], [0, 0, 0], [20, 0, 0]),
      body('hose-end', [20, 0, 0], [50, 0, 0]),
    ];
    expect(turnBetweenEnds([...back, HOSE, ...secondEnd([0, -50, 0])])!).toBeCloseTo(90, 0);
  });
});
