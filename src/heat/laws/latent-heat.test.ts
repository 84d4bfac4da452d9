import { describe, expect, it } from 'vitest';
import { steamLitres } from '../car/soak-boiling.ts';
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

  it('boils away what comes in over it, by hand: rising to 1 kW in 60 s and 70 s of it are 100 kJ, 44.3 g or 46.2 mL at 100 degC', () => {
    const litres = steamLitres([0, 60, 130], [0, 1000, 1000], 100, 958.4);
    expect(litres / (100 / 2256.5 / 958.4 / 1e-3)).toBeCloseTo(1 / 1.0163, 2);
  });
});
