import type { Lever } from '#car';
import { distance, norm, scale, sub } from '#geometry';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../test/flow/fluids-for-tests.ts';
import { expectedOf, named, published } from '../../test/published/published.ts';
import { type Chain, chainAt, chainRun, chainsOf } from './chain.ts';
import { leverCrank, pinAt } from './crank.ts';
import { forcesFromHandle, handleFor } from './effort.ts';
import { linkRate } from './effort-formulas.ts';
import { deadCentres, directionKept, lockUps } from './travel.ts';
import { turnsAtDistance } from './turns-at-distance.ts';

/** A place as a car file holds it. */
type At = [number, number, number];

const RAD = Math.PI / 180;

const lever = (id: string, row: Partial<Lever>): Lever => ({
  id,
  acts: 'link',
  pivotMm: [0, 0, 0],
  axis: [0, 0, 1],
  arms: [],
  turnDeg: [-30, 30],
  ...row,
});

/** Two levers and a rod without losses between them. */
function rodPair(first: Partial<Lever>, second: Partial<Lever>, fromMm: At, toMm: At): Chain {
  const a = lever('a', {
    ...first,
    handle: { atMm: fromMm },
    arms: [{ id: 'p', atMm: fromMm }],
    rods: [{ id: 'R', arm: 'p', to: { lever: 'b', arm: 'q' }, lostShare: 0 }],
  });
  const b = lever('b', { ...second, arms: [{ id: 'q', atMm: toMm }] });
  return chainsOf({ levers: [a, b], movers: [] }, a)[0]!;
}

describe('the turn of a driven pin, against four-bar linkages', () => {
  it.each(published('lever.fourbar').map((item) => [named(item), item] as const))('%s', (_, item) => {
    const { a = 0, b = 0, c = 0, d = 0, crankDeg = 0 } = item.inputs;
    const t = crankDeg * RAD;
    const crank = leverCrank(lever('out', { pivotMm: [d, 0, 0] }));
    const turns = turnsAtDistance(crank, [d + c, 0, 0], [a * Math.cos(t), a * Math.sin(t), 0], b);
    const abs = typeof item.tol === 'string' ? 0 : (item.tol.abs ?? 0);
    for (const [name, sign] of [
      ['open', -1],
      ['crossed', 1],
    ] as const) {
      const found = (turns.middleRad + sign * turns.halfRad) / RAD;
      const off = (found - expectedOf(item, name)) / 360;
      expect(Math.abs(off - Math.round(off)) * 360, name).toBeLessThan(abs);
    }
  });

  it('gives no turn where the pin cannot get there', () => {
    const crank = leverCrank(lever('out', {}));
    expect(turnsAtDistance(crank, [10, 0, 0], [100, 0, 0], 50).halfRad).toBeNaN();
    expect(turnsAtDistance(crank, [10, 0, 0], [100, 0, 0], 90).halfRad).toBeCloseTo(0, 6);
  });
});

/** Pins of two levers somewhere in space, their axes any way. */
function spatialPair(rng: () => number): Chain {
  const near = (mm: number): At => [(rng() - 0.5) * mm, (rng() - 0.5) * mm, (rng() - 0.5) * mm];
  const way = (): At => {
    for (;;) {
      const v = near(2);
      if (norm(v) > 0.3) return [...scale(v, 1 / norm(v))];
    }
  };
  const [p, q] = [near(120), near(120)];
  const far: At = [600, 50 * rng(), 30];
  return rodPair({ axis: way(), turnDeg: [-12, 12] }, { axis: way(), pivotMm: far, turnDeg: [-180, 170] }, p, [
    q[0] + 600,
    q[1] + far[1],
    q[2] + 30,
  ]);
}

