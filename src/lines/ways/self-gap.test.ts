import { describe, expect, it } from 'vitest';
import { selfGap } from './self-gap.ts';

/** A helix: turns of one radius at a pitch. */
const helix = (radius: number, pitch: number, turns: number): Float64Array => {
  const n = Math.ceil((turns * 2 * Math.PI * radius) / 2.5);
  return Float64Array.from({ length: 3 * (n + 1) }, (_, k) => {
    const angle = (Math.floor(k / 3) / n) * turns * 2 * Math.PI;
    return [radius * Math.cos(angle), radius * Math.sin(angle), (pitch * angle) / (2 * Math.PI)][k % 3]!;
  });
};

describe('how near a hose comes to itself', () => {
  it('turns of a helix stand its pitch apart, less the lean of the hose (hand)', () => {
    // Square to the hose, neighbouring turns are pitch * cos(lead angle) apart; tan(lead) = pitch / (2 pi R).
    const [radius, pitch, od] = [120, 60, 20];
    const lead = Math.atan(pitch / (2 * Math.PI * radius));
    expect(selfGap(helix(radius, pitch, 2), od, 100)!.gapMm).toBeCloseTo(pitch * Math.cos(lead) - od, 0);
  });
  it('is negative where turns overlap', () => {
    expect(selfGap(helix(120, 15, 2), 20, 100)!.gapMm).toBeLessThan(-4);
  });
  it('a hose shorter than half a turn cannot', () => {
    expect(selfGap(Float64Array.of(0, 0, 0, 50, 0, 0, 100, 0, 0), 20, 100)).toBeNull();
  });
});
