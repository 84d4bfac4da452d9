import { describe, expect, it } from 'vitest';
import { couplerLength } from './coupler.ts';
import { supportPlaces } from './supports.ts';
import { tubeRule } from './tube-rule.ts';
import { builtInTubes } from '#standards';

const hose = { odMm: 48, minBendRadiusMm: 115 };

describe('a straight coupler', () => {
  it('shows 40 mm or one diameter where nothing moves', () => {
    const still = { sidewaysMm: 0, endwaysMm: 0, angleRad: 0 };
    expect(couplerLength(hose, still)).toBe(50);
    expect(couplerLength({ odMm: 20, minBendRadiusMm: 60 }, still)).toBe(40);
  });

  it('is long enough to step aside on two arcs of its least radius', () => {
    const lengthMm = couplerLength(hose, { sidewaysMm: 10, endwaysMm: 0, angleRad: 0 });
    // hand: two arcs of 115 over angle b each step 2 R (1 - cos b) = 10 aside on 2 R b of hose: b = 0.2963, 68.1 mm.
    const b = Math.acos(1 - 10 / (2 * 115));
    expect(lengthMm).toBeGreaterThanOrEqual(2 * 115 * b - 0.6);
    expect(lengthMm).toBeLessThan(2 * 115 * b + 5);
  });

  it('gives endways by a tenth of what shows', () => {
    expect(couplerLength(hose, { sidewaysMm: 0, endwaysMm: 8, angleRad: 0 })).toBe(80);
  });
});

describe('supports', () => {
  it('stand no farther apart than asked, and near an end on soft hose', () => {
    const corners = [
      [0, 0, 0],
      [2000, 0, 0],
    ] as const;
    const stiff = supportPlaces(corners, 76, 610, [false, false]).map((p) => p[0]);
    // hand: four bays of 500 on 2000 mm.
    expect(stiff).toEqual([500, 1000, 1500]);
    const soft = supportPlaces(corners, 76, 610, [true, true]).map((p) => Math.round(p[0]));
    expect(soft).toEqual([100, 700, 1300, 1900]);
  });

  it('stand on straights, beside a bend where the distance would have them in it', () => {
    const places = supportPlaces(
      [
        [0, 0, 0],
        [300, 0, 0],
        [300, 300, 0],
      ],
      76,
      280,
      [false, false],
    );
    for (const [x, y] of places) expect(Math.min(Math.abs(y), Math.abs(x - 300))).toBeLessThan(1e-9);
    for (const [x, y] of places) expect(y === 0 ? x <= 224 : y >= 76).toBe(true);
  });
});

describe('what a bender can do with a tube', () => {
  it('is read off the row of its diameter and material', () => {
    const rule = tubeRule({ odMm: 19, wallMm: 0.9, bendRadiusMm: 57, material: 'stainless' }, { tubes: builtInTubes });
    expect(rule.row?.id).toBe('tube-stainless-12');
    expect(rule.radiusMm).toBe(57);
  });

  it('is common practice by the diameter where there is none', () => {
    const rule = tubeRule({ odMm: 42, wallMm: 2, bendRadiusMm: 100 }, { tubes: builtInTubes });
    expect([rule.betweenMm, rule.clampMm, rule.row]).toEqual([63, 84, undefined]);
  });
});
