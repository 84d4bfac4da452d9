import { describe, expect, it } from 'vitest';
import { catalogue, type End, mates } from './index.ts';

describe('mates', () => {
  it('screws a 37-degree hose end onto a 37-degree male of the same dash', () => {
    expect(mates({ type: 'flare37-female', dash: 16 }, { type: 'flare37-male', dash: 16 }).ok).toBe(true);
  });
  // published: 37- and 45-degree flares share the -8 thread 3/4-16 (public tables).
  it('refuses a 45-degree seat on the same thread and says why', () => {
    const a: End = { type: 'flare37-female', dash: 8 };
    const b: End = { type: 'flare45-male', dash: 8 };
    expect(mates(a, b)).toMatchObject({ ok: false, why: expect.stringContaining('same thread 3/4-16, other seat') });
  });
  it('gives a hose end for a -16 hose sized by its own outside diameter', () => {
    const c = catalogue({ hoses: [{ id: 'my-hose-16', dash: 16, boreMm: 22.2, odMm: 30, minBendRadiusMm: 140 }] });
    expect(c.faults).toEqual([]);
    const hose = c.findHose('my-hose-16');
    expect(hose).toBeDefined();
    if (hose === undefined) return;
    expect(c.hoseEndsFor(hose).find((e) => e.angleDeg === 90)?.socketOdMm).toBeCloseTo(34.5, 6);
  });
});
