import type { Point2 } from '#geometry';
import { describe, expect, it } from 'vitest';
import { fittedArcs } from './fitted-arcs.ts';

describe('points along an arc', () => {
  it.each([20, 95, 100, 180, 250])(
    'of %d degrees are that arc, not the rest of its circle, either way round',
    (deg) => {
      for (const way of [1, -1]) {
        const on = (k: number): Point2 => {
          const angle = 0.3 + (way * k * deg * Math.PI) / 180 / 9;
          return [70 + 141 * Math.cos(angle), 20 + 141 * Math.sin(angle)];
        };
        const { arcs, worstMm } = fittedArcs(
          Array.from({ length: 10 }, (_, k) => on(k)),
          0.5,
        );
        expect(arcs).toHaveLength(1);
        // A bulge is tan of a quarter of the angle, + to the left.
        expect(arcs[0]!.bulge).toBeCloseTo(way * Math.tan((deg * Math.PI) / 720), 4);
        expect(worstMm).toBeLessThan(1e-3);
      }
    },
  );
});
