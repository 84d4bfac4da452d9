import { describe, expect, it } from 'vitest';
import type { LapAnswer, LapMoment } from '#flow';
import { outside, overlapping } from './label-clashes.fixture.ts';
import { lapPictures } from './lap-pictures.ts';

/** A tank that falls from 8 to 4 L and comes back, air in the feed in the middle. */
const rows = Array.from({ length: 101 }, (_, i): LapMoment => {
  const near = Math.max(0, 1 - Math.abs(i - 50) / 50);
  return {
    timeS: i,
    rpm: 6000,
    oilC: 100,
    tankM3: (8 - 4 * near) / 1000,
    vesselsM3: [0.001],
    drawnAir: near > 0.9 ? 1 : 0,
    feedAir: near > 0.9 ? 0.25 : 0,
    galleryPa: near > 0.9 ? 3e5 : 4e5,
    airlessPa: 4e5,
    longitudinalG: 0,
    lateralG: -1.2,
  };
});
const middle = rows[50]!;
const lap = (air: LapAnswer['worst']['air']): LapAnswer =>
  ({
    circuit: 'oil',
    tank: 'tank',
    outlet: 'tank.out',
    vessels: ['sump'],
    rows,
    worst: { lowestTank: middle, lowestPressure: middle, mostLost: middle, air, airS: air.length === 0 ? 0 : 10 },
  }) as unknown as LapAnswer;
const sheet = (width: number) => ({ width, size: 14, unit: 'px' }) as const;

describe('a driven lap over time', () => {
  it('draws level, air and pressure, each with its worst moment by name and the least stated', () => {
    const drawn = lapPictures(lap([{ fromS: 45, toS: 55 }]), 6, 'metric', sheet(600));
    expect(drawn.map(({ title }) => title)).toEqual(['Oil in tank', 'Air drawn', 'Gallery pressure']);
    const words = drawn.map(({ shapes }) => JSON.stringify(shapes));
    expect(words[0]).toMatch(/4\.0 L at 50\.0 s/u);
    expect(words[0]).toMatch(/least stated, 6\.0 L/u);
    expect(words[1]).toMatch(/25 % at 50\.0 s/u);
    expect(drawn[1]!.description).toBe('Air is drawn for 10.0 s in all, the longest 10.00 s from 45.0 s.');
    expect(words[2]).toMatch(/3\.00 bar at 50\.0 s/u);
  });

  it('in psi and gallons where the builder does; hand: 3 bar = 43.5 psi, told as 44, 4 L = 1.06 US gal', () => {
    const [tank, , gallery] = lapPictures(lap([]), undefined, 'inch', sheet(600));
    expect(tank!.description).toBe('From 2.11 US gal, least 1.06 US gal at 50.0 s.');
    expect(gallery!.description).toMatch(/^Least 44 psi at 50\.0 s/u);
  });

  it('says that none is drawn where none is; no word lies on another or over the edge, narrow or wide', () => {
    for (const width of [300, 620]) {
      for (const air of [[], [{ fromS: 45, toS: 55 }]])
        for (const drawing of lapPictures(lap(air), 6, 'metric', sheet(width)))
          expect([drawing.title, outside(drawing), overlapping(drawing)]).toEqual([drawing.title, [], []]);
    }
    expect(lapPictures(lap([]), 6, 'metric', sheet(300))[1]!.description).toBe('No air is drawn.');
  });
});
