import { describe, expect, it } from 'vitest';
import type { Shape } from './drawing.ts';
import { gapRuler, type Gauge, gaugeWords, standing } from './gap-ruler.ts';
import { labelBoxes } from './label-boxes.ts';

const at200 = { width: 200, size: 13, unit: 'px' } as const;
const gap = (nominal: number, worst: number, best: number, limit: number): Gauge => ({
  nominal,
  worst,
  best,
  limit,
  unit: 'mm',
});
const kinds = (shapes: readonly Shape[], kind: Shape['kind']) => shapes.filter((shape) => shape.kind === kind);

describe('the gap ruler', () => {
  it('stands where the numbers are: worked by hand', () => {
    // 66 mm at best on a limit of 50: the reach is the greater of 75 and 66, with an eighth of room 84, rounded up 100. At 200 px
    // and 13 px text the scale runs from 7.15 to 192.85: 50 is in the middle, 58 is 7.15 + 185.7 * 0.58 = 114.856.
    const { shapes } = gapRuler(gap(58, 50, 66, 50), at200);
    const dot = kinds(shapes, 'circle')[0] as Extract<Shape, { kind: 'circle' }>;
    expect(dot.centre[0]).toBeCloseTo(114.856, 3);
    const post = kinds(shapes, 'line').find(
      (line) => line.kind === 'line' && line.from[0] === line.to[0] && line.pen.role === 'ink' && line.pen.width > 2,
    ) as Extract<Shape, { kind: 'line' }>;
    expect(post.from[0]).toBeCloseTo(100, 6);
    const dead = kinds(shapes, 'rect')[0] as Extract<Shape, { kind: 'rect' }>;
    expect([dead.at[0], dead.at[0] + dead.width]).toEqual([expect.closeTo(7.15, 6), expect.closeTo(100, 6)]);
    const whisker = kinds(shapes, 'line')[2] as Extract<Shape, { kind: 'line' }>;
    expect([whisker.from[0], whisker.to[0]]).toEqual([expect.closeTo(100, 6), expect.closeTo(129.712, 3)]);
  });

  it('shades the other side where the limit is a most', () => {
    const { shapes } = gapRuler({ ...gap(95, 99, 90, 110), unit: '°C', side: 'most' }, at200);
    const dead = kinds(shapes, 'rect')[0] as Extract<Shape, { kind: 'rect' }>;
    expect(dead.at[0] + dead.width).toBeCloseTo(192.85, 6);
    expect(standing({ ...gap(95, 112, 90, 110), side: 'most' })).toBe('close');
    expect(standing({ ...gap(111, 112, 90, 110), side: 'most' })).toBe('broken');
  });

  it('tells the three standings by shape, not only by colour', () => {
    const corners = (gauge: Gauge) =>
      kinds(gapRuler(gauge, at200).shapes, 'polyline').map((shape) => shape.kind === 'polyline' && shape.points.length);
    expect(standing(gap(58, 50, 66, 50))).toBe('clear');
    expect(corners(gap(58, 50, 66, 50))).toEqual([]);
    expect(standing(gap(58, 49, 66, 50))).toBe('close');
    expect(corners(gap(58, 49, 66, 50))).toEqual([4]);
    expect(standing(gap(36, 28, 44, 50))).toBe('broken');
    expect(corners(gap(36, 28, 44, 50))).toEqual([3]);
  });

  it('prints enough digits to tell a value from its limit', () => {
    expect(gaugeWords(gap(49.7, 45, 55, 50))).toMatch(
      /^49\.7 mm, 45\.0 to 55\.0; wants at least 50 mm: beyond the limit$/,
    );
    expect(gaugeWords(gap(58, 50, 66, 50))).toMatch(/^58 mm, 50 to 66; wants at least 50 mm: clear/);
  });

  it.each([
    gap(58, 50, 66, 50),
    gap(-7.13, -20, 4, 6),
    gap(100_000, 100_000, 100_000, 115),
    gap(0, 0, 0, 0),
    gap(-3, -5, -1, 0),
    gap(0.004, 0.001, 0.01, 0.005),
    { ...gap(905, 950, 880, 1000), unit: '°C', side: 'most' } as const,
  ])('keeps its marks and words on a strip of 200 px: %o', (gauge) => {
    const { shapes, height } = gapRuler(gauge, at200);
    const drawing = gapRuler(gauge, at200);
    for (const label of labelBoxes(drawing)) {
      expect(label.left).toBeGreaterThanOrEqual(-1e-9);
      expect(label.right).toBeLessThanOrEqual(200 + 1e-9);
      expect(label.bottom).toBeLessThanOrEqual(height);
    }
    for (const shape of shapes)
      if (shape.kind === 'line')
        for (const [x] of [shape.from, shape.to]) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(200);
        }
  });
});
