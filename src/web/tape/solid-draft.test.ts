import { describe, expect, it } from 'vitest';
import type { Car } from '#car';
import { emptySolid, shapeOfDraft, shapeWords, type SolidDraft } from './solid-draft.ts';

const car: Car = { fairlead: 1, parts: [], movers: [], lines: [] };
const at = { ...emptySolid.place, far: ['1000 mm', '200 mm', '50 mm'] as const };
const made = (draft: Partial<SolidDraft>) => shapeOfDraft(car, { ...emptySolid, place: at, ...draft }, 'mm')?.shape;

describe('plain solids by dimensions and place', () => {
  // hand: 400 long, 200 wide, 100 tall, the middle of its underside at (1000, 200, 50): X 800 to 1200, Y 100 to 300, Z 50 to 150.
  it('a box by the middle of its underside', () => {
    expect(made({ size: ['400', '200', '100'] })).toEqual({ box: { minMm: [800, 100, 50], maxMm: [1200, 300, 150] } });
  });

  // hand: its lowest corner at the front left is that point itself; X rearward, so the box runs to (1400, 400, 150).
  it('a box by its lowest corner, front left', () => {
    expect(made({ size: ['400', '200', '100'], anchor: 'corner' })).toEqual({
      box: { minMm: [1000, 200, 50], maxMm: [1400, 400, 150] },
    });
  });

  // hand: 7 in = 177.8 mm across, radius 88.9; 480 tall from Z 50 to 530.
  it('a cylinder stands on its underside', () => {
    expect(made({ kind: 'cylinder', diameter: '7 in', length: '480' })).toEqual({
      cylinder: { fromMm: [1000, 200, 50], toMm: [1000, 200, 530], radiusMm: 88.9 },
    });
  });

  // hand: lying across, 300 long from Y 50 to 350, its underside at Z 50, so its axis at Z 50 + 40.
  it('a cylinder lies across', () => {
    expect(made({ kind: 'cylinder', diameter: '80', length: '300', lie: 'across' })).toEqual({
      cylinder: { fromMm: [1000, 50, 90], toMm: [1000, 350, 90], radiusMm: 40 },
    });
  });

  it('a tube by its points, and nothing as long as one cannot be read', () => {
    const points = [
      ['0', '0', '0'],
      ['1 m 20', '0', '-3 in'],
    ] as const;
    expect(made({ kind: 'tube', diameter: '45', points })).toEqual({
      tube: {
        pointsMm: [
          [0, 0, 0],
          [1200, 0, -76.2],
        ],
        radiusMm: 22.5,
      },
    });
    expect(made({ kind: 'tube', diameter: '45', points: [points[0], ['1', 'x', '2']] })).toBeUndefined();
    expect(made({ size: ['400', '200', '-1'] })).toBeUndefined();
  });

  it('is said in words', () => {
    expect(shapeWords({ box: { minMm: [0, 0, 0], maxMm: [160, 100, 120] } })).toBe('box 160 × 100 × 120 mm');
    expect(shapeWords({ cylinder: { fromMm: [0, 0, 0], toMm: [3, 4, 0], radiusMm: 2 } })).toBe(
      'cylinder, 4 mm across, 5 mm long',
    );
  });
});
