import type { Vec } from '#geometry';
import { describe, expect, it } from 'vitest';
import { chance } from '../../../test/geometry/seeded-meshes.ts';
import { humpedPan } from './humped-pan.fixture.ts';
import { oilSurface } from './level.ts';
import { coverOf, type Outlet, outletIn } from './outlet.ts';
import { tankOfCylinder, tankOfMesh } from './tank.ts';
import { covers, ggPictures, greatestG, gToward, leastFill, secondsCovered, worstCovering } from './under-g.ts';

const rest = { longitudinalG: 0, lateralG: 0, verticalG: 1 };
const tank = tankOfCylinder([1780, -600, 90], [1780, -600, 570], 90, { name: 'oil tank' });
const out: Outlet = { id: 'out', atMm: [1690, -600, 120], axis: [-1, 0, 0], boreMm: 22 };
/** An outlet in the middle of the floor, facing down. */
const floorOut: Outlet = { id: 'floor', atMm: [1780, -600, 90], axis: [0, 0, -1], boreMm: 22 };

describe('an outlet', () => {
  it('is covered by the head over its highest point, worked by hand', () => {
    // 6 L over pi 0.09^2 stand 235.79 mm deep; the bore reaches 11 mm above 120, the floor is at 90.
    const [cover] = covers(tank, [out], rest, 0.006);
    expect(cover).toMatchObject({ outlet: 'out', covering: 'covered', share: 1 });
    expect(cover!.headMm).toBeCloseTo(0.006 / (Math.PI * 0.09 ** 2) / 1e-3 + 90 - 131, 6);
    // At 1.5 g speeding up the front wall, where it is, falls 135 mm: 204.79 - 11 - 135 upright, times the cosine of 56.3 degrees
    // along the pull; the bore there reaches 11 mm times the same cosine.
    const [tilted] = covers(tank, [out], { ...rest, longitudinalG: 1.5 }, 0.006);
    expect(tilted!.headMm).toBeCloseTo((235.785 + 90 - 120 - 135 - 11) / Math.hypot(1, 1.5), 2);
  });

  it('is partly covered by the share of the disc below the surface (second: points counted)', () => {
    const draw = chance(4);
    for (let k = 0; k < 30; k++) {
      const axis: Vec = [draw(-1, 1), draw(-1, 1), draw(-1, 1)];
      const disc = outletIn(tank, { ...out, atMm: [1780, -600, 300], axis, boreMm: 60 });
      const up: Vec = [0, 0, 1];
      const level = 300 + draw(-30, 30);
      const across: Vec = [disc.axis[1], -disc.axis[0], 0];
      const flat = Math.hypot(...across);
      // Heights over the disc rise along one diameter only, by the sine of its lean.
      let below = 0;
      for (let i = 0; i < 300; i++)
        for (let j = 0; j < 300; j++) {
          const [x, y] = [((i + 0.5) / 150 - 1) * 30, ((j + 0.5) / 150 - 1) * 30];
          if (x * x + y * y <= 900 && 300 + y * flat <= level) below++;
        }
      const { share, covering, headMm } = coverOf(disc, { up, heightMm: level });
      expect(share).toBeCloseTo(below / ((Math.PI / 4) * 90000), 2);
      expect(covering).toBe(share === 1 ? 'covered' : share === 0 ? 'uncovered' : 'partly');
      expect(headMm >= 0).toBe(covering === 'covered');
    }
  });

  it('lying level is all in or all out', () => {
    expect(covers(tank, [floorOut], rest, 0)[0]!.covering).toBe('covered');
    expect(coverOf(floorOut, { up: [0, 0, 1], heightMm: 89.9 })).toMatchObject({ covering: 'uncovered', share: 0 });
  });

  it('on a boss is drawn onto the inside; further off, without bore or without axis it is refused in one line', () => {
    expect(outletIn(tank, { ...out, atMm: [1670, -600, 120] }).atMm[0]).toBeCloseTo(1690, 0);
    const said = (wrong: Partial<Outlet>) => () => outletIn(tank, { ...out, ...wrong });
    expect(said({ atMm: [1600, -600, 120] })).toThrow(
      /^flow: oil tank outlet "out": \(1600, -600, 120\) mm, 90 mm outside the tank; allowed: inside it, or at most 30 mm outside its wall$/,
    );
    expect(said({ boreMm: 0 })).toThrow(/outlet "out" boreMm: 0; allowed: a number above 0 mm/);
    expect(said({ axis: [0, 0, 0] })).toThrow(/axis: 0, 0, 0; allowed: a direction/);
    expect(said({ atMm: [Number.NaN, 0, 0] })).toThrow(/atMm\[0\]: NaN/);
  });
});

