import { type Heading, planarWays } from './dubins.ts';
import { fixedPose } from './end-pose.ts';
import { planarSeeds } from './planar-seeds.ts';
import { refined } from './refine.ts';
import { polylineLength } from './spread.ts';
import type { Vec } from './vec.ts';

/** Ends of a drawn planar case: from the origin along +x to `to`. */
export interface PlanarCase {
  readonly from: Heading;
  readonly to: Heading;
}

const FROM: Heading = { x: 0, y: 0, headingRad: 0 };

/** The ends of three turns in a row [rad], the first and last to the left (`hand` 1) or right (-1), the middle one the other way. */
export function endsOfTurns(turnsRad: readonly number[], hand: number, radiusMm: number): PlanarCase {
  let [x, y, headingRad] = [0, 0, 0];
  turnsRad.forEach((turn, i) => {
    const side = i % 2 === 0 ? hand : -hand;
    const next = headingRad + side * turn;
    x += side * radiusMm * (Math.sin(next) - Math.sin(headingRad));
    y -= side * radiusMm * (Math.cos(next) - Math.cos(headingRad));
    headingRad = next;
  });
  return { from: FROM, to: { x, y, headingRad } };
}

/** Three turns, the middle one over half a turn, the others short more often than not: of ways that look for the shortest these are the hard ones. */
export function threeTurnCase(uniform: () => number, radiusMm: number): PlanarCase {
  const hand = uniform() < 0.5 ? 1 : -1;
  const turn = (): number => {
    const kind = uniform();
    return (kind < 0.4 ? 0.3 : kind < 0.7 ? 1.5 : 3) * uniform();
  };
  return endsOfTurns([turn(), Math.PI * (1 + uniform()), turn()], hand, radiusMm);
}

/** A seed is passed over where it is longer by this than the shortest found: refined it would not come below. */
const TOO_LONG = 1.2;

/** Shortest that the refinement finds from the planar seeds [mm]. */
export function shortestRefined({ from, to }: PlanarCase, radiusMm: number, stepMm: number): number {
  const leaving: Vec = [Math.cos(from.headingRad), Math.sin(from.headingRad), 0];
  const arriving: Vec = [Math.cos(to.headingRad), Math.sin(to.headingRad), 0];
  const start: Vec = [from.x, from.y, 0];
  const end: Vec = [to.x, to.y, 0];
  const a = fixedPose(start, leaving);
  const b = fixedPose(end, [-arriving[0], -arriving[1], 0]);
  const seeds = planarSeeds(start, leaving, end, arriving, [0, 0, 1], radiusMm)
    .map((seed) => ({ seed, lengthMm: polylineLength(seed) }))
    .sort((p, q) => p.lengthMm - q.lengthMm);
  let least = Infinity;
  for (const { seed, lengthMm } of seeds) {
    if (lengthMm > TOO_LONG * least) break;
    const way = refined({ a, b, minBendRadiusMm: radiusMm, seed, stepMm, tolerance: 2e-5, maxIterations: 400 });
    if (way.ok) least = Math.min(least, way.lengthMm);
  }
  return least;
}

/**
 * How much longer the shortest way grows for a radius larger by 1 in 10 000 [-]. Where the three circles of a way nearly stand in
 * line this has no bound: there no radius that is met to so much gives a length to a thousandth.
 */
export function growthByRadius({ from, to }: PlanarCase, radiusMm: number): number {
  const [best, wider] = [radiusMm, radiusMm * 1.0001].map((radius) => planarWays(from, to, radius)[0]!.lengthMm);
  return wider! / best! - 1;
}
