import { describe, expect, it } from 'vitest';
import { DenseBody } from '../../test/geometry/dense-body.ts';
import { seededBody } from '../../test/geometry/seeded-bodies.ts';
import { chance } from '../../test/geometry/seeded-meshes.ts';
import type { Body } from './body.ts';
import { bodyBodyGap, bodyField, pathsGap } from './body-body.ts';
import { LineObstacles } from './line-obstacles.ts';
import type { Vec } from './vec.ts';

const moved = (body: Body, by: Vec): Body => ({ ...body, path: body.path.map((v, i) => v + by[i % 3]!) });
const straight = (from: Vec, to: Vec, radiusMm: number): Body => ({
  part: 'hose',
  path: Float64Array.of(...from, ...to),
  radiusMm,
});

/** Distance from a place to a body, by its pieces and mitres one after another: 0 inside. */
function plainDistance(body: Body, x: Vec): number {
  const p = body.path;
  let least = Infinity;
  let before: Vec | null = null;
  for (let i = 0; i + 5 < p.length; i += 3) {
    const w: Vec = [x[0] - p[i]!, x[1] - p[i + 1]!, x[2] - p[i + 2]!];
    const d: Vec = [p[i + 3]! - p[i]!, p[i + 4]! - p[i + 1]!, p[i + 5]! - p[i + 2]!];
    const length = Math.hypot(...d);
    const t: Vec = [d[0] / length, d[1] / length, d[2] / length];
    const z = w[0] * t[0] + w[1] * t[1] + w[2] * t[2];
    const off = Math.sqrt(Math.max(0, Math.hypot(...w) ** 2 - z * z));
    const past = Math.max(0, -z, z - length);
    least = Math.min(least, Math.hypot(past, Math.max(0, off - body.radiusMm)));
    if (before !== null && w[0] * before[0] + w[1] * before[1] + w[2] * before[2] >= 0 && z <= 0)
      least = Math.min(least, Math.max(0, Math.hypot(...w) - body.radiusMm));
    before = t;
  }
  return least;
}

describe('body to body', () => {
  for (const kind of [0, 1, 2, 3, 4])
    it(`against dense sampling (second method): kind ${kind} to each kind, seeds 1 to 4`, () => {
      for (const other of [0, 2, 4])
        for (let seed = 1; seed <= 4; seed++) {
          const draw = chance(900 + 100 * kind + 10 * other + seed);
          const a = seededBody(kind, draw);
          const b = moved(seededBody(other, draw), [draw(-150, 150), draw(-150, 150), draw(-150, 150)]);
          const gap = bodyBodyGap(a, b);
          const oracle = new DenseBody(a).least((x, y, z) => plainDistance(b, [x, y, z]), kind === 3 ? 12 : 8, 6);
          const label = `other ${other}, seed ${seed}, gap ${gap.gapMm}`;
          if (oracle < 0.02) {
            expect(gap.gapMm, label).toBeLessThan(0.05);
            continue;
          }
          expect(gap.gapMm, label).toBeLessThanOrEqual(oracle + 0.05);
          expect(gap.gapMm, label).toBeGreaterThan(oracle - 0.1);
          expect(new DenseBody(a).holds(gap.at), label).toBe(true);
          expect(new DenseBody(b).holds(gap.on, 1e-5), label).toBe(true);
          expect(Math.hypot(gap.at[0] - gap.on[0], gap.at[1] - gap.on[1], gap.at[2] - gap.on[2]), label).toBeCloseTo(
            gap.gapMm,
            4,
          );
        }
    });
  it('either way round the same', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const draw = chance(seed);
      const a = seededBody(seed % 5, draw);
      const b = moved(seededBody((seed + 2) % 5, draw), [draw(-90, 90), draw(-90, 90), draw(-90, 90)]);
      const [ab, ba] = [bodyBodyGap(a, b).gapMm, bodyBodyGap(b, a).gapMm];
      expect(Math.abs(ab - ba), `seed ${seed}: ${ab} and ${ba}`).toBeLessThan(ab > 0 ? 0.06 : 0.3);
    }
  });
  it('hand: crossing square at 40 mm, radii 15 and 10: 15', () => {
    expect(
      bodyBodyGap(straight([-50, 0, 0], [50, 0, 0], 15), straight([0, -50, 40], [0, 50, 40], 10)).gapMm,
    ).toBeCloseTo(15, 1);
  });
  it('hand: two flat ends 5 mm apart: 5; meeting: 0', () => {
    expect(bodyBodyGap(straight([0, 0, 0], [50, 0, 0], 15), straight([55, 0, 0], [90, 0, 0], 10)).gapMm).toBeCloseTo(
      5,
      2,
    );
    expect(bodyBodyGap(straight([0, 0, 0], [50, 0, 0], 15), straight([50, 0, 0], [90, 0, 0], 20)).gapMm).toBeCloseTo(
      0,
      2,
    );
  });
  it('hand: side by side 30 apart, radius 16 both: overlap 2', () => {
    expect(bodyBodyGap(straight([0, 0, 0], [90, 0, 0], 16), straight([0, 30, 0], [90, 30, 0], 16)).gapMm).toBeCloseTo(
      -2,
      1,
    );
  });
});

