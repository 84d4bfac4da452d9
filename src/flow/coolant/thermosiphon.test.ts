import { describe, expect, it } from 'vitest';
import { water } from '../../../test/flow/fluids-for-tests.ts';
import { lineLoss } from '../losses/line-loss.ts';
import { laminarSiphonFlow, siphonFlow } from './thermosiphon.ts';

describe('water that warmth drives', () => {
  it('runs round a smooth laminar loop as the closed form says (Hagen and Poiseuille)', () => {
    const [boreM, lengthM, heightM, gap] = [0.008, 3, 0.4, 2];
    const law = lineLoss({ where: 'loop', boreM, lengthM, roughnessM: 1.5e-6 }).under(water);
    const flow = siphonFlow(gap * 9.80665 * heightM, (q) => law(q).dropPa);
    const closed = laminarSiphonFlow(gap, heightM, boreM, lengthM, water.viscosityPaS);
    expect((water.densityKgM3 * flow * 4) / (Math.PI * boreM * water.viscosityPaS)).toBeLessThan(2000);
    expect(Math.abs(flow / closed - 1)).toBeLessThan(1e-3);
  });

  it('stands where nothing drives', () => {
    expect(siphonFlow(0, (q) => q)).toBe(0);
    expect(siphonFlow(-5, (q) => q)).toBe(0);
  });
});
