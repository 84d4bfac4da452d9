import { type Vec, motionAbout, rodShape, shifted, still } from '#geometry';
import { describe, expect, it } from 'vitest';
import type { Carrier, EndMotions } from './carriers.ts';
import { hangFree } from './hang.ts';
import type { HangProblem } from './hang-problem.ts';
import { holdsToTry, moverSlack } from './holds.ts';

const FIRST = 1.002;
const clearOfAll = {
  slackAndGradient: (_x: number, _y: number, _z: number, out: Float64Array) => void out.fill(0).fill(100, 0, 1),
  closely: (_x: number, _y: number, _z: number, out: Float64Array) => void out.fill(0).fill(100, 0, 1),
  coarse: () => 100,
};

/** A hose of 700 mm planned straight along X, from the chassis to an engine that goes 10 mm farther. */
function straight(mount: Partial<Record<Carrier, number>> = {}, extreme: EndMotions = away(10)): HangProblem {
  const points = Array.from({ length: 141 }, (_, i) => [5 * i, 0, 0]).flat();
  return problem(Float64Array.from(points), [1, 0, 0], [1, 0, 0], mount, [extreme]);
}

const away = (mm: number): EndMotions => ({ from: still, to: shifted([mm, 0, 0]) });

const problem = (
  planned: Float64Array,
  leaves: Vec,
  arrives: Vec,
  mount: Partial<Record<Carrier, number>>,
  extremes: readonly EndMotions[],
): HangProblem => ({
  planned,
  held: [],
  leaves,
  arrives,
  straightsMm: [0, 0],
  insertsMm: 0,
  odMm: 20,
  minBendRadiusMm: 60,
  clear: clearOfAll,
  allowanceMm: [-5, 15],
  clampSpacingMm: 610,
  budget: { rods: 1000 },
  movement: {
    extremes,
    carriers: ['from', 'to'],
    supported: [false, false],
    isMoved: (carrier) => carrier === 'to',
    mountMm: (_, carrier) => mount[carrier] ?? 30,
  },
});

/** What the engine's end may be away from the last clamp on the chassis at worst, and how much hose is between. */
function lastOnChassis({ spans, carriers }: ReturnType<typeof holdsToTry>[number]): { plannedMm: number; on: Carrier } {
  const i = carriers.findIndex((c, k) => c !== carriers[k + 1]);
  return { plannedMm: spans[i]!.plannedMm, on: carriers[1]! };
}

describe('clamps beside what moves', () => {
  it('hand: 700 mm held every 610 at most lengthens by 48 mm for each mm of share of its last stretch, drawn out as far as it may be', () => {
    // One clamp. The last stretch is drawn out to 610 less a knot of 5: 605. Of a straight hose each stretch takes its
    // share of what is added, so 38 mm of slack and 10 of movement there want (38 + 10) 700 / 605 in all: a share of 1 + 48/605.
    const [first] = holdsToTry(straight({ to: 400 }), 0, FIRST);
    expect(lastOnChassis(first!)).toEqual({ plannedMm: 605, on: 'from' });
    expect(first!.leastShare).toBeCloseTo(1 + 48 / 605, 9);
    expect(moverSlack(straight(), first!, 700 * first!.leastShare)).toBeCloseTo(38, 6);
    expect(moverSlack(straight(), first!, 700)).toBeCloseTo(-10, 6);
  });

  it('hand: the clamp goes with the engine where that is near and the chassis is not', () => {
    const [near] = holdsToTry(straight({ from: 300, to: 30 }), 0, FIRST);
    expect(lastOnChassis(near!).on).toBe('to');
    // Beyond 150 mm of the hose's skin no bracket from the engine is trusted.
    const [far] = holdsToTry(straight({ from: 300, to: 161 }), 0, FIRST);
    expect(lastOnChassis(far!).on).toBe('from');
  });

  it('hand: a movement for which the hose would have to be over 15 % longer loses the clamp, and only then lacks slack', () => {
    // 605 mm of 700 give 90.7 of the 105 mm that 15 % add: 38 + 60 is too much for any place of the clamp.
    const tries = holdsToTry(straight({}, away(60)), 0, FIRST);
    expect(tries.map(({ spans, overlongMm }) => [spans.length, overlongMm])).toEqual([
      [1, 700],
      [2, null],
    ]);
  });

  it('hand: nothing is asked where the two ends go together', () => {
    const together = straight();
    const movement = { ...together.movement, extremes: [], carriers: ['from' as const] };
    const tries = holdsToTry({ ...together, movement }, 0, FIRST);
    expect(tries.length).toBe(1);
    expect(tries[0]!.spans[0]!.plannedMm).toBe(350);
    expect(moverSlack({ ...together, movement }, tries[0]!, 700)).toBe(null);
  });
});