describe('a body to measure from', () => {
  it('against all its pieces one after another (second method)', () => {
    for (let seed = 1; seed <= 40; seed++) {
      const draw = chance(seed);
      const body = seededBody(seed % 5, draw);
      const field = bodyField(body);
      for (let k = 0; k < 25; k++) {
        const x: Vec = [draw(-200, 200), draw(-200, 200), draw(-200, 200)];
        const plain = plainDistance(body, x);
        const d = field.distance(...x);
        expect(Math.max(0, d)).toBeCloseTo(plain, 9);
        if (d < 0) continue;
        const on = field.closest(...x).point;
        expect(Math.hypot(x[0] - on[0], x[1] - on[1], x[2] - on[2])).toBeCloseTo(plain, 9);
      }
    }
  });
  it('hand: inside, 3 mm under a flat end and 15 from the side: 3 deep; in the middle the radius', () => {
    const field = bodyField(straight([0, 0, 0], [100, 0, 0], 15));
    expect(field.distance(3, 0, 0)).toBeCloseTo(-3, 9);
    expect(field.distance(50, 0, 0)).toBeCloseTo(-15, 9);
    expect(field.distance(50, 11, 0)).toBeCloseTo(-4, 9);
  });
});

describe('lines as obstacles', () => {
  const draw = chance(5);
  const lines = new Map(
    Array.from({ length: 12 }, (_, i) => [`L${i}`, [seededBody(3, draw), seededBody(2, draw)]] as const),
  );
  const obstacles = new LineObstacles();
  for (const [id, bodies] of lines) obstacles.add(id, bodies);

  it('reads the distance to round-ended surfaces (second method: all pieces) and the way off', () => {
    for (let k = 0; k < 200; k++) {
      const x: Vec = [draw(-200, 200), draw(-200, 200), draw(-200, 200)];
      let plain = Infinity;
      for (const bodies of lines.values())
        for (const b of bodies)
          for (let i = 0; i + 5 < b.path.length; i += 3) {
            const d = [0, 1, 2].map((c) => b.path[i + 3 + c]! - b.path[i + c]!);
            const s =
              d.reduce((sum, v, c) => sum + v * (x[c]! - b.path[i + c]!), 0) / d.reduce((sum, v) => sum + v * v, 0);
            const t = Math.min(1, Math.max(0, s));
            plain = Math.min(plain, Math.hypot(...d.map((v, c) => x[c]! - b.path[i + c]! - t * v)) - b.radiusMm);
          }
      expect(obstacles.distance(...x)).toBeCloseTo(plain, 9);
      const near = obstacles.nearest(...x)!;
      expect(near.distance).toBeCloseTo(plain, 9);
      const e = 1e-4;
      const there = obstacles.distance(
        x[0] + e * near.gradient[0],
        x[1] + e * near.gradient[1],
        x[2] + e * near.gradient[2],
      );
      expect((there - plain) / e).toBeCloseTo(1, 2);
      expect(obstacles.distance(...x, 5)).toBeCloseTo(Math.min(5, plain), 9);
    }
  });
  it('leaves out what is taken away or passed over', () => {
    const x: Vec = [lines.get('L3')![0]!.path[0]!, lines.get('L3')![0]!.path[1]!, lines.get('L3')![0]!.path[2]!];
    expect(obstacles.distance(...x)).toBeLessThan(0);
    const only = new LineObstacles();
    only.add('L3', lines.get('L3')!);
    expect(only.distance(...x, Infinity, new Set(['L3']))).toBe(Infinity);
    only.remove('L3');
    expect(only.nearest(...x)).toBeNull();
  });
  it('gives the exact gap to each line within reach', () => {
    const bodies = [straight([-300, 0, 150], [300, 0, 150], 10)];
    const rows = obstacles.gaps(bodies, 100);
    for (const [id, other] of lines) {
      const gap = pathsGap(bodies, other);
      const row = rows.find((r) => r.id === id);
      expect(row === undefined ? gap.gapMm >= 100 : Math.abs(row.gapMm - gap.gapMm) < 0.06, id).toBe(true);
    }
  });
});
