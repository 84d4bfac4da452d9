import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { Euler, Matrix4, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { motionAbout, movedPoint, rotationFromDeg } from '#geometry';
import { placeByPoints, type PointPair } from './place-by-points.ts';

type Triple = readonly [number, number, number];
const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8];

/** Turned by three's own angles (second): its order "ZYX" turns about X first, then Y, then Z, all about fixed axes. */
function placedByThree(point: Triple, turnDeg: Triple, atMm: Triple): Triple {
  const [x, y, z] = turnDeg.map((deg) => (deg * Math.PI) / 180) as unknown as Triple;
  const turn = new Matrix4().makeRotationFromEuler(new Euler(x, y, z, 'ZYX'));
  return new Vector3(...point)
    .applyMatrix4(turn)
    .add(new Vector3(...atMm))
    .toArray() as Triple;
}

function scattered(seed: number, count: number): Triple[] {
  const random = xoroshiro128plus(seed);
  const one = (): number => (uniformFloat64(random) - 0.5) * 800;
  return Array.from({ length: count }, () => [one(), one(), one()]);
}

const TURN: Triple = [30, -50, 120];
const AT: Triple = [1480, -20, 190];
const pairsOf = (points: readonly Triple[], place: (p: Triple) => Triple): PointPair[] =>
  points.map((scan) => ({ scan, car: place(scan) }));

