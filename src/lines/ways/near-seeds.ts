import { type Vec, add, addScaled, distance, dot, scale, sub, unit } from '#geometry';
import type { NearHose } from './near-line.ts';
import { reversedPath } from './reversed-path.ts';
import type { Seed } from './seeds.ts';
import type { Span } from './span.ts';
import { type Tail, startOfBend } from './tails.ts';

/** Knots of a seed stand about this far apart, in bend radii. */
const KNOT_RADII = 0.4;
/** What each radian's worth of turning off the old way counts, in bend radii. */
const TURN_RADII = 1;

interface Start {
  readonly tail: Tail;
  readonly phiRad: number;
  readonly point: Vec;
  /** How far it is from where the hose began before, and what its parts cost [mm]; only its order counts. */
  readonly off: number;
}

/** Seeds along a hose as it lay, its ends drawn to where the ports are now: made up as it was, and as comes nearest to it. */
export function nearSeeds(span: Span, near: NearHose, tailsA: readonly Tail[], tailsB: readonly Tail[]): Seed[] {
  const { path } = near;
  const back = reversedPath(path);
  const a = startsNear(tailsA, path, near.makeUps[0], span.minBendRadiusMm);
  const b = startsNear(tailsB, back, near.makeUps[1], span.minBendRadiusMm);
  return a.flatMap((from) =>
    b.map(
      (to): Seed => ({
        a: from.tail,
        phiA: from.phiRad,
        b: to.tail,
        phiB: to.phiRad,
        line: drawnTo(path, from, to, span.minBendRadiusMm * KNOT_RADII),
        hope: from.off + to.off,
        from: 'near',
      }),
    ),
  );
}

const idsOf = ({ makeUp }: Tail): string =>
  makeUp.parts
    .filter((part) => part.kind === 'adapter' || part.kind === 'hose-end')
    .map((part) => part.id)
    .join(' ');

/** The make-up it had at the clock nearest to before, and the other one that comes nearest. */
function startsNear(
  tails: readonly Tail[],
  path: Float64Array,
  had: readonly string[] | null,
  radiusMm: number,
): Start[] {
  const best = tails.flatMap((tail) => {
    const along = directionAlong(path, tail.pose.straightMm);
    const { at: there } = along;
    const all = tail.clocks.map(({ phiRad }): Start => {
      const { point, direction } = startOfBend(tail, phiRad);
      const off = distance(point, there) + TURN_RADII * radiusMm * (1 - dot(direction, along.direction));
      return { tail, phiRad, point, off: off + tail.makeUp.cost };
    });
    return all.length === 0 ? [] : [all.reduce((p, q) => (q.off < p.off ? q : p))];
  });
  best.sort((p, q) => p.off - q.off);
  const same = had === null ? undefined : best.find(({ tail }) => idsOf(tail) === had.join(' '));
  const other = best.find((start) => start !== same);
  return [same, other].filter((start) => start !== undefined);
}

const placeOn = (path: Float64Array, i: number): Vec => [path[3 * i]!, path[3 * i + 1]!, path[3 * i + 2]!];

/** Where a path is so far from its beginning, and its direction there. */
function directionAlong(path: Float64Array, alongMm: number): { at: Vec; direction: Vec } {
  const last = path.length / 3 - 1;
  let i = 0;
  for (let left = alongMm; i < last - 1; i++) {
    left -= distance(placeOn(path, i), placeOn(path, i + 1));
    if (left <= 0) break;
  }
  return { at: placeOn(path, i), direction: unit(sub(placeOn(path, i + 1), placeOn(path, i))) };
}

/** The path with its ends moved to these, what lies between passing over from one move to the other. */
function drawnTo(path: Float64Array, from: Start, to: Start, stepMm: number): Vec[] {
  const last = path.length / 3 - 1;
  const first = directionAlong(path, from.tail.pose.straightMm).at;
  const end = directionAlong(reversedPath(path), to.tail.pose.straightMm).at;
  const [moveA, moveB] = [sub(from.point, first), sub(to.point, end)];
  const knots: Vec[] = [from.point];
  let since = 0;
  for (let i = 1; i < last; i++) {
    since += distance(placeOn(path, i - 1), placeOn(path, i));
    if (since < stepMm) continue;
    since = 0;
    const w = i / last;
    const k = w * w * (3 - 2 * w);
    knots.push(add(addScaled(placeOn(path, i), moveA, 1 - k), scale(moveB, k)));
  }
  return [...knots, to.point];
}