describe('a clamped hose at an extreme', () => {
  // Three quarters of a circle of radius 200: 942 mm, held once, by the chassis or by the engine.
  const turn = 1.5 * Math.PI;
  const arc = Float64Array.from(
    Array.from({ length: 191 }, (_, i) => {
      const t = (turn * i) / 190;
      return [200 * Math.sin(t), 200 - 200 * Math.cos(t), 0];
    }).flat(),
  );
  const rock: EndMotions = { from: still, to: motionAbout([-300, 200, -200], [1, 0, 0], 0.05) };

  it.each([
    ['from', { from: 30, to: 400 }],
    ['to', { from: 400, to: 30 }],
  ] as const)('second: lies as one rod through a clamp that goes with its %s end does', (carrier, mount) => {
    const hung = hangFree(problem(arc, [1, 0, 0], [0, -1, 0], mount, [rock]));
    expect(hung.ok).toBe(true);
    expect(hung.clamps.map((c) => c.carrier)).toEqual([carrier]);
    const got = hung.carried(rock);
    // The rod solver that tests hold to the elastica, its clamp given to it, all in one: no stretch by itself.
    const [clamp] = hung.clamps;
    const go = carrier === 'to' ? rock.to : still;
    const place = (p: Vec): Vec => [0, 1, 2].map((k) => dot(go.rows[k]!, p) + go.shift[k]!) as unknown as Vec;
    const heading = (d: Vec): Vec => [0, 1, 2].map((k) => dot(go.rows[k]!, d)) as unknown as Vec;
    const end: Vec = [got.at(-3)!, got.at(-2)!, got.at(-1)!];
    const whole = rodShape({
      a: { point: [0, 0, 0], direction: [1, 0, 0] },
      b: { point: end, direction: [0, 1, 2].map((k) => -rock.to.rows[k]![1]) as unknown as Vec },
      clamps: [{ point: place(clamp!.at), direction: heading(clamp!.along), alongMm: hung.lengthMm / 2 }],
      lengthMm: hung.lengthMm,
      start: arc,
      stepMm: 6,
    });
    expect(whole.converged).toBe(true);
    for (let i = 0; i < got.length; i += 3) {
      const off = distanceTo(whole.points, [got[i]!, got[i + 1]!, got[i + 2]!]);
      expect(off, `knot ${i / 3}`).toBeLessThan(0.5);
    }
    // The end itself is where the rock takes it: by hand, the port (-200, 200, 0) turned about X by 0.05 at (., 200, -200).
    expect(end[1]).toBeCloseTo(200 - 200 * Math.sin(0.05), 6);
    expect(end[2]).toBeCloseTo(-200 + 200 * Math.cos(0.05), 6);
  });
});

const dot = (p: Vec, q: Vec): number => p[0] * q[0] + p[1] * q[1] + p[2] * q[2];

function distanceTo(path: Float64Array, p: Vec): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 5 < path.length; i += 3) {
    const a: Vec = [path[i]!, path[i + 1]!, path[i + 2]!];
    const d: Vec = [path[i + 3]! - a[0], path[i + 4]! - a[1], path[i + 5]! - a[2]];
    const to: Vec = [p[0] - a[0], p[1] - a[1], p[2] - a[2]];
    const t = Math.min(1, Math.max(0, dot(to, d) / dot(d, d)));
    least = Math.min(least, Math.hypot(to[0] - t * d[0], to[1] - t * d[1], to[2] - t * d[2]));
  }
  return least;
}