describe('a rod in space', () => {
  const rng = seeded(4711);
  const pairs = Array.from({ length: 120 }, () => spatialPair(rng)).filter(
    (chain) => chainRun(chain).states.length === 121 && distance(chain.joints[0]!.fromPinMm, [0, 0, 0]) > 5,
  );

  it('keeps its length at every turn (120 pairs, seed 4711)', () => {
    expect(pairs.length).toBeGreaterThan(40);
    for (const chain of pairs) {
      const joint = chain.joints[0]!;
      const length = distance(joint.fromPinMm, joint.toPinMm);
      for (const state of chainRun(chain).states) {
        const [p, q] = [state.joints[0]!.fromPinMm, state.joints[0]!.toPinMm];
        expect(Math.abs(distance(p, q) - length)).toBeLessThan(1e-8 * length + 1e-7);
        expect(distance(q, pinAt(joint.to, joint.toPinMm, state.joints[0]!.toRad))).toBeLessThan(1e-9);
      }
    }
  });

  it('turns the driven lever at the rate that differences of its place tell (second: central differences)', () => {
    const step = 1e-4;
    for (const chain of pairs)
      for (const turn of [-0.1, 0, 0.15]) {
        const at = chainAt(chain, turn);
        const [before, after] = [chainAt(chain, turn - step), chainAt(chain, turn + step)];
        if (at === undefined || before === undefined || after === undefined) continue;
        const rate = (after.joints[0]!.toRad - before.joints[0]!.toRad) / (2 * step);
        if (Math.abs(at.joints[0]!.outMm) < 2) continue;
        expect(at.joints[0]!.rateRatio).toBeCloseTo(rate, 4);
      }
  });

  it('puts out as much work as is put in: force times movement, the movement by differences (virtual work)', () => {
    const step = 1e-4;
    let checked = 0;
    for (const chain of pairs) {
      const at = chainAt(chain, 0.05);
      const [before, after] = [chainAt(chain, 0.05 - step), chainAt(chain, 0.05 + step)];
      if (at === undefined || before === undefined || after === undefined || Math.abs(at.joints[0]!.outMm) < 5)
        continue;
      const forces = forcesFromHandle(chain, at, 80, 100);
      const moved = Math.abs(after.outputMm - before.outputMm) / (2 * step);
      if (forces === undefined || moved < 1) continue;
      expect((forces.outputN * moved) / (100 * 80)).toBeCloseTo(1, 3);
      expect(handleFor(chain, at, 80, forces.outputN)).toBeCloseTo(100, 6);
      checked++;
    }
    expect(checked).toBeGreaterThan(30);
  });

  it('is the plane law r1 sin a1/(r2 sin a2) where all lies in one plane (hand)', () => {
    // Arms 40 and 80 upright, the rod level: both angles 90 degrees.
    const chain = rodPair({ axis: [0, 1, 0] }, { axis: [0, 1, 0], pivotMm: [300, 0, -40] }, [0, 0, 40], [300, 0, 40]);
    expect(chainAt(chain, 0)!.joints[0]!.rateRatio).toBeCloseTo(linkRate(40, 90, 80, 90), 12);
  });
});

