import { describe, expect, it } from 'vitest';
import { expectedNumber, named, published, tolerance } from '../../../test/published/published.ts';
import { lineVelocity, lineVolume, usualVelocities } from './line-figures.ts';
import { boreRoughnessM, boreWalls } from './roughness.ts';

describe('figures of a line agree with', () => {
  it.each(published('flow.velocity').map((item) => [named(item), item]))('%s', (_, item) => {
    if (item.id === 'velocity-guideline') {
      const { sheet1_m_s } = item.expected as unknown as { sheet1_m_s: Record<string, number[]> };
      const rows = Object.fromEntries(usualVelocities.map((r) => [r.duty, [r.leastMS, r.mostMS]]));
      expect(rows).toEqual(sheet1_m_s);
      return;
    }
    if (!item.id.startsWith('velocity-')) throw new Error(`no check for the published value ${item.id}`);
    const expected = expectedNumber(item);
    const given = lineVelocity(item.inputs['Q_L_min']! / 60000, item.inputs['d_mm']! / 1000);
    expect(Math.abs(given - expected)).toBeLessThanOrEqual(tolerance(item, expected));
  });

  it.each(published('flow.volume').map((item) => [named(item), item]))('%s', (_, item) => {
    if (!item.id.startsWith('hose-volume-')) throw new Error(`no check for the published value ${item.id}`);
    const expected = expectedNumber(item);
    const given = 1000 * lineVolume(item.inputs['bore_mm']! / 1000, item.inputs['L_m']!);
    expect(Math.abs(given - expected)).toBeLessThanOrEqual(tolerance(item, expected));
  });
});

describe('walls of bores', () => {
  it('lie within what is met with', () => {
    for (const row of boreWalls) {
      expect(row.fromMm).toBeLessThanOrEqual(row.roughnessMm);
      expect(row.roughnessMm).toBeLessThanOrEqual(row.toMm);
    }
    expect(boreRoughnessM('drawn-tube')).toBe(1.5e-6);
    // second: the 0.0018 in of commercial steel in the handbook's worked problems
    expect(boreRoughnessM('steel-pipe') / 25.4e-3).toBeCloseTo(0.0018, 5);
  });

  it('an unknown one is refused with those there are', () => {
    expect(() => boreRoughnessM('velvet' as 'drawn-tube')).toThrow(
      'flow: wall of a bore: "velvet"; allowed: drawn-tube, smooth-hose, fabric-hose, convoluted-hose, steel-pipe',
    );
  });
});
