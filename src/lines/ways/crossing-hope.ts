import { type Vec, addScaled, dot, scale, sub } from '#geometry';
import type { PlacedJoint } from './joints.ts';
import type { SpanEnd } from './span.ts';
import { startOfBend, tails } from './tails.ts';

/** Where a hose may begin to bend, which way it goes there, and what it took to get there [mm]. */
export interface HopePose {
  readonly at: Vec;
  readonly along: Vec;
  readonly costMm: number;
}

/** A stretch of hose between two joints, or between a joint and a port. */
export interface HopeLeg {
  readonly odMm: number;
  readonly radiusMm: number;
}

/** Of the clear clocks every third: neighbours hope for nearly the same. */
const CLOCK_STRIDE = 3;

/** Every way an end can be fitted up and turned, as poses. */
export const posesOf = (end: SpanEnd, odMm: number): HopePose[] => {
  const all = tails(end, odMm, {});
  // An elbow adapter under a bent end is dear and has clocks by the hundred: hoped for only where there is nothing else.
  const plain = all.filter((tail) => tail.adapterClockRad === null);
  return (plain.length > 0 ? plain : all).flatMap((tail) =>
    tail.clocks
      .filter((_, i) => i % CLOCK_STRIDE === 0)
      .map(({ phiRad }) => {
        const { point, direction } = startOfBend(tail, phiRad);
        return { at: point, along: direction, costMm: tail.makeUp.cost + tail.makeUp.lengthMm };
      }),
  );
};

/** Length that turning costs beyond going straight, roughly, in radii: an arc beyond its projection, and a little for its start. */
const TURN_SHARE = 0.35;

/** What a hose from one pose to another can be hoped to cost at least where nothing is in its way [mm]; only its order counts. */
function hopeBetween(from: HopePose, to: HopePose, radiusMm: number): number {
  const over = sub(to.at, from.at);
  const chord = Math.max(1e-6, Math.hypot(...over));
  // (x - sin x) + share (1 - cos x), by the cosines alone: this is asked for millions of times.
  const turn = (cos: number): number => {
    const c = Math.max(-1, Math.min(1, cos));
    return Math.acos(c) - Math.sqrt(1 - c * c) + TURN_SHARE * (1 - c);
  };
  const turns = turn(dot(from.along, over) / chord) + turn(-dot(to.along, over) / chord);
  return chord + radiusMm * turns + from.costMm + to.costMm;
}

function leastHope(from: readonly HopePose[], to: readonly HopePose[], radiusMm: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const p of from) for (const q of to) least = Math.min(least, hopeBetween(p, q, radiusMm));
  return least;
}

/**
 * What the whole line can be hoped to cost through joints at given places [mm], everything between out of the way: the sum of its
 * legs, each from the best pose to the best pose. `endAt` gives a joint's end on either side, -1 back and +1 on; a joint without
 * one (a grommet) is passed straight.
 */
export function lineHope(
  ports: readonly [SpanEnd, SpanEnd],
  legs: readonly HopeLeg[],
  endAt: (joint: PlacedJoint, leg: number, side: -1 | 1) => SpanEnd | null,
): (joints: readonly PlacedJoint[]) => number {
  const first = posesOf(ports[0], legs[0]!.odMm);
  const last = posesOf(ports[1], legs.at(-1)!.odMm);
  const known = new Map<string, readonly HopePose[]>();
  /** Poses about a joint, as seen from its own place. */
  const about = (joint: PlacedJoint, leg: number, side: -1 | 1): readonly HopePose[] => {
    const { odMm } = legs[leg]!;
    if (joint.row === null)
      return [{ at: scale(joint.direction, (side * odMm) / 2), along: scale(joint.direction, side), costMm: 0 }];
    const key = `${joint.row.id} ${leg} ${side} ${joint.direction.join(' ')}`;
    const had = known.get(key);
    if (had !== undefined) return had;
    const end = endAt({ ...joint, at: [0, 0, 0] }, leg, side);
    // What stands about a joint differs from place to place: it is left to the true search.
    const poses = end === null ? [] : posesOf(bare(end), odMm);
    known.set(key, poses);
    return poses;
  };
  const at = (joint: PlacedJoint, leg: number, side: -1 | 1): HopePose[] =>
    about(joint, leg, side).map((pose) => ({ ...pose, at: addScaled(joint.at, pose.at, 1) }));
  return (joints) =>
    legs.reduce((sum, { radiusMm }, leg) => {
      const before = joints[leg - 1];
      const after = joints[leg];
      const from = before === undefined ? first : at(before, leg, 1);
      const to = after === undefined ? last : at(after, leg, -1);
      return sum + leastHope(from, to, radiusMm);
    }, 0);
}

function bare(end: SpanEnd): SpanEnd {
  const { rest: _, eased: __, ...other } = end;
  return { ...other, nearItems: [] };
}