describe('the least fill', () => {
  it('at rest is the oil up to the top of the bore (hand); at several g the worst of them', () => {
    const least = leastFill(tank, out, [rest])!;
    expect(least.oilM3).toBeCloseTo(Math.PI * 0.09 ** 2 * 0.041, 12);
    expect(least.share).toBeCloseTo(41 / 480, 9);
    const speeding = leastFill(tank, out, [rest, { ...rest, longitudinalG: 1.2 }, { ...rest, longitudinalG: -1.2 }])!;
    // The wall falls 108 mm: 41 + 108 mm of mean depth, floor still covered (149 > 108).
    expect(speeding.oilM3).toBeCloseTo(Math.PI * 0.09 ** 2 * 0.149, 8);
  });

  it('is where halving the fill finds the bore just covered, and more oil never uncovers it (second: halving; seed 9)', () => {
    const draw = chance(9);
    for (let k = 0; k < 25; k++) {
      const g = { longitudinalG: draw(-2, 2), lateralG: draw(-2, 2), verticalG: draw(0.3, 1.5) };
      const least = leastFill(tank, out, [g])!;
      let [low, high] = [0, tank.volumeM3];
      for (let n = 0; n < 60; n++) {
        const middle = (low + high) / 2;
        if (covers(tank, [out], g, middle)[0]!.headMm >= 0) high = middle;
        else low = middle;
      }
      expect(Math.abs(least.oilM3 - high)).toBeLessThan(1e-10 * tank.volumeM3);
      for (let n = 1; n <= 5; n++) {
        const more = least.oilM3 + ((tank.volumeM3 - least.oilM3) * n) / 5;
        expect(covers(tank, [out], g, more)[0]!.covering).toBe('covered');
      }
    }
  });

  it('is none where the bore is the top of the tank, or nothing pulls', () => {
    const lid: Outlet = { ...floorOut, atMm: [1780, -600, 570] };
    expect(leastFill(tank, lid, [rest])).toBeUndefined();
    expect(leastFill(tank, out, [{ ...rest, verticalG: 0 }])).toBeUndefined();
    expect(covers(tank, [out], { ...rest, verticalG: 0 }, 0.006)[0]!.covering).toBe('uncovered');
  });
});

describe('how long', () => {
  const draw = { drawnM3S: 60e-3 / 60, returnedM3S: 40e-3 / 60 };
  it('is the spare oil over what leaves (hand): 20 L/min net out of 6 L less 1.043 L', () => {
    const spare = 0.006 - Math.PI * 0.09 ** 2 * 0.041;
    expect(secondsCovered(tank, out, rest, 0.006, draw)).toBeCloseTo(spare / (20e-3 / 60), 6);
    expect(secondsCovered(tank, out, rest, 0.006, { ...draw, unsureM3: 0.0005 })).toBeCloseTo(
      (spare - 0.0005) / (20e-3 / 60),
      6,
    );
  });
  it('is for ever while as much comes back, and nothing when it is bare already', () => {
    expect(secondsCovered(tank, out, rest, 0.006, { drawnM3S: 1e-3, returnedM3S: 1e-3 })).toBe(Infinity);
    expect(secondsCovered(tank, out, rest, 0.006, { drawnM3S: 1e-3, returnedM3S: 2e-3 })).toBe(Infinity);
    expect(secondsCovered(tank, out, rest, 0.0005, draw)).toBe(0);
    expect(() => secondsCovered(tank, out, rest, 0.006, { ...draw, drawnM3S: -1 })).toThrow(
      /oil tank drawnM3S: -1; allowed: 0 or more/,
    );
  });
});

