import { describe, expect, it } from 'vitest';
import type { Line } from '#car';
import { catalogue } from '#standards';
import { shrinkFails } from './bore-fails.ts';

const shelf = catalogue();
const drain = { id: 'D', duty: 'oil-drain' } as Line;
const hoses = (...dashes: number[]) => dashes.map((dash) => ({ part: 'hose', row: `rubber-braid-${dash}` }));
const bore = (dash: number) => shelf.findHose(`rubber-braid-${dash}`)!.boreMm;

describe('the bore of a drain, on its way down (common practice, no source)', () => {
  it('hand: as wide or wider is no fault, narrower is, also where it had grown first', () => {
    expect(shrinkFails(drain, hoses(10, 12, 12, 16), shelf)).toEqual([]);
    const [fault, ...more] = shrinkFails(drain, hoses(10, 16, 10), shelf);
    expect(more).toEqual([]);
    expect(fault).toMatchObject({ limit: 'mating', valueMm: bore(10), limitMm: bore(16) });
  });

  it('hand: a tenth may be lost once, not again and again', () => {
    const own = catalogue({
      hoses: [20, 18.5, 17].map((boreMm) => ({
        id: `mine-${boreMm}`,
        name: `${boreMm} mm hose`,
        family: 'silicone',
        boreMm,
        odMm: 30,
        minBendRadiusMm: 100,
      })),
    });
    expect(own.faults).toEqual([]);
    const mine = (...bores: number[]) => bores.map((boreMm) => ({ part: 'hose', row: `mine-${boreMm}` }));
    expect(shrinkFails(drain, mine(20, 18.5), own)).toEqual([]);
    expect(shrinkFails(drain, mine(18.5, 17), own)).toEqual([]);
    expect(shrinkFails(drain, mine(20, 18.5, 17), own)[0]?.text).toBe(
      'shrinks from 20.0 mm of bore in 20 mm hose to 17.0 in 17 mm hose; a drain must not',
    );
  });

  it('hand: a tube counts by what its wall leaves', () => {
    const line = { ...drain, pieces: [{ tube: { odMm: 19, wallMm: 0.9, bendRadiusMm: 57 } }] };
    const bodies = [{ part: 'tube' }, { part: 'adapter', row: 'tube-nut-8' }];
    expect(shrinkFails(line, bodies, shelf)[0]?.text).toMatch(/^shrinks from 17\.2 mm of bore in the tube to /u);
  });

  it('hand: only a drain is asked', () => {
    expect(shrinkFails({ ...drain, duty: 'water' }, hoses(16, 10), shelf)).toEqual([]);
  });
});
