import { describe, expect, it } from 'vitest';
import { coldOil, hotOil, seeded, spread } from '../../../test/flow/fluids-for-tests.ts';
import { measuredFit, measuredLoss, type MeasuredPoint } from './measured-loss.ts';
import { monotoneLaw } from './monotone-law.ts';

const fluid = { viscosityPaS: 0.015, densityKgM3: 850 };
const at = (flowM3S: number, dropPa: number, other: Partial<MeasuredPoint> = {}): MeasuredPoint => ({
  flowM3S,
  dropPa,
  ...fluid,
  ...other,
});

describe('a part by measured points', () => {
  it('gives back the law it was made from, and carries it to another fluid', () => {
    const law = (q: number, f: { viscosityPaS: number; densityKgM3: number }) =>
      2.5e9 * f.viscosityPaS * q + 4e6 * f.densityKgM3 * q * q;
    const points = [2e-4, 5e-4, 9e-4].map((q) => at(q, law(q, fluid)));
    const loss = measuredLoss('cooler', points);
    expect(loss.fit.viscousPerM3 / 2.5e9).toBeCloseTo(1, 9);
    expect(loss.fit.inertiaPerM4 / 4e6).toBeCloseTo(1, 9);
    expect(loss.fit.misfitShare).toBeLessThan(1e-9);
    expect(loss.under(coldOil)(4e-4).dropPa / law(4e-4, coldOil)).toBeCloseTo(1, 9);
  });

  // second: scipy 1.10.1 nnls on the rows divided by their drops; python3 -c "import numpy as np; from scipy.optimize
  // import nnls; P=((2e-4,9e3,.015,850),(5e-4,4e4,.015,850),(9e-4,9e4,.015,850),(5e-4,6.1e4,.06,865));
  // A=np.array([[m*q/d,r*q*q/d] for q,d,m,r in P]); print(nnls(A,np.ones(4))[0])"
  it('is the non-negative least squares of scipy', () => {
    const points = [
      at(2e-4, 9e3),
      at(5e-4, 4e4),
      at(9e-4, 9e4),
      at(5e-4, 6.1e4, { viscosityPaS: 0.06, densityKgM3: 865 }),
    ];
    const fit = measuredFit('cooler', points);
    expect(fit.viscousPerM3 / 1372312631).toBeCloseTo(1, 8);
    expect(fit.inertiaPerM4 / 116415473.7).toBeCloseTo(1, 8);
  });

  it('never has a part below zero: points that bend the other way are all viscous, steep ones all inertia', () => {
    const bent = measuredFit('filter', [at(1e-4, 1e4), at(2e-4, 1.5e4), at(4e-4, 2.2e4)]);
    expect(bent.inertiaPerM4).toBe(0);
    expect(bent.misfitShare).toBeGreaterThan(0.1);
    const steep = measuredLoss('filter', [at(1e-4, 1e3), at(2e-4, 6e3)]);
    expect(steep.fit.viscousPerM3).toBe(0);
    expect(monotoneLaw(steep.under(hotOil), -1e-3, 1e-3)).toEqual({ rises: true });
  });

  it('no other pair of parts misses less, of 2000 tried at each of 20 sets (seed 61)', () => {
    const draw = seeded(61);
    for (let set = 0; set < 20; set++) {
      const points = [1e-4, 2e-4, 4e-4].map((q, i) => at(q, (i + 1) * spread(draw, 4e3, 6e3)));
      const sum = (a: number, b: number) =>
        points.reduce(
          (s, p) => s + ((a * p.viscosityPaS * p.flowM3S + b * p.densityKgM3 * p.flowM3S ** 2) / p.dropPa - 1) ** 2,
          0,
        );
      const fit = measuredFit('gallery', points);
      const best = sum(fit.viscousPerM3, fit.inertiaPerM4);
      for (let i = 0; i < 2000; i++) expect(sum(draw(0, 6e9), draw(0, 3e8)) >= best - 1e-12).toBe(true);
    }
  });

  it.each([
    [[], 'flow: cooler, measured points: 0; allowed: 2 points or more, each of flow and drop'],
    [[at(1e-4, 1e4)], 'flow: cooler, measured points: 1; allowed: 2 points or more, each of flow and drop'],
    [[at(1e-4, 1e4), at(0, 2e4)], 'flow: cooler, flow of point 1: 0; allowed: a number above 0 m3/s'],
    [[at(1e-4, 1e4), at(2e-4, Number.NaN)], 'flow: cooler, drop of point 1: NaN; allowed: a number above 0 Pa'],
    [
      [at(2e-4, 1e4), at(1e-4, 2e4)],
      'flow: cooler, points 1 and 0: 20000 Pa at 0.0001 m3/s, 10000 Pa at 0.0002 m3/s; allowed: a drop that rises with the flow',
    ],
    [
      [at(1e-4, 1e4), at(2e-4, 3e4, { viscosityPaS: -1 })],
      'flow: cooler, point 1, viscosity of the fluid: -1; allowed: a number above 0 Pa s',
    ],
  ])('%j is refused with one line', (points, message) => {
    expect(() => measuredLoss('cooler', points)).toThrow(message);
  });
});
