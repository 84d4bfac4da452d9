import { box, cylinder } from '#geometry';
import { describe, expect, it } from 'vitest';
import { dripFrom, dripFromMouth, levelsOf } from './opened-joint.ts';

const bore = 20;
/** Litres of a 20 mm bore, by hand: pi/4 x 0.2^2 dm2 x length in dm. */
const held = (mm: number): number => (Math.PI / 4) * 0.2 * 0.2 * (mm / 100);

describe('what runs from an opened joint', () => {
  it('is the whole of a line that rises from it, and none of one that falls (hand: closed form)', () => {
    expect(
      dripFrom(
        {
          path: [
            [0, 0, 0],
            [0, 0, 500],
          ],
          boreMm: bore,
        },
        null,
      ).lineL,
    ).toBeCloseTo(held(500), 9);
    expect(
      dripFrom(
        {
          path: [
            [0, 0, 500],
            [0, 0, 0],
          ],
          boreMm: bore,
        },
        null,
      ).lineL,
    ).toBe(0);
  });

  it('leaves what lies in a U-bend, and takes what stands above its far lip (hand)', () => {
    // Down 300, up 700: of the rise only the 400 above the opening runs.
    const path = [
      [0, 0, 300],
      [0, 0, 0],
      [0, 0, 700],
    ] as const;
    expect(dripFrom({ path, boreMm: bore }, null).lineL).toBeCloseTo(held(400), 9);
  });

  it('empties a vessel down to the highest place on the way, or to its own mouth (hand: area times height)', () => {
    const tank = levelsOf([box([0, 0, 0], [200, 100, 400])], 8, 6);
    expect(dripFromMouth(tank, 100)).toBeCloseTo(4, 6);
    expect(dripFromMouth(tank, 300)).toBeCloseTo(0, 9);
    // Over a hump 200 high the tank stays filled to 200: 6 of 8 L stand 300 high, so that 100 run.
    const over = dripFrom(
      {
        path: [
          [0, 0, -50],
          [0, 0, 200],
          [0, 0, 10],
        ],
        boreMm: bore,
      },
      tank,
    );
    expect(over.farVesselL).toBeCloseTo(2, 6);
  });

  it('holds for a round tank to what its slices show (hand: pi r^2 h)', () => {
    const tank = levelsOf([cylinder([0, 0, 0], [0, 0, 500], 90)], null, 9);
    expect(Math.abs(tank.belowL(250) - Math.PI * 0.81 * 2.5)).toBeLessThan(0.15);
  });
});
