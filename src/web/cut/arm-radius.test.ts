import { describe, expect, it } from 'vitest';
import { armRadiusMm, atRadius, turnedRound } from './arm-radius.ts';

// A lever that turns about car Y, its handle 220 mm up and 70 mm aside.
const about = { pivotMm: [600, 300, 350], axis: [0, 2, 0] } as const satisfies {
  pivotMm: readonly number[];
  axis: readonly number[];
};
const lever = {
  pivotMm: [...about.pivotMm] as [number, number, number],
  axis: [...about.axis] as [number, number, number],
};

describe('an arm of a lever by its length', () => {
  it('hand: what lies aside along the axis does not count', () => {
    expect(armRadiusMm(lever, [600, 230, 570])).toBe(220);
  });

  it('hand: shortened to 160 it stays as far aside', () => {
    expect(atRadius(lever, [600, 230, 570], 160)).toEqual([600, 230, 510]);
    expect(atRadius(lever, [600, 0, 350], 160)).toBeUndefined();
  });

  it('hand: turned round it hangs as far below, and turned round again it is where it was', () => {
    expect(turnedRound(lever, [630, 230, 570])).toEqual([570, 230, 130]);
    expect(turnedRound(lever, turnedRound(lever, [630, 230, 570]))).toEqual([630, 230, 570]);
  });
});
