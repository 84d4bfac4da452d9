import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { planarWay, planarWayPoints, planarWays } from './dubins.ts';
import { polylineLength } from './spread.ts';

describe('planar ways', () => {
  it('of each word end where and how they should, and are as long as they say (hand: walked along, 300 seeded cases)', () => {
    const random = xoroshiro128plus(11);
    const uniform = (): number => (random.next() >>> 0) / 4294967296;
    let walked = 0;
    for (let k = 0; k < 300; k++) {
      const radius = 20 + 80 * uniform();
      const from = { x: 50, y: -30, headingRad: 2 * Math.PI * uniform() };
      const to = { x: 600 * (uniform() - 0.5), y: 600 * (uniform() - 0.5), headingRad: 2 * Math.PI * uniform() };
      for (const way of planarWays(from, to, radius)) {
        const points = planarWayPoints(from, way, radius, 1);
        expect(Math.hypot(points.at(-3)! - to.x, points.at(-2)! - to.y)).toBeLessThan(1e-6);
        const n = points.length;
        const heading = Math.atan2(points[n - 2]! - points[n - 5]!, points[n - 3]! - points[n - 6]!);
        expect(Math.cos(heading - to.headingRad)).toBeGreaterThan(0.999);
        expect(polylineLength(points) / way.lengthMm).toBeCloseTo(1, 3);
        walked++;
      }
    }
    expect(walked).toBeGreaterThan(1000);
  });

  it('are the plain ones in plain cases (hand)', () => {
    const from = { x: 0, y: 0, headingRad: 0 };
    expect(planarWays(from, { x: 300, y: 0, headingRad: 0 }, 50)[0]!.lengthMm).toBeCloseTo(300, 9);
    expect(planarWays(from, { x: 0, y: 100, headingRad: Math.PI }, 50)[0]!.lengthMm).toBeCloseTo(50 * Math.PI, 9);
    expect(planarWays(from, { x: 150, y: 150, headingRad: Math.PI / 2 }, 50)[0]!.lengthMm).toBeCloseTo(
      100 * Math.SQRT2 + 25 * Math.PI,
      9,
    );
    // Turning about on the spot: three circles whose centres make an equilateral triangle, 7/3 pi R.
    expect(planarWays(from, { x: 0, y: 0, headingRad: Math.PI }, 50)[0]!.lengthMm).toBeCloseTo((350 / 3) * Math.PI, 9);
  });

  it('have no inner tangent where the circles overlap, and no third circle beyond four radii', () => {
    const from = { x: 0, y: 0, headingRad: 0 };
    expect(planarWay(from, { x: 10, y: 100, headingRad: 0 }, 50, 'LSR')).toBeNull();
    expect(planarWay(from, { x: 201, y: 0, headingRad: 0 }, 50, 'LRL')).toBeNull();
  });

  it('are as long the other way round (hand: the same way run backwards)', () => {
    const from = { x: 0, y: 0, headingRad: 0.4 };
    const to = { x: 130, y: -45, headingRad: 2.2 };
    const back = planarWays(
      { ...to, headingRad: to.headingRad + Math.PI },
      { ...from, headingRad: from.headingRad + Math.PI },
      50,
    );
    planarWays(from, to, 50).forEach((way, i) => expect(back[i]!.lengthMm).toBeCloseTo(way.lengthMm, 9));
  });
});
