import { describe, expect, it } from 'vitest';
import clipper from 'clipper2-wasm';
import {
  commonOutlines,
  depthInOutline,
  distanceToOutline,
  isInOutline,
  mirroredOutline,
  movedOutline,
  offsetOutline,
  outlineGap,
  outlinePoints,
  outlineArea,
  roundedPolygon,
  roundOutline,
  segmentGap,
  straightOutline,
} from '../index.ts';
import type { Outline, Point2 } from './outline.ts';
import { seeded, seededOutline } from './seeded-outlines.fixture.ts';

// second: Clipper2 (a general polygon library) on the same outlines cut into chords that stand off by 0.002 mm at most.
const lib = await clipper();
const CHORD = 0.002;
const paths = (...outlines: readonly Outline[]) => {
  const all = new lib.PathsD();
  for (const outline of outlines) {
    const path = new lib.PathD();
    for (const [x, y] of outlinePoints(outline, CHORD)) path.push_back(new lib.PointD(x, y, 0));
    all.push_back(path);
  }
  return all;
};
const sumOf = (outlines: readonly Outline[]): number =>
  outlines.reduce((sum, outline) => sum + outlineArea(outline), 0);
const seeds = Array.from({ length: 60 }, (_, i) => i + 1);

describe('offsets against Clipper2 (an open polygon library) on seeded outlines', () => {
  it.each([-60, -25, -6, -0.5, 0.5, 8, 40])('moved by %d mm they hold the same area', (by) => {
    for (const seed of seeds) {
      const outline = seededOutline(seed);
      const theirs = lib.AreaPathsD(
        lib.InflatePathsD(paths(outline), by, lib.JoinType.Round, lib.EndType.Polygon, 2, 5, CHORD),
      );
      const ours = sumOf(offsetOutline(outline, by));
      // Chords of 0.002 mm over some 2 m of outline.
      expect(Math.abs(ours - theirs), `seed ${seed}: ${ours} against ${theirs}`).toBeLessThan(8);
    }
  });

  it('every point of an offset is at its distance, and a dense walk finds none nearer', () => {
    for (const seed of seeds.slice(0, 12))
      for (const by of [-20, 15]) {
        const outline = seededOutline(seed);
        const walk = outlinePoints(outline, 0.02);
        for (const offset of offsetOutline(outline, by))
          for (const p of outlinePoints(offset, 0.1)) {
            expect(Math.abs(distanceToOutline(outline, p) - Math.abs(by))).toBeLessThan(0.06);
            let least = Infinity;
            for (const q of walk) least = Math.min(least, Math.hypot(p[0] - q[0], p[1] - q[1]));
            expect(least).toBeGreaterThan(Math.abs(by) - 0.06);
          }
      }
  });

  it('a rectangle with round corners inward and out (hand: common mensuration)', () => {
    const rectangle = straightOutline([
      [0, 0],
      [200, 0],
      [200, 100],
      [0, 100],
    ]);
    expect(sumOf(offsetOutline(rectangle, -10))).toBeCloseTo(180 * 80, 6);
    expect(sumOf(offsetOutline(rectangle, 10))).toBeCloseTo(200 * 100 + 600 * 10 + Math.PI * 100, 6);
    expect(offsetOutline(rectangle, -50.001)).toEqual([]);
    expect(sumOf(offsetOutline(roundOutline([5, 5], 30), -29))).toBeCloseTo(Math.PI, 6);
    expect(offsetOutline(roundOutline([5, 5], 30), -31)).toEqual([]);
  });

  it('an hour-glass falls into two', () => {
    const glass = straightOutline([
      [0, 0],
      [100, 0],
      [55, 100],
      [100, 200],
      [0, 200],
      [45, 100],
    ]);
    expect(offsetOutline(glass, -8)).toHaveLength(2);
  });
});

describe('what two outlines have in common, against Clipper2', () => {
  it('holds the same area', () => {
    for (const seed of seeds) {
      const next = seeded(seed + 500);
      const one = seededOutline(seed);
      const other = movedOutline(seededOutline(seed + 1000, 200), [300 * (next() - 0.5), 300 * (next() - 0.5)], next());
      const theirs = lib.AreaPathsD(lib.IntersectD(paths(one), paths(other), lib.FillRule.NonZero, 5));
      expect(Math.abs(sumOf(commonOutlines(one, other)) - theirs), `seed ${seed}`).toBeLessThan(4);
    }
  });

  it('sides on one another count once', () => {
    const square = straightOutline([
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ]);
    expect(sumOf(commonOutlines(square, square))).toBeCloseTo(100, 9);
    expect(sumOf(commonOutlines(square, movedOutline(square, [4, 0])))).toBeCloseTo(60, 9);
    expect(commonOutlines(square, movedOutline(square, [10, 0]))).toEqual([]);
    expect(commonOutlines(square, movedOutline(square, [30, 0]))).toEqual([]);
  });
});

