import { box, capsule, cylinder, type Solid, type Vec } from '#geometry';
import { describe, expect, it } from 'vitest';
import { chance } from '../../../test/geometry/seeded-meshes.ts';
import { swingBesideWallDeg } from './swing-beside-wall.ts';
import {
  type Bar,
  blockDirections,
  columnMeets,
  Directions,
  freeArcs,
  ringMeets,
  STEPS,
  type TurnPlane,
} from './swing.kernel.ts';
import { Look, type Thing } from './things.ts';

const flat: TurnPlane = { at: [0, 0, 0], e1: [1, 0, 0], e2: [0, 1, 0] };

const thing = (id: string, solid: Solid): Thing => ({
  id,
  kind: 'part',
  bounds: solid.bounds,
  distanceWithin: (x, y, z, limit) => solid.distanceWithin(x, y, z, limit),
  closest: solid.kind === 'mesh' ? null : (x, y, z) => solid.closest(x, y, z).point,
});

const look = (...solids: Solid[]): Look => new Look(solids.map((solid, n) => thing(`s${n}`, solid)));

function freeBeside(bar: Bar, ...solids: Solid[]): number[] {
  const blocked = new Directions();
  blockDirections(look(...solids), flat, bar, blocked);
  return freeArcs(blocked).map(({ widthDeg }) => widthDeg);
}

const wallAt = (x: number): Solid => box([x, -2000, -2000], [x + 50, 2000, 2000]);

/** The oracle: the rectangle of the bar in one direction, sampled densely; its least distance to anything [mm]. */
function leastAlong(solids: readonly Solid[], { at, e1, e2 }: TurnPlane, bar: Bar, step: number): number {
  const angle = (2 * Math.PI * step) / STEPS;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  let least = Infinity;
  const EVERY = 1;
  for (let r = bar.fromMm; r <= bar.toMm + 1e-9; r += EVERY)
    for (let w = -bar.halfWidthMm; w <= bar.halfWidthMm + 1e-9; w += Math.max(0.5, bar.halfWidthMm / 8)) {
      const [u, v] = [r * c - w * s, r * s + w * c];
      const p: Vec = [0, 1, 2].map((k) => at[k]! + u * e1[k]! + v * e2[k]!) as unknown as Vec;
      for (const solid of solids) least = Math.min(least, solid.distance(...p));
    }
  return least;
}

describe('directions of a handle', () => {
  it('beside a wall are free as the corner of the handle says (hand: 60 mm off, 240 x 20 x 8: 204.3 degrees)', () => {
    const [free] = freeBeside({ fromMm: 25, toMm: 236, halfWidthMm: 6, halfThickMm: 4 }, wallAt(60));
    // acos(56/sqrt(236^2 + 6^2)) + atan(6/236) = 76.28 + 1.46 = 77.73 deg barred to either side.
    expect(Math.abs(free! - 204.5)).toBeLessThan(0.8);
    expect(swingBesideWallDeg(60, 240, 20, 8)).toBeCloseTo(204.53, 1);
  });

  it('between two walls are two stretches (hand: 180 - 2 x 77.73 = 24.5 degrees each)', () => {
    const free = freeBeside({ fromMm: 25, toMm: 236, halfWidthMm: 6, halfThickMm: 4 }, wallAt(60), wallAt(-110));
    expect(free).toHaveLength(2);
    for (const width of free) expect(Math.abs(width - 24.5)).toBeLessThan(0.8);
  });

  it('past a post are barred for twice the angle it is seen under with half the handle (hand: asin(15/100))', () => {
    // A post of 10 mm radius 100 mm off, a handle 10 mm wide and as thick: 2 asin((10 + 5)/100) = 17.25 degrees.
    const post = cylinder([100, 0, -50], [100, 0, 50], 10);
    const [free] = freeBeside({ fromMm: 20, toMm: 200, halfWidthMm: 0, halfThickMm: 5 }, post);
    expect(Math.abs(free! - (360 - 17.25))).toBeLessThan(0.8);
  });

  it('over a floor that lies 0.3 mm under the handle are all free, and all barred where it rises by as much', () => {
    const bar = { fromMm: 20, toMm: 400, halfWidthMm: 8, halfThickMm: 6 };
    expect(freeBeside(bar, box([-900, -900, -40], [900, 900, -6.3]))).toEqual([360]);
    expect(freeBeside(bar, box([-900, -900, -40], [900, 900, -5.7]))).toEqual([]);
  });

  it('are those that dense sampling finds, but for half a millimetre, in 12 seeded places', () => {
    let barred = 0;
    for (let seed = 0; seed < 12; seed++) {
      const draw = chance(700 + seed);
      const solids: Solid[] = [
        box([draw(20, 120), draw(-80, 10), -30], [draw(130, 260), draw(20, 90), draw(-3, 40)]),
        capsule([draw(-200, -60), draw(-90, 90), -40], [draw(-200, -60), draw(-90, 90), 50], draw(5, 30)),
        cylinder([draw(-60, 60), draw(-200, -90), -20], [draw(-60, 60), draw(-200, -90), 60], draw(4, 25)),
      ];
      const bar = { fromMm: draw(12, 30), toMm: draw(120, 260), halfWidthMm: draw(0, 12), halfThickMm: draw(2, 9) };
      const blocked = new Directions();
      blockDirections(look(...solids), flat, bar, blocked);
      for (let step = 0; step < STEPS; step += 16) {
        const least = leastAlong(solids, flat, bar, step);
        const isBarred = blocked.by[step] !== null;
        if (isBarred) barred++;
        // A direction is 0.25 degrees: 0.6 mm at the far end, and the edge is found to 0.8 mm there.
        if (least < bar.halfThickMm - 1.6) expect([seed, step, isBarred]).toEqual([seed, step, true]);
        if (least > bar.halfThickMm + 1.6) expect([seed, step, isBarred]).toEqual([seed, step, false]);
      }
    }
    expect(barred).toBeGreaterThan(80);
  });
});

