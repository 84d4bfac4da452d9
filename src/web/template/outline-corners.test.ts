import { outlineArea, reversedOutline, roundOutline, straightOutline } from '#geometry';
import { describe, expect, it } from 'vitest';
import { bowMm, cornerName, movedCorner, withBow, withCorner, withoutCorner } from './outline-corners.ts';

const square = straightOutline([
  [0, 0],
  [100, 0],
  [100, 100],
  [0, 100],
]);
const shape = { outline: square, openings: [reversedOutline(roundOutline([50, 50], 20))] };
const at = (ring: number, corner: number) => ({ ring, corner });

describe('corners of a template, corrected', () => {
  it('hand: a corner drawn out by 10 mm adds two triangles of 500 mm2', () => {
    expect(outlineArea(movedCorner(shape, at(0, 1), [110, -10]).outline)).toBeCloseTo(10_000 + 1000, 6);
  });

  it('hand: a side bowed out by half its length is a half circle; inwards it takes that away', () => {
    const half = (Math.PI * 50 ** 2) / 2;
    const [out, into] = [withBow(shape, at(0, 0), 50), withBow(shape, at(0, 0), -50)];
    expect(outlineArea(out.outline)).toBeCloseTo(10_000 + half, 6);
    expect(outlineArea(into.outline)).toBeCloseTo(10_000 - half, 6);
    expect([bowMm(out, at(0, 0)), bowMm(into, at(0, 0)), bowMm(shape, at(0, 0))]).toEqual([50, -50, 0]);
  });

  it('hand: a corner more in the middle of an arc leaves the circle as it was, one in a straight side the square', () => {
    const parted = withCorner(shape, at(1, 0)).openings[0]!;
    expect(parted).toHaveLength(3);
    expect(outlineArea(parted)).toBeCloseTo(-Math.PI * 20 ** 2, 6);
    const [, middle] = parted;
    expect(Math.hypot(middle!.at[0] - 50, middle!.at[1] - 50)).toBeCloseTo(20, 9);
    expect(outlineArea(withCorner(shape, at(0, 2)).outline)).toBeCloseTo(10_000, 9);
  });

  it('hand: without a corner the square is half of itself', () => {
    expect(outlineArea(withoutCorner(shape, at(0, 3)).outline)).toBeCloseTo(5000, 9);
  });

  it('names corners of openings apart from those of the outside', () => {
    expect([cornerName(at(0, 2)), cornerName(at(1, 0)), cornerName(at(2, 1))]).toEqual(['3', 'a1', 'b2']);
  });
});
