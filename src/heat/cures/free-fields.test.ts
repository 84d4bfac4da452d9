import { describe, expect, it } from 'vitest';
import { chance } from '../../../test/geometry/seeded-meshes.ts';
import { smallestFields } from './free-fields.ts';

describe('the smallest free rectangles', () => {
  it.each([1, 2, 3, 4, 5])('are those of trying all of them on the plain grid (seed %i)', (seed) => {
    const draw = chance(seed);
    const side = 6;
    const free = Array.from({ length: side ** 2 }, () => draw() < 0.8);
    const held = free.map(() => Math.floor(draw(0, 4)));
    const all: { area: number; sum: number }[] = [];
    for (let l = 0; l < side; l++)
      for (let r = l + 1; r <= side; r++)
        for (let b = 0; b < side; b++)
          for (let t = b + 1; t <= side; t++) {
            const fields = held.flatMap((v, k) =>
              k % side >= l && k % side < r && Math.floor(k / side) >= b && Math.floor(k / side) < t ? [{ v, k }] : [],
            );
            if (fields.every(({ k }) => free[k]))
              all.push({ area: fields.length, sum: fields.reduce((s, { v }) => s + v, 0) });
          }
    const most = Math.max(...all.map(({ sum }) => sum));
    const shares = [1, 0.7, 0.4];
    const wanted = shares.map((share) =>
      Math.min(...all.filter(({ sum }) => sum >= share * most).map(({ area }) => area)),
    );
    const found = smallestFields(free, held, side, shares).map((q) => (q.right - q.left) * (q.top - q.bottom));
    expect(found).toEqual([...new Set(wanted)]);
  });

  it('are none where nothing is free', () => {
    expect(smallestFields([false, false, false, false], [1, 1, 1, 1], 2, [1])).toEqual([]);
  });
});