describe('limits of a linkage', () => {
  // Hand: crank 50 on the line to a pivot 200 away, rod 180, driven arm 40: stretched straight when the crank pin is 220 from the far pivot.
  const stretching = rodPair(
    { turnDeg: [0, 170] },
    { pivotMm: [200, 0, 0], turnDeg: [-170, 170] },
    [50, 0, 0],
    [50 + 180 * Math.cos(0.1), 180 * Math.sin(0.1), 0],
  );

  it('locks where rod and driven arm lie in one line (hand: cosine rule)', () => {
    const run = chainRun(stretching);
    const joint = stretching.joints[0]!;
    const reach = distance(joint.fromPinMm, joint.toPinMm) + distance(joint.toPinMm, [200, 0, 0]);
    const lock = Math.acos((50 ** 2 + 200 ** 2 - reach ** 2) / (2 * 50 * 200)) / RAD;
    expect(lock).toBeGreaterThan(20);
    expect(lockUps(stretching, run)[0]?.turnDeg).toBeCloseTo(lock, 6);
  });

  it('finds the dead centre where the driving arm lies along the rod', () => {
    // The arm of 40 turns past the line to a far pin: the rod comes back.
    const chain = rodPair(
      { turnDeg: [-30, 60] },
      { pivotMm: [500, -60, 0], turnDeg: [-90, 90] },
      [40 * Math.cos(-0.5), 40 * Math.sin(-0.5), 0],
      [500, 0, 0],
    );
    const run = chainRun(chain);
    const [dead] = deadCentres(chain, run);
    const at = chainAt(chain, dead!.turnDeg * RAD)!;
    const { fromPinMm: p, toPinMm: q } = at.joints[0]!;
    // The pivot lies on the line through both pins.
    const off = norm(sub(p, scale(sub(q, p), (p[0] * (q[0] - p[0]) + p[1] * (q[1] - p[1])) / distance(p, q) ** 2)));
    expect(off).toBeLessThan(1e-4);
    expect(dead!.link).toBe('R');
  });

  it('tells kept, reversed and across', () => {
    const both = (toMm: At, pivotMm: At, axis: At = [0, 1, 0]) => {
      const chain = rodPair({ axis: [0, 1, 0] }, { axis, pivotMm }, [0, 0, 40], toMm);
      return directionKept(chain, chainAt(chain, 0)!, [0, 0, 200]);
    };
    expect(both([300, 0, 40], [300, 0, 0])).toBe('kept');
    const below = rodPair({ axis: [0, 1, 0] }, { axis: [0, 1, 0], pivotMm: [300, 0, 0] }, [0, 0, -40], [300, 0, -40]);
    expect(directionKept(below, chainAt(below, 0)!, [0, 0, 200])).toBe('reversed');
    // The driven arm swings about the upright: its pin goes sideways.
    expect(both([300, 0, 40], [260, 0, 40], [0, 0, 1])).toBe('across');
  });
});

describe('a cable', () => {
  const cable = (frictionRatio: number, sealDragN: number): Chain => {
    const a = lever('a', {
      axis: [0, 1, 0],
      arms: [{ id: 'p', atMm: [0, 0, -50] }],
      handle: { atMm: [0, 0, 200] },
      turnDeg: [-20, 20],
      cables: [
        {
          id: 'C',
          arm: 'p',
          to: { lever: 'b', arm: 'q' },
          pathMm: [
            [100, 0, -50],
            [600, 0, -50],
            [600, 700, -50],
          ],
          odMm: 10,
          frictionRatio,
          sealDragN,
        },
      ],
    });
    const b = lever('b', {
      axis: [0, 0, 1],
      pivotMm: [560, 800, -50],
      arms: [{ id: 'q', atMm: [600, 800, -50] }],
      turnDeg: [-40, 40],
    });
    return chainsOf({ levers: [a, b], movers: [] }, a)[0]!;
  };

  it('moves what comes out at one end in at the other', () => {
    const chain = cable(0, 0);
    for (const { joints } of chainRun(chain).states) {
      const { fromPinMm, toPinMm } = joints[0]!;
      expect(distance(fromPinMm, [100, 0, -50]) + distance(toPinMm, [600, 700, -50])).toBeCloseTo(200, 9);
    }
  });

  it('passes the capstan share of the force less both seals (hand: 90 degrees, 50 mm and 40 mm arms)', () => {
    const chain = cable(0.12, 5);
    const rest = chainAt(chain, 0)!;
    // 30 N at 200 mm: 6000 Nmm, 120 N in the core; 115 behind the first seal.
    const out = (115 * Math.exp(-0.12 * (Math.PI / 2)) - 5) * (40 / 40);
    expect(forcesFromHandle(chain, rest, 200, 30)!.outputN).toBeCloseTo(out, 9);
    expect(handleFor(chain, rest, 200, out)).toBeCloseTo(30, 9);
    expect(forcesFromHandle(chain, rest, 200, 1)!.outputN).toBe(0);
  });
});
