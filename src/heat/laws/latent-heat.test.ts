import { describe, expect, it } from 'vitest';
import { waterLatentHeat } from './latent-heat.ts';

describe('heat that boils water away', () => {
  // Published in any steam table [kJ/kg]; the digits here are recalled, no table was read.
  it.each([
    [60, 2358, 0.01],
    [100, 2256, 0.02],
    [140, 2144, 0.05],
    [180, 2014, 0.09],
  ])('at %d C comes to the steam table (%d kJ/kg) as near as it says', (celsius, tabled, within) => {
    const off = waterLatentHeat(celsius) / 1000 / tabled - 1;
    expect(off).toBeGreaterThan(0);
    expect(off).toBeLessThan(within);
  });
});
