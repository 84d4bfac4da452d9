import { describe, expect, it } from 'vitest';
import { arcPath, arcStep, subdivided } from './arc-path.ts';
import { denseCurve } from './dense-curve.ts';
import { fixedPose } from './end-pose.ts';
import { carriedAlong, directionsAlong, endToEndDeg } from './path-frame.ts';
import { refined } from './refine.ts';
import { rodShape } from './rod.ts';
import { polylineLength, resampled } from './spread.ts';
import { tightestBend } from './tightest-bend.ts';
import { dot, norm, sub, type Vec } from './vec.ts';

const joined = (...parts: Float64Array[]): Float64Array =>
  Float64Array.from(parts.flatMap((p, i) => [...(i === 0 ? p : p.slice(3))]));
const end = (p: Float64Array): Vec => [p.at(-3)!, p.at(-2)!, p.at(-1)!];

describe('the turn from end to end (hand: a wire bent with the fingers, worked in words)', () => {
  const up: Vec = [0, 0, 1];
  const down: Vec = [0, 0, -1];
  const straight = [0, 0, 0, 100, 0, 0, 200, 0, 0, 300, 0, 0];

  it('on a straight hose is the plain angle, clockwise looking along it', () => {
    // Looking along +x with z up, the right hand is -y.
    expect(endToEndDeg(straight, up, up)).toBeCloseTo(0, 9);
    expect(endToEndDeg(straight, up, [0, -1, 0])).toBeCloseTo(90, 9);
    expect(endToEndDeg(straight, up, down)).toBeCloseTo(180, 9);
    expect(endToEndDeg(straight, up, [0, 1, 0])).toBeCloseTo(270, 9);
  });

  it('is none where an end is straight', () => {
    expect(endToEndDeg(straight, [-1, 0, 0], up)).toBeNull();
    expect(endToEndDeg(straight, up, [1, 0, 0])).toBeNull();
  });

  it('in a planar quarter bend keeps what is square to the plane, and turns what lies in it with the bend', () => {
    const { points } = arcPath([0, 0, 0], [1, 0, 0], [0, 1, 0], 100, Math.PI / 2);
    expect(endToEndDeg(points, up, up)).toBeCloseTo(0, 4);
    // An end that faces the inside of the bend (+y at the start) comes out facing the inside there: -x.
    expect(endToEndDeg(points, [0, 1, 0], [-1, 0, 0])).toBeCloseTo(0, 4);
    expect(endToEndDeg(points, [0, 1, 0], up)).toBeCloseTo(90, 4);
  });

  it('over two bends in different planes follows the fingers: up, then to the side', () => {
    // Along +x, bend up to +z, then bend towards +y. Facing +y stays +y through the first; the second turns +y into -z.
    const first = arcPath([0, 0, 0], [1, 0, 0], up, 80, Math.PI / 2);
    const second = arcPath(end(first.points), first.direction, [0, 1, 0], 80, Math.PI / 2);
    const points = joined(first.points, second.points);
    expect(endToEndDeg(points, [0, 1, 0], down, [1, 0, 0], [0, 1, 0])).toBeCloseTo(0, 4);
    // Facing up at the start turns to -x in the first bend and keeps it in the second.
    expect(endToEndDeg(points, up, [-1, 0, 0], [1, 0, 0], [0, 1, 0])).toBeCloseTo(0, 4);
    // Looking along +y with -z as start, a quarter clockwise (right-handed about +y: z to x, so -z to -x).
    expect(endToEndDeg(points, [0, 1, 0], [-1, 0, 0], [1, 0, 0], [0, 1, 0])).toBeCloseTo(90, 4);
  });

  it('on a helix lags by the turns times one less the sine of its pitch (hand: a circle of directions on the sphere)', () => {
    const [radius, rise, turns] = [50, 60, 1.5];
    const length = Math.hypot(radius, rise / (2 * Math.PI));
    const points: number[] = [];
    const at = (a: number): Vec => [radius * Math.cos(a), radius * Math.sin(a), (rise * a) / (2 * Math.PI)];
    const along = (a: number): Vec => [
      (-radius * Math.sin(a)) / length,
      (radius * Math.cos(a)) / length,
      rise / (2 * Math.PI) / length,
    ];
    const inwards = (a: number): Vec => [-Math.cos(a), -Math.sin(a), 0];
    const last = 2 * Math.PI * turns;
    for (let i = 0; i <= 300; i++) points.push(...at((last * i) / 300));
    const torsion = rise / (2 * Math.PI) / length ** 2;
    const expected = ((torsion * length * last * 180) / Math.PI) % 360;
    expect(endToEndDeg(points, inwards(0), inwards(last), along(0), along(last))).toBeCloseTo(expected, 1);
  });

  it('carries unit vectors square to the curve', () => {
    const { points } = arcPath([0, 0, 0], [1, 0, 0], [0, 1, 1], 40, 2.5);
    const directions = directionsAlong(points);
    carriedAlong(points, directions, [0, 0, 1]).forEach((r, i) => {
      expect(norm(r)).toBeCloseTo(1, 12);
      expect(Math.abs(dot(r, directions[i]!))).toBeLessThan(1e-12);
    });
  });
});

