import { box, capsule, cylinder, meshSolid, type Solid, unit, type Vec } from '#geometry';
import { describe, expect, it } from 'vitest';
import { boxMesh, chance } from '../../../test/geometry/seeded-meshes.ts';
import { ballTree } from './ball-tree.kernel.ts';
import type { Mover } from './mover.ts';
import { obstacle, pieceOfSolid } from './obstacle.ts';
import { BALL, sphereCover } from './sphere-cover.kernel.ts';
import { touchesAlong } from './touch.kernel.ts';

/** The oracle: how deep any ball comes into any solid, each looked at every quarter of a millimetre of the way [mm]. */
function deepestAlong(balls: Float64Array, solids: readonly Solid[], [dx, dy, dz]: Vec, lengthMm: number): number {
  let deepest = -Infinity;
  for (let i = 0; i < balls.length; i += BALL)
    for (let t = 0; t <= lengthMm; t += 0.25)
      for (const solid of solids) {
        const [x, y, z] = [balls[i]! + t * dx, balls[i + 1]! + t * dy, balls[i + 2]! + t * dz];
        deepest = Math.max(deepest, balls[i + 3]! - solid.distanceWithin(x, y, z, balls[i + 3]! - deepest));
      }
  return deepest;
}

describe('what is met on a straight way', () => {
  it('is what looking every quarter of a millimetre finds, but for a scratch, in 300 seeded places', () => {
    let met = 0;
    for (let seed = 0; seed < 300; seed++) {
      const draw = chance(4000 + seed);
      const balls = Float64Array.from(
        Array.from({ length: 30 }, () => [draw(-70, 70), draw(-70, 70), draw(-70, 70), draw(1, 6)]).flat(),
      );
      const about = (): Vec => [draw(-110, 110), draw(-110, 110), draw(-110, 110)];
      const low = about();
      const solids: Solid[] = [
        meshSolid(boxMesh(low, [low[0] + draw(5, 90), low[1] + draw(5, 90), low[2] + draw(5, 90)])),
        capsule(about(), about(), draw(2, 20)),
        cylinder(about(), about(), draw(2, 20)),
        box(low, [low[0] + 3, low[1] + 80, low[2] + 80]),
      ].filter(() => draw(0, 1) < 0.5);
      const way = obstacle('way', solids.map(pieceOfSolid));
      if (way === undefined) continue;
      const direction = unit([draw(-1, 1), draw(-1, 1), draw(-1, 1)]);
      const length = seed % 5 === 0 ? draw(20, 300) : draw(2, 40);
      const allowed = draw(0, 6);
      const mover: Mover = {
        ...ballTree(balls),
        overMm: 0,
        bounds: { min: [0, 0, 0], max: [0, 0, 0] },
        middle: [0, 0, 0],
        reachMm: 0,
      };
      const isMet = touchesAlong(mover, way, direction, length, allowed);
      const depth = deepestAlong(balls, solids, direction, length);
      if (isMet) met++;
      if (depth < allowed - 1e-6) expect([seed, isMet]).toEqual([seed, false]);
      // Half a step of 1.5 mm is the most that is stepped over.
      if (depth > allowed + 0.8) expect([seed, isMet]).toEqual([seed, true]);
    }
    expect(met).toBeGreaterThan(25);
  });
});

describe('balls about the surface of a solid', () => {
  it('hold every place of it and stand out by no more than asked', () => {
    const solids: readonly [Solid, number][] = [
      [box([0, 0, 0], [90, 60, 4]), 3],
      [cylinder([0, 0, 0], [30, 80, 20], 18), 3],
      [capsule([0, 0, 0], [0, 120, 0], 6), 4],
      [meshSolid(boxMesh([0, 0, 0], [70, 40, 30])), 3],
    ];
    const draw = chance(77);
    for (const [solid, over] of solids) {
      const balls = sphereCover(solid, over);
      for (let i = 0; i < balls.length; i += BALL)
        expect(balls[i + 3]!).toBeLessThan(over - solid.distance(balls[i]!, balls[i + 1]!, balls[i + 2]!) + 1e-6);
      for (let n = 0; n < 400; n++) {
        const { point } = solid.closest(draw(-40, 130), draw(-40, 130), draw(-40, 60));
        let off = Infinity;
        for (let i = 0; i < balls.length; i += BALL)
          off = Math.min(
            off,
            Math.hypot(point[0] - balls[i]!, point[1] - balls[i + 1]!, point[2] - balls[i + 2]!) - balls[i + 3]!,
          );
        expect(off).toBeLessThan(1e-6);
      }
    }
  });
});
