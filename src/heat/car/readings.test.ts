import type { Car, HeatReading } from '#car';
import { describe, expect, it } from 'vitest';
import type { HeatCase } from '../heat-answer.ts';
import { comparedReadings, bayRisesOf, noCorrections, risesOf, toldCorrections } from './readings.ts';

/** One line at 150 in air of 50, and a soak in which it goes from 100 over 180 to 140. */
const cases = [
  {
    case: { id: 'run' },
    lines: [{ line: 'L', worst: { alongMm: 10, surfaceC: 150 }, points: [{ alongMm: 10, worstC: 150, airC: 50 }] }],
    parts: [],
    panels: [],
    bays: [{ bay: 'b', airC: 50, outsideC: 20 }],
  },
  {
    case: { id: 'off' },
    lines: [{ line: 'L', worst: { alongMm: 10, surfaceC: 180 }, points: [{ alongMm: 10, worstC: 180, airC: 60 }] }],
    parts: [],
    panels: [],
    bays: [{ bay: 'b', airC: 60, outsideC: 20 }],
    soak: { minutes: [0, 2, 10], lines: [{ id: 'L', c: [100, 180, 140] }], parts: [], panels: [], bays: [] },
  },
] as unknown as readonly HeatCase[];

const car = (...heatReadings: Partial<HeatReading>[]) => ({ heatReadings }) as unknown as Car;
const strip = { id: 's', case: 'run', line: 'L', means: 'strip' } as const;

describe('readings beside what was worked out', () => {
  it('of a strip count from the nearer of its marks, and as nothing between them', () => {
    const off = (readC: number, belowC: number) =>
      comparedReadings(car({ ...strip, readC, belowC }), cases)[0]!.differenceK;
    expect(off(160, 171)).toBe(10);
    expect(off(143, 149)).toBe(-1);
    expect(off(149, 154)).toBe(0);
  });

  it('in a soak are looked up at their minute, straight between moments (hand: 180 less a quarter of 40)', () => {
    const [row] = comparedReadings(car({ ...strip, case: 'off', atMin: 4, readC: 165, means: 'probe' }), cases);
    expect(row).toMatchObject({ workedC: 170, differenceK: -5 });
  });

  it('correct only where the builder agrees: the rise over the air by least squares (hand: (90*100 + 150*120)/(100^2 + 120^2))', () => {
    const agreed = [
      { ...strip, readC: 140, means: 'probe', corrects: true },
      { ...strip, case: 'off', readC: 210, means: 'probe', corrects: true },
    ] as const;
    expect(risesOf(car(...agreed), cases).get('L')).toBeCloseTo(27_000 / 24_400, 9);
    expect(risesOf(car({ ...strip, readC: 140 }), cases).size).toBe(0);
    const told = toldCorrections(comparedReadings(car(...agreed), cases), {
      ...noCorrections,
      rises: new Map([['L', 1.107]]),
    });
    expect(told[0]!.corrected).toMatch(/multiplied by 1\.11 in every case/);
  });

  it('of a bay are of its air over that outside, not where the case states it (hand: (45*30 + 40*40)/(30^2 + 40^2))', () => {
    const probe = { id: 'p', case: 'run', bay: 'b', readC: 65, means: 'probe', corrects: true } as const;
    const both = car(probe, { ...probe, case: 'off', readC: 60 });
    expect(bayRisesOf(both, cases).get('b')).toBeCloseTo(2950 / 2500, 9);
    expect(risesOf(both, cases).size).toBe(0);
    const stated = cases.map((row) => ({ ...row, case: { ...row.case, bayAirC: 50 } }));
    expect(bayRisesOf(both, stated).size).toBe(0);
  });

  it('of what was not worked out stand with null', () => {
    const [row] = comparedReadings(car({ ...strip, line: 'none', readC: 100 }), cases);
    expect(row).toMatchObject({ workedC: null, differenceK: null });
  });
});