describe('points of an arc', () => {
  it('lie on it, at most 3 mm apart, the chords within 0.05 mm (hand)', () => {
    for (const radius of [8, 22, 30, 120]) {
      const { points, direction } = arcPath([10, 20, 30], [0, 0, 1], [1, 0, 5], radius, (2 * Math.PI) / 3);
      const chord = polylineLength(points.subarray(0, 6));
      expect(chord).toBeLessThanOrEqual(3);
      expect(radius - Math.sqrt(radius ** 2 - (chord / 2) ** 2)).toBeLessThanOrEqual(0.05);
      expect(chord).toBeLessThanOrEqual(arcStep(radius));
      const centre: Vec = [10 + radius, 20, 30];
      for (let i = 0; i < points.length; i += 3) {
        expect(norm(sub([points[i]!, points[i + 1]!, points[i + 2]!], centre))).toBeCloseTo(radius, 9);
      }
      expect(end(points)[0]).toBeCloseTo(10 + radius * 1.5, 9);
      expect(direction[2]).toBeCloseTo(-0.5, 12);
    }
  });
});

describe('steps along a polyline', () => {
  it('are even and keep both ends', () => {
    const p = resampled([0, 0, 0, 10, 0, 0, 10, 7, 0], 2);
    expect([...p.slice(0, 3), ...p.slice(-3)]).toEqual([0, 0, 0, 10, 7, 0]);
    expect(p.length / 3).toBe(10);
  });

  it('are added on long pieces only, moving nothing', () => {
    expect([...subdivided([0, 0, 0, 4, 0, 0, 5, 0, 0], 2)]).toEqual([0, 0, 0, 2, 0, 0, 4, 0, 0, 5, 0, 0]);
  });
});

describe('the tightest bend', () => {
  it('of an arc between straights is the arc (exact points, hand)', () => {
    for (const radius of [30, 76, 140]) {
      const arc = arcPath([50, 0, 0], [1, 0, 0], [0, 1, 0], radius, 1.2);
      const far = end(arc.points);
      const out: Vec = [far[0] + 60 * arc.direction[0], far[1] + 60 * arc.direction[1], 0];
      const points = joined(subdivided([0, 0, 0, 50, 0, 0], 3), arc.points, subdivided([...far, ...out], 3));
      expect(tightestBend(points).radiusMm / radius).toBeCloseTo(1, 6);
    }
  });

  it('of a straight is none', () => {
    expect(tightestBend(subdivided([0, 0, 0, 50, 0, 0], 3)).radiusMm).toBe(Infinity);
    expect(tightestBend([0, 0, 0, 50, 0, 0]).radiusMm).toBe(Infinity);
  });

  it('of a refined curve at 3 mm is the limit it was given', () => {
    const way = refined({
      a: fixedPose([0, 0, 0], [1, 0, 0]),
      b: fixedPose([200, 250, 0], [1, 0, 0]),
      minBendRadiusMm: 70,
      seed: [0, 0, 0, 200, 250, 0],
      stepMm: 3,
    });
    expect(way.ok).toBe(true);
    const bend = tightestBend(way.points).radiusMm;
    expect(bend).toBeGreaterThan(70 * 0.999);
    expect(bend).toBeLessThan(70 * 1.01);
  });
});

describe("a dense curve through a rod's knots", () => {
  const problem = {
    a: { point: [0, 0, 0] as Vec, direction: [1, 0, 0] as Vec },
    b: { point: [300, 120, 80] as Vec, direction: [0, 0.6, 0.8] as Vec },
    lengthMm: 420,
    start: [0, 0, 0, 150, 0, 0, 300, 120, 80],
  };
  const coarse = rodShape({ ...problem, stepMm: 10 });
  const dense = denseCurve(coarse.points, problem.a.direction, problem.b.direction);

  it('is at most 3 mm apart, keeps the knots and the directions at the ends', () => {
    for (let i = 3; i < dense.length; i += 3)
      expect(polylineLength(dense.slice(i - 3, i + 3))).toBeLessThanOrEqual(3.01);
    const first = directionsAlong(dense)[0]!;
    const last = directionsAlong(dense).at(-1)!;
    expect(dot(first, problem.a.direction)).toBeGreaterThan(1 - 2e-6);
    expect(dot(last, problem.b.direction)).toBeGreaterThan(1 - 2e-6);
  });

  it('bends no tighter than the rod by over 0.5 % (second: the same rod at a fifth of the step)', () => {
    const fine = rodShape({ ...problem, stepMm: 2 });
    expect(tightestBend(dense, 4).radiusMm * fine.worstCurvature).toBeGreaterThan(0.995);
  });

  it('is within 0.05 mm of an arc whose knots are 10 mm apart (hand)', () => {
    const radius = 100;
    const turn = 1.4;
    const knots = arcPath([0, 0, 0], [1, 0, 0], [0, 1, 0], radius, turn, 1, 10).points;
    const curve = denseCurve(knots, [1, 0, 0], [Math.cos(turn), Math.sin(turn), 0]);
    for (let i = 0; i < curve.length; i += 3)
      expect(Math.abs(Math.hypot(curve[i]!, curve[i + 1]! - radius) - radius)).toBeLessThan(0.002);
    expect(tightestBend(curve, 4).radiusMm).toBeGreaterThan(radius * 0.995);
  });
});
