import { describe, expect, it } from 'vitest';
import { lengthsIn } from './lengths.ts';

describe('lengths as they are printed', () => {
  it('hand: lengths to cut are fractions, what is sold by the metre has feet, places are in inches', () => {
    const { one, metres, place, hex } = lengthsIn(true);
    expect([one(655), metres(1.28), place([1550, -210, 190]), hex(22.2)]).toEqual([
      '655 mm (25 13/16 in)',
      '1.28 m (4.2 ft)',
      '61.0, -8.3, 7.5 in',
      'hex 22.2 mm (7/8 in)',
    ]);
  });
});