describe('placeByPoints', () => {
  it.each(SEEDS)('finds the motion that three points were placed by, seed %i', (seed) => {
    const random = xoroshiro128plus(seed + 100);
    const turn: Triple = [0, 1, 2].map(
      (axis) => (uniformFloat64(random) - 0.5) * (axis === 1 ? 178 : 358),
    ) as unknown as Triple;
    const found = placeByPoints(pairsOf(scattered(seed, 3), (p) => placedByThree(p, turn, AT)));
    if (!found.ok) throw new Error(found.fault);
    found.turnDeg.forEach((deg, axis) => expect(deg).toBeCloseTo(turn[axis] ?? 0, 8));
    found.atMm.forEach((mm, axis) => expect(mm).toBeCloseTo(AT[axis] ?? 0, 7));
    expect(found.rmsMm).toBeLessThan(1e-9);
    expect(found.scale).toBeCloseTo(1, 12);
    expect(found.warnings).toEqual([]);
  });

  it('gives angles that the rest of the program turns by in the same order', () => {
    const points = scattered(9, 4);
    const found = placeByPoints(pairsOf(points, (p) => placedByThree(p, TURN, AT)));
    if (!found.ok) throw new Error(found.fault);
    const { rows } = rotationFromDeg(found.turnDeg);
    for (const point of points) {
      const [x, y, z] = movedPoint({ rows, shift: found.atMm }, point);
      placedByThree(point, TURN, AT).forEach((value, axis) => expect([x, y, z][axis]).toBeCloseTo(value, 7));
    }
  });

  it.each([90, -90])('turned %i deg about Y, where X and Z turn about one axis', (deg) => {
    const points = scattered(10, 5);
    const found = placeByPoints(pairsOf(points, (p) => placedByThree(p, [20, deg, 70], AT)));
    if (!found.ok) throw new Error(found.fault);
    for (const point of points) {
      placedByThree(point, found.turnDeg, found.atMm).forEach((value, axis) =>
        expect(value).toBeCloseTo(placedByThree(point, [20, deg, 70], AT)[axis] ?? 0, 4),
      );
    }
  });

  it('balances measuring errors: no small turn or shift fits better, and the misses are told', () => {
    const random = xoroshiro128plus(11);
    const noisy = pairsOf(
      scattered(12, 6),
      (p) => placedByThree(p, TURN, AT).map((v) => v + (uniformFloat64(random) - 0.5) * 6) as unknown as Triple,
    );
    const found = placeByPoints(noisy);
    if (!found.ok) throw new Error(found.fault);
    const misfit = (turn: Triple, at: Triple): number =>
      noisy.reduce(
        (sum, { scan, car }) =>
          sum + new Vector3(...placedByThree(scan, turn, at)).distanceToSquared(new Vector3(...car)),
        0,
      );
    const best = misfit(found.turnDeg, found.atMm);
    expect(Math.sqrt(best / 6)).toBeCloseTo(found.rmsMm, 9);
    for (let k = 0; k < 200; k++) {
      const nudged = (by: number, values: Triple): Triple =>
        values.map((v) => v + (uniformFloat64(random) - 0.5) * by) as unknown as Triple;
      expect(misfit(nudged(0.05, found.turnDeg), nudged(0.5, found.atMm))).toBeGreaterThan(best);
    }
  });

  it('names the pair that was measured wrong', () => {
    const pairs = pairsOf(scattered(13, 6), (p) => placedByThree(p, TURN, AT));
    const wrong = pairs.map((pair, i) =>
      i === 3 ? { ...pair, car: [pair.car[0] + 60, pair.car[1], pair.car[2]] as Triple } : pair,
    );
    const found = placeByPoints(wrong);
    expect(found.ok && found.warnings.join()).toMatch(/pair 4 misses by \d+\.\d mm: measure it again/);
  });

  it.each([
    [25.4, 'is the scan in inches, not millimetres?'],
    [1000, 'is the scan in metres, not millimetres?'],
    [0.1, 'is the scan in millimetres, not centimetres?'],
    [1.37, 'is the unit right, and does each pair name one point?'],
  ])('refuses a scan that is out by %f times', (times, hint) => {
    const found = placeByPoints(
      pairsOf(scattered(14, 4), (p) => placedByThree(p.map((v) => v * times) as unknown as Triple, TURN, AT)),
    );
    expect(found.ok ? '' : found.fault).toContain(hint);
  });

  it('says so when scan and car differ a little in size', () => {
    const found = placeByPoints(
      pairsOf(scattered(15, 4), (p) => placedByThree(p.map((v) => v * 1.02) as unknown as Triple, TURN, AT)),
    );
    expect(found.ok && found.warnings.join()).toContain('the scan measures -2.0 % against the car');
  });

  it('refuses a mirror image', () => {
    const found = placeByPoints(pairsOf(scattered(16, 5), ([x, y, z]) => placedByThree([x, -y, z], TURN, AT)));
    expect(found.ok ? '' : found.fault).toContain('mirror image');
  });

  it('takes points in one plane, which fit a turn as well as a mirror image', () => {
    const flat = scattered(17, 4).map(([x, y]): Triple => [x, y, 0]);
    const found = placeByPoints(pairsOf(flat, (p) => placedByThree(p, TURN, AT)));
    if (!found.ok) throw new Error(found.fault);
    found.turnDeg.forEach((deg, axis) => expect(deg).toBeCloseTo(TURN[axis] ?? 0, 8));
  });

  it.each([
    [
      'two points',
      [
        [0, 0, 0],
        [100, 0, 0],
      ],
      'pairs: 2; allowed: three or more, not on one line',
    ],
    [
      'points on one line',
      [
        [0, 0, 0],
        [100, 1, 0],
        [250, 0, 1],
      ],
      'pairs: the scan points lie on one line (0.5 mm to its side); allowed: points at least 5 mm and 2 % to the side of it',
    ],
    [
      'one point three times',
      [
        [1, 2, 3],
        [1, 2, 3],
        [1, 2, 3],
      ],
      'pairs: the scan points lie on one line (0.0 mm to its side); allowed: points at least 5 mm and 2 % to the side of it',
    ],
    [
      'no number',
      [
        [0, 0, 0],
        [100, Number.NaN, 0],
        [0, 50, 0],
      ],
      'pairs[1]: a coordinate that is not a finite number; allowed: x, y, z in millimetres',
    ],
  ] as const)('refuses %s', (_, points, fault) => {
    expect(placeByPoints(pairsOf(points as unknown as Triple[], (p) => p))).toEqual({ ok: false, fault });
  });

  it('the motion about a pivot is told from one about the origin', () => {
    const motion = motionAbout([100, 0, 0], [0, 0, 1], Math.PI / 2);
    const found = placeByPoints(pairsOf(scattered(18, 3), (p) => movedPoint(motion, p)));
    if (!found.ok) throw new Error(found.fault);
    // hand: a quarter turn about a vertical through (100, 0) sends the origin to (100, -100)
    [100, -100, 0].forEach((mm, axis) => expect(found.atMm[axis]).toBeCloseTo(mm, 8));
  });
});
