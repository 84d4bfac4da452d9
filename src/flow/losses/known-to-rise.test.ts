import { describe, expect, it } from 'vitest';
import { knownToRise, type LossLaw } from '../network/loss-law.ts';
import { solveNetwork } from '../network/solve-network.ts';
import { seeded } from '../network/planted/seeded.ts';
import { linearQuadraticLaw } from './linear-quadratic.ts';
import { lineLoss, riseOf } from './line-loss.ts';
import { seriesLaw } from './loss.ts';
import { monotoneLaw } from './monotone-law.ts';

const oil = { densityKgM3: 850, viscosityPaS: 0.05 };
const plain: LossLaw = (q) => ({ dropPa: 1e6 * q, slope: 1e6 });
const between = (law: LossLaw) =>
  solveNetwork({
    nodes: [
      { id: 'a', fixedPa: 1e5 },
      { id: 'b', fixedPa: 0 },
    ],
    branches: [{ id: 'x', from: 'a', to: 'b', law }],
  });

describe('a law that is known to rise', () => {
  it('is what closer looking finds too: 60 bores of all friction, bends and fluids (seed 5)', () => {
    const chance = seeded(5);
    for (let i = 0; i < 60; i++) {
      const boreM = 0.004 + 0.04 * chance.between(0, 1);
      const law = lineLoss({
        where: 'x',
        boreM,
        lengthM: 0.2 + chance.between(0, 1),
        roughnessM: 1e-5 * chance.between(0, 1),
        bends: [{ angleRad: 0.2 + chance.between(0, 1), radiusM: boreM * (2 + 6 * chance.between(0, 1)) }],
        rule: chance.oneOf(['all-regimes', 'colebrook', 'haaland', 'swamee-jain']),
      }).under({ densityKgM3: 700 + 400 * chance.between(0, 1), viscosityPaS: 10 ** (-4 + 4 * chance.between(0, 1)) });
      const most = 10 ** (-5 + 3 * chance.between(0, 1));
      expect([law.isKnownToRise!(most), monotoneLaw(law, -most, most).rises]).toEqual([true, true]);
    }
  });

  it('is a sum of such, and no longer one with a law in it of which nothing is known', () => {
    const fitting = linearQuadraticLaw('x', 1e5, 1e9);
    const bore = lineLoss({ where: 'x', boreM: 0.01, lengthM: 1, roughnessM: 0 }).under(oil);
    expect(seriesLaw([fitting, bore]).isKnownToRise!(1e-3)).toBe(true);
    expect(seriesLaw([fitting, bore, plain]).isKnownToRise!(1e-3)).toBe(false);
    expect(seriesLaw([]).isKnownToRise!(1e-3)).toBe(false);
  });

  it('is not claimed of a force that falls on its way, however far it was asked before', () => {
    // Rises to 1000 and falls from there.
    const risesTo = riseOf((re, out) => {
      out[0] = re < 1000 ? re : 2000 - re;
      out[1] = re < 1000 ? 1 : -1;
    });
    expect([risesTo(100), risesTo(400), risesTo(3000), risesTo(100)]).toEqual([true, true, false, false]);
  });

  it('is not looked at again with each answer, one of which nothing is known is; the answer is the same', () => {
    let looks = 0;
    const counted: LossLaw = (q) => {
      looks++;
      return plain(q);
    };
    const unknown = between(counted);
    const unknownLooks = looks;
    looks = 0;
    const known = between(
      knownToRise(
        (q) => counted(q),
        () => true,
      ),
    );
    expect(looks).toBeLessThan(unknownLooks / 3);
    if (!known.ok || !unknown.ok) throw new Error('neither is refused');
    expect(known.flowM3S).toEqual(unknown.flowM3S);
    expect(known.flowM3S[0]).toBeCloseTo(0.1, 12);
  });
});
