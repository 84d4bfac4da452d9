import { describe, expect, it } from 'vitest';
import { lengthsIn } from './said-lengths.ts';

describe('lengths as they are said where the builder works in inches', () => {
  const { one, fine, allowance, metres, place, hex, cutText, soldAs } = lengthsIn(true);

  it('hand, by 25.4 mm to the inch: fractions to cut, decimals of bores, feet of what is sold by the length, places in inches', () => {
    expect([one(655), fine(34.8), fine(0.9), place([1550, -210, 190]), hex(22.2)]).toEqual([
      '25 13/16 in',
      '1.37 in',
      '0.035 in',
      '61.0, -8.3, 7.5 in',
      'hex 7/8 in',
    ]);
    expect([allowance([-5, 15]), allowance([0, 10])]).toEqual(['-3/16 to +9/16 in', '0 to +3/8 in']);
    expect(cutText('O12 piece 1, 565 mm, O13 piece 1, 570 mm')).toBe('O12 piece 1, 22 1/4 in, O13 piece 1, 22 7/16 in');
  });

  it('keeps the name that a part is bought by, and says its sizes in inches beside', () => {
    expect([
      soldAs('57 mm silicone elbow, 90 degrees'),
      soldAs('38 x 1.6 mm aluminium tube'),
      soldAs('worm-drive hose clamp 32 to 50 mm, lined for silicone'),
      soldAs('M10x1 inverted-flare nut on 4.75 mm pipe'),
    ]).toEqual([
      '57 mm (2.24 in) silicone elbow, 90 degrees',
      '38 x 1.6 mm (1.50 x 0.063 in) aluminium tube',
      'worm-drive hose clamp 32 to 50 mm (1.26 to 1.97 in), lined for silicone',
      'M10x1 inverted-flare nut on 4.75 mm (0.19 in) pipe',
    ]);
  });

  it('never orders less than is needed: 1.28 m are 4.199 ft, 1.30 m are 4.265 ft, 3.048 m ten feet to the last digit', () => {
    expect([metres(1.28), metres(1.3), metres(3.048)]).toEqual(['4.2 ft', '4.3 ft', '10.0 ft']);
  });
});