/** Asks everything about, however near it is asked: what a look that leaves out what is far off is held against. */
class WholeLook extends Look {
  override within(): Look {
    return this;
  }
}

it('what is barred, and by what, is the same whether far things are left out or not, among 60 seeded ones', () => {
  const kinds = new Set<string>();
  for (let seed = 0; seed < 6; seed++) {
    const draw = chance(900 + seed);
    const at = (): Vec => [draw(-320, 320), draw(-320, 320), draw(-60, 60)];
    const things = Array.from({ length: 60 }, (_, n): Thing => {
      const p = at();
      const size = draw(4, 40);
      return thing(
        `s${n}`,
        n % 2 === 0
          ? box(p, [p[0] + size, p[1] + 2 * size, p[2] + size])
          : capsule(p, [p[0], p[1], p[2] + 90], size / 2),
      );
    });
    const bar = { fromMm: draw(0, 30), toMm: draw(90, 260), halfWidthMm: draw(0, 12), halfThickMm: draw(2, 9) };
    const barred = [new Look(things), new WholeLook(things)].map((one) => {
      const blocked = new Directions();
      blockDirections(one, flat, bar, blocked);
      return blocked.by.map((by) => by?.id ?? '');
    });
    expect([seed, barred[0]]).toEqual([seed, barred[1]]);
    for (const id of barred[0]!) kinds.add(id);
    const radius = draw(5, 40);
    const [few, all] = [new Look(things), new WholeLook(things)];
    const ring = { fromMm: 8, toMm: 8 + radius, halfThickMm: bar.halfThickMm };
    expect(ringMeets(few, flat, ring)?.id).toBe(ringMeets(all, flat, ring)?.id);
    const heights = [draw(-40, 0), draw(20, 300)] as const;
    expect(columnMeets(few, [0, 0, 0], [0, 0, 1], heights, radius)?.id).toBe(
      columnMeets(all, [0, 0, 0], [0, 0, 1], heights, radius)?.id,
    );
  }
  expect(kinds.size).toBeGreaterThan(20);
});

describe('the head of a spanner and what goes on straight', () => {
  it('a ring goes on where the wall is farther off than its outside, and not where it is nearer (hand)', () => {
    const ring = { fromMm: 11, toMm: 20, halfThickMm: 4 };
    expect(ringMeets(look(wallAt(24.5)), flat, ring)).toBeNull();
    expect(ringMeets(look(wallAt(23.5)), flat, ring)?.id).toBe('s0');
  });

  it('a socket goes down beside a post as far off as its own radius, and not nearer (hand)', () => {
    const post = cylinder([30, 0, 10], [30, 0, 60], 10);
    expect(columnMeets(look(post), [0, 0, 0], [0, 0, 1], [0, 100], 19.8)).toBeNull();
    expect(columnMeets(look(post), [0, 0, 0], [0, 0, 1], [0, 100], 20.2)?.id).toBe('s0');
    expect(columnMeets(look(post), [0, 0, 0], [0, 0, 1], [85, 120], 20.2)).toBeNull();
  });
});
