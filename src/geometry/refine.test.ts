import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { type Heading, planarWays } from './dubins.ts';
import { fixedPose } from './end-pose.ts';
import { planarSeeds } from './planar-seeds.ts';
import { refined } from './refine.ts';
import type { Vec } from './vec.ts';

const RADIUS = 100;

function shortest(from: Heading, to: Heading): number {
  const leaving: Vec = [Math.cos(from.headingRad), Math.sin(from.headingRad), 0];
  const arriving: Vec = [Math.cos(to.headingRad), Math.sin(to.headingRad), 0];
  const start: Vec = [from.x, from.y, 0];
  const end: Vec = [to.x, to.y, 0];
  let least = Infinity;
  for (const seed of planarSeeds(start, leaving, end, arriving, [0, 0, 1], RADIUS)) {
    const way = refined({
      a: fixedPose(start, leaving),
      b: fixedPose(end, [-arriving[0], -arriving[1], 0]),
      minBendRadiusMm: RADIUS,
      seed,
      stepMm: 5,
    });
    if (way.ok) least = Math.min(least, way.lengthMm);
  }
  return least;
}

describe('refined, against shortest planar ways by circle geometry (second: dubins.ts, which shares nothing with the kernel)', () => {
  const random = xoroshiro128plus(20261125);
  const uniform = (): number => (random.next() >>> 0) / 4294967296;
  for (const spread of [2, 4, 8]) {
    it(`finds the shortest of all six words within 0.1 % on 12 cases within ${spread} R`, () => {
      for (let k = 0; k < 12; k++) {
        const from = { x: 0, y: 0, headingRad: 2 * Math.PI * uniform() };
        const to = { x: spread * RADIUS * (2 * uniform() - 1), y: spread * RADIUS * (2 * uniform() - 1), headingRad: 2 * Math.PI * uniform() };
        const best = planarWays(from, to, RADIUS)[0]!;
        if (best.word === 'RLR' || best.word === 'LRL') continue;
        expect(shortest(from, to) / best.lengthMm, `case ${k}: ${best.word}`).toBeCloseTo(1, 3);
      }
    });
  }
});
