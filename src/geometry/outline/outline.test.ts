import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  outlineArea,
  outlineLength,
  outlinePoints,
  reversedOutline,
  roundOutline,
  straightOutline,
} from './outline.ts';

describe('outlines against closed forms (common mensuration, no source)', () => {
  it('a circle of two half circles has pi r2 and 2 pi r', () => {
    expect(outlineArea(roundOutline([3, -4], 10))).toBeCloseTo(Math.PI * 100, 9);
    expect(outlineLength(roundOutline([3, -4], 10))).toBeCloseTo(Math.PI * 20, 9);
  });

  it('a rectangle with four quarter-round corners loses (4 - pi) r2', () => {
    const q = Math.tan(Math.PI / 8);
    const [w, h, r] = [200, 120, 12];
    const corners = [
      { at: [r, 0] as const },
      { at: [w - r, 0] as const, bulge: q },
      { at: [w, r] as const },
      { at: [w, h - r] as const, bulge: q },
      { at: [w - r, h] as const },
      { at: [r, h] as const, bulge: q },
      { at: [0, h - r] as const },
      { at: [0, r] as const, bulge: q },
    ];
    expect(outlineArea(corners)).toBeCloseTo(w * h - (4 - Math.PI) * r * r, 9);
    expect(outlineLength(corners)).toBeCloseTo(2 * (w + h) - 8 * r + 2 * Math.PI * r, 9);
  });

  it('gone round the other way only the sign changes, and points along it close in on it', () => {
    const corner = fc.record({ x: fc.integer({ min: -500, max: 500 }), y: fc.integer({ min: -500, max: 500 }) });
    fc.assert(
      fc.property(
        fc.array(corner, { minLength: 3, maxLength: 8 }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (at, bulge) => {
          const outline = at.map(({ x, y }, i) => ({ at: [x + i * 1e-3, y] as const, bulge: i === 0 ? bulge : 0 }));
          expect(outlineArea(reversedOutline(outline))).toBeCloseTo(-outlineArea(outline), 6);
          const polygon = straightOutline(outlinePoints(outline, 0.001));
          expect(Math.abs(outlineArea(polygon) - outlineArea(outline))).toBeLessThanOrEqual(
            0.001 * outlineLength(outline) + 1e-6,
          );
        },
      ),
    );
  });
});
