import { distance, tightestBend, type Vec } from '#geometry';
import { describe, expect, it } from 'vitest';
import { seeded } from '../../test/flow/fluids-for-tests.ts';
import { cablePath, nearestOnPath } from './cable-path.ts';

const L: readonly Vec[] = [
  [0, 0, 0],
  [300, 0, 0],
  [300, 500, 0],
];

describe('a cable through the corners of its path', () => {
  it('has room for a radius as long as its shorter leg in a square corner (hand: tangent = radius)', () => {
    const path = cablePath(L, 100);
    expect(path.largestRadiusMm).toBeCloseTo(300, 9);
    expect(path.bendDeg).toBeCloseTo(90, 9);
    // Legs less two tangents, and a quarter of a circle.
    expect(path.lengthMm).toBeCloseTo(800 - 200 + (Math.PI / 2) * 100, 9);
  });

  it('shares a leg between two corners (hand: two square corners on a leg of 300 have 150 each)', () => {
    const path = cablePath(
      [
        [0, 0, 0],
        [1000, 0, 0],
        [1000, 300, 0],
        [2000, 300, 0],
      ],
      1000,
    );
    expect(path.largestRadiusMm).toBeCloseTo(150, 9);
    expect(path.bendDeg).toBeCloseTo(180, 9);
  });

  it('gives the corner beside a tight one what is left of their leg', () => {
    // First corner held to 100 by its first leg; the second has 400 - 100 of the leg between and 500 behind it.
    const path = cablePath(
      [
        [0, 0, 0],
        [100, 0, 0],
        [100, 400, 0],
        [600, 400, 0],
      ],
      1e6,
    );
    expect(path.largestRadiusMm).toBeCloseTo(100, 9);
    expect(tightestBend(path.pointsMm.flat()).radiusMm).toBeCloseTo(100, 0);
    expect(path.lengthMm).toBeCloseTo(0 + (Math.PI / 2) * 100 + 0 + (Math.PI / 2) * 300 + 200, 6);
  });

  it('goes straight through corners that do not turn, and folds back on nothing', () => {
    expect(
      cablePath(
        [
          [0, 0, 0],
          [100, 0, 0],
          [250, 0, 0],
        ],
        200,
      ),
    ).toMatchObject({ largestRadiusMm: null, bendDeg: 0, lengthMm: 250 });
    expect(
      cablePath(
        [
          [0, 0, 0],
          [100, 0, 0],
          [0, 0, 0.001],
        ],
        200,
      ).largestRadiusMm,
    ).toBeLessThan(0.01);
  });

  it('bends nowhere tighter than it says, ends where it should, and is as long as its points (seed 77)', () => {
    const rng = seeded(77);
    for (let n = 0; n < 40; n++) {
      const corners = Array.from(
        { length: 3 + Math.floor(rng() * 4) },
        (): Vec => [rng() * 2000, rng() * 600, rng() * 400],
      );
      const path = cablePath(corners, 150);
      const radius = Math.min(path.largestRadiusMm!, 150);
      if (radius > 40) expect(tightestBend(path.pointsMm.flat()).radiusMm).toBeGreaterThan(radius * 0.99);
      expect(path.pointsMm[0]).toEqual(corners[0]);
      expect(path.pointsMm.at(-1)).toEqual(corners.at(-1));
      const along = path.pointsMm.slice(1).reduce((sum, at, i) => sum + distance(at, path.pointsMm[i]!), 0);
      expect(along).toBeLessThanOrEqual(path.lengthMm + 1e-6);
      expect(along).toBeGreaterThan(path.lengthMm * 0.999);
      const through = nearestOnPath(path.pointsMm, corners[1]!);
      expect(Math.min(...path.pointsMm.map((at) => distance(at, corners[1]!)))).toBeGreaterThanOrEqual(
        through.offMm - 1e-9,
      );
    }
  });
});