describe('the greatest g', () => {
  it('away from the outlet is where the wall has fallen to the top of the bore (hand)', () => {
    // 3 L stand 117.89 mm deep, the top of the bore 41 mm over the floor: 76.89 mm of fall over 90 mm is 0.8544 g.
    const [speeding, ...others] = greatestG(tank, out, 0.003, {
      directionsDeg: [0, 90, 180, 270],
      verticalG: 1,
      mostG: 3,
    });
    const byHand = (0.003 / (Math.PI * 0.09 ** 2) / 1e-3 - 41) / 90;
    expect(speeding!.g).toBeCloseTo(byHand, 4);
    expect(speeding!.isAll).toBe(false);
    for (const other of others) expect(other.g).toBeGreaterThan(1.5);
  });
  it('agrees with the picture cell by cell', () => {
    const g = Array.from({ length: 9 }, (_, i) => -2 + i * 0.5);
    const [picture] = ggPictures(tank, [out], [0.003], { verticalG: 1, longitudinalG: g, lateralG: g });
    picture!.cells.forEach((line, i) =>
      line.forEach(([cover], k) => {
        expect(cover).toEqual(covers(tank, [out], { longitudinalG: g[i]!, lateralG: g[k]!, verticalG: 1 }, 0.003)[0]);
        const directionDeg = (Math.atan2(g[k]!, g[i]!) * 180) / Math.PI;
        const size = Math.hypot(g[i]!, g[k]!);
        const [most] = greatestG(tank, out, 0.003, { directionsDeg: [directionDeg], verticalG: 1, mostG: 3 });
        expect(cover!.covering === 'covered').toBe(size <= most!.g);
      }),
    );
  });
  it('is 0 where the bore is bare at rest, though a g would cover it', () => {
    const high: Outlet = { ...out, atMm: [1690, -600, 170] };
    expect(covers(tank, [high], rest, 0.0016)[0]!.covering).toBe('uncovered');
    expect(covers(tank, [high], { ...rest, longitudinalG: -1.5 }, 0.0016)[0]!.covering).toBe('covered');
    const wish = { directionsDeg: [180], verticalG: 1, mostG: 3 };
    expect(greatestG(tank, high, 0.0016, wish)[0]).toEqual({ directionDeg: 180, g: 0, isAll: false });
  });
  it('is 0 where the bore is bare at rest', () => {
    expect(greatestG(tank, out, 0.0005, { directionsDeg: [0], verticalG: 1, mostG: 3 })[0]).toEqual({
      directionDeg: 0,
      g: 0,
      isAll: false,
    });
    expect(gToward(90, 1, 1)).toMatchObject({ lateralG: 1, verticalG: 1 });
  });
});

describe('a pan with two sumps', () => {
  const pan = tankOfMesh(humpedPan(240), { name: 'pan' });
  const picks: readonly Outlet[] = [
    { id: 'front', atMm: [75, 120, 10], axis: [0, 0, -1], boreMm: 24 },
    { id: 'rear', atMm: [350, 120, 30], axis: [0, 0, -1], boreMm: 24 },
  ];
  it('bares its front pick-up speeding up and its rear one braking', () => {
    const states = (longitudinalG: number) =>
      covers(pan, picks, { ...rest, longitudinalG }, 0.0035).map((c) => c.covering);
    expect(states(0)).toEqual(['covered', 'covered']);
    expect(states(1.5)).toEqual(['uncovered', 'covered']);
    expect(states(-1.5)).toEqual(['covered', 'uncovered']);
    expect(worstCovering(covers(pan, picks, { ...rest, longitudinalG: 1.5 }, 0.0035))).toBe('uncovered');
    expect(worstCovering(covers(pan, picks, rest, 0.0035))).toBe('covered');
  });
  it('holds its oil in the picture of several fills', () => {
    const pictures = ggPictures(pan, picks, [0.002, 0.004], {
      verticalG: 1,
      longitudinalG: [-1, 0, 1],
      lateralG: [0, 1],
    });
    expect(pictures.map((p) => [p.oilM3, p.cells.length, p.cells[0]!.length, p.cells[0]![0]!.length])).toEqual([
      [0.002, 3, 2, 2],
      [0.004, 3, 2, 2],
    ]);
    pictures[0]!.cells
      .flat(2)
      .forEach((cover, i) => expect(cover.headMm).toBeLessThanOrEqual(pictures[1]!.cells.flat(2)[i]!.headMm));
    expect(oilSurface(pan, rest, 0.002).kind).toBe('surface');
  });
});