describe('in, and how far, by brute force', () => {
  it('isInOutline agrees with the crossings of a ray through many short chords', () => {
    for (const seed of seeds) {
      const outline = seededOutline(seed);
      const chords = outlinePoints(outline, 0.0005);
      const next = seeded(seed + 77);
      for (let k = 0; k < 60; k++) {
        const p: Point2 = [700 * (next() - 0.5), 700 * (next() - 0.5)];
        if (distanceToOutline(outline, p) < 0.01) continue;
        let isIn = false;
        for (const [i, a] of chords.entries()) {
          const b = chords[(i + 1) % chords.length]!;
          if (a[1] > p[1] !== b[1] > p[1] && p[0] < a[0] + ((p[1] - a[1]) / (b[1] - a[1])) * (b[0] - a[0]))
            isIn = !isIn;
        }
        expect(isInOutline(outline, p), `seed ${seed} ${p.join()}`).toBe(isIn);
      }
    }
  });

  it('gaps are those of two dense walks', () => {
    for (const seed of seeds.slice(0, 12)) {
      const next = seeded(seed + 9);
      const one = seededOutline(seed, 100);
      const other = movedOutline(seededOutline(seed + 300, 60), [190 * next(), 190 * next()], next());
      const [p, q] = [outlinePoints(one, 0.002), outlinePoints(other, 0.002)];
      const dense = (points: readonly Point2[]) =>
        points.flatMap((a, i) => {
          const b = points[(i + 1) % points.length]!;
          const n = Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]));
          return Array.from(
            { length: n },
            (_, k): Point2 => [a[0] + (k / n) * (b[0] - a[0]), a[1] + (k / n) * (b[1] - a[1])],
          );
        });
      let least = Infinity;
      for (const a of dense(p)) for (const b of dense(q)) least = Math.min(least, Math.hypot(a[0] - b[0], a[1] - b[1]));
      const gap = outlineGap(one, other);
      // Points 1 mm apart find a gap of g at most sqrt(g2 + 0.5) wide, or half a millimetre where the two cross.
      expect(gap).toBeLessThanOrEqual(least + 0.003);
      expect(least).toBeLessThan(Math.sqrt(gap * gap + 0.5) + 0.01);
      expect(outlineGap(one, other, 0.9 * gap)).toBe(gap === 0 ? 0 : Infinity);
    }
  });

  it('a stretch beside a circle, and depth either side of it (hand)', () => {
    const circle = roundOutline([0, 0], 10);
    expect(segmentGap(circle, [15, -50], [15, 50])).toBeCloseTo(5, 9);
    expect(segmentGap(circle, [-3, 0], [3, 0])).toBeCloseTo(7, 9);
    expect(segmentGap(circle, [-30, 0], [30, 0])).toBe(0);
    expect(depthInOutline(circle, [4, 3])).toBeCloseTo(5, 9);
    expect(depthInOutline(circle, [9, 12])).toBeCloseTo(-5, 9);
  });
});

describe('round corners and mirrors', () => {
  it('a rounded triangle loses at each corner what is between the corner and its circle (hand)', () => {
    const { outline, corners } = roundedPolygon(
      [
        [0, 0],
        [100, 0],
        [0, 100],
      ],
      10,
    )!;
    const lost = (turn: number): number => 100 * (Math.tan(turn / 2) - turn / 2);
    expect(outlineArea(outline)).toBeCloseTo(5000 - lost(Math.PI / 2) - 2 * lost((3 * Math.PI) / 4), 9);
    for (const { centre } of corners)
      for (const [a, b] of [
        [
          [0, 0],
          [100, 0],
        ],
        [
          [0, 0],
          [0, 100],
        ],
        [
          [100, 0],
          [0, 100],
        ],
      ] as const) {
        const far =
          Math.abs((b[0] - a[0]) * (a[1] - centre[1]) - (a[0] - centre[0]) * (b[1] - a[1])) /
          Math.hypot(b[0] - a[0], b[1] - a[1]);
        expect(far).toBeGreaterThan(10 - 1e-9);
      }
    expect(
      roundedPolygon(
        [
          [0, 0],
          [100, 0],
          [0, 100],
        ],
        30,
      ),
    ).toBeUndefined();
  });

  it('the mirror of an outline holds the mirrored points', () => {
    for (const seed of seeds.slice(0, 20)) {
      const outline = seededOutline(seed);
      const mirror = mirroredOutline(outline);
      expect(outlineArea(mirror)).toBeCloseTo(outlineArea(outline), 6);
      for (const [x, y] of outlinePoints(outline, 0.1)) expect(distanceToOutline(mirror, [-x, y])).toBeLessThan(1e-9);
    }
  });
});
