import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findSource, workFormula } from '#sources';
import {
  bendTestFreeLength,
  boreArea,
  centrelineRadius,
  clampCount,
  cutFactorIn,
  cutToleranceMm,
  dashSizes,
  formulas,
  hoseEndFactor,
  metricTensileArea,
  slackBendRadius,
  taperPipes,
  taperPitchDiameterAtEnd,
  taperPitchDiameterHandTight,
  threadInternalMinor,
  threadPitchDiameter,
  unifiedTensileArea,
} from './index.ts';

const inch = 25.4;

describe('unified threads by dash', () => {
  // second: ASME B1.1 basic profile worked apart from this code: PD, internal minor [in], stress area [in2];
  // published besides: PD of 1 3/16-12 (1.1334) and 1 5/16-12 (1.2584) in a public B1.1 table.
  it.each([
    [2, 0.2854, 0.2674, 0.0581],
    [3, 0.3479, 0.3299, 0.0878],
    [4, 0.405, 0.3834, 0.1187],
    [5, 0.4675, 0.4459, 0.16],
    [6, 0.5264, 0.5024, 0.203],
    [8, 0.7094, 0.6823, 0.373],
    [10, 0.8286, 0.7977, 0.5095],
    [12, 1.0084, 0.9723, 0.7563],
    [14, 1.1334, 1.0973, 0.9613],
    [16, 1.2584, 1.2223, 1.1908],
    [20, 1.5709, 1.5348, 1.8719],
    [24, 1.8209, 1.7848, 2.5272],
    [32, 2.4459, 2.4098, 4.5951],
  ])('-%i', (dash, pitchIn, minorIn, areaIn2) => {
    const row = dashSizes.find((r) => r.dash === dash);
    if (row === undefined) throw new Error(`-${dash}`);
    const pitchMm = inch / row.tpi;
    // The table's major is printed to a micrometre: half of that, and half a ten-thousandth of an inch.
    expect(Math.abs(threadPitchDiameter(row.majorMm, pitchMm) / inch - pitchIn)).toBeLessThan(0.0001);
    expect(Math.abs(threadInternalMinor(row.majorMm, pitchMm) / inch - minorIn)).toBeLessThan(0.0001);
    expect(Math.abs(unifiedTensileArea(row.majorMm, pitchMm) / inch ** 2 - areaIn2)).toBeLessThan(0.0002);
  });
});

describe('metric stress area', () => {
  // published: ISO 898-1 nominal stress areas, from memory: M6 20.1, M8 36.6, M10 58.0, M12 84.3, M14x1.5 125 mm2.
  it.each([
    [6, 1, 20.1],
    [8, 1.25, 36.6],
    [10, 1.5, 58],
    [12, 1.75, 84.3],
    [14, 1.5, 125],
  ])('M%fx%f', (majorMm, pitchMm, area) => {
    expect(metricTensileArea(majorMm, pitchMm) / area).toBeCloseTo(1, 2);
  });
});

describe('taper pipe threads', () => {
  // published: ASME B1.20.1 table values E0 and E1 [in]; 3/4 and 1 from memory.
  it.each([
    ['1/8', 0.36351, 0.3736],
    ['1/4', 0.47739, 0.49163],
    ['3/8', 0.61201, 0.62701],
    ['1/2', 0.75843, 0.77843],
    ['3/4', 0.96768, 0.98887],
    ['1', 1.21363, 1.23863],
  ])('%s', (pipe, e0, e1) => {
    const row = taperPipes.find((r) => r.pipe === pipe);
    if (row === undefined) throw new Error(pipe);
    const end = taperPitchDiameterAtEnd(row.odIn, 1 / row.tpi);
    expect(Math.abs(end - e0)).toBeLessThan(0.00001);
    expect(Math.abs(taperPitchDiameterHandTight(end, row.l1In) - e1)).toBeLessThan(0.00002);
  });
});

describe('hose lengths', () => {
  // published: US Navy training manual 14018 table 5-2: -12 PTFE 1.13 in, -12 rubber 1.00 in, -16 rubber 0.94 in.
  it('has the naval factors', () => {
    const factor = (cutFactorIn('rubber-end', 12) ?? Number.NaN) * inch;
    expect(factor).toBeCloseTo(25.4, 9);
    expect(cutFactorIn('ptfe-flared-straight', 12)).toBe(1.13);
    expect(cutFactorIn('rubber-end', 16)).toBe(0.94);
  });
  // published: SAE J343 rationale; hand: pi (100 + 10) + 2 x 25.4 and (pi/2)(200 + 15) + 2 x 30.
  it('gives the bend test its free length', () => {
    expect(bendTestFreeLength(100, 20)).toBeCloseTo(396.375, 3);
    expect(bendTestFreeLength(200, 30)).toBeCloseTo(397.721, 3);
  });
  // published: RMA IP-2 (2003) table 4-8: +-1/8 in to 12 in, +-1/2 in to 72 in, 1 % beyond.
  it('knows how far a cut length may be off', () => {
    expect(cutToleranceMm(300)).toBeCloseTo(3.175, 9);
    expect(cutToleranceMm(1800)).toBeCloseTo(12.7, 9);
    expect(cutToleranceMm(2000)).toBeCloseTo(20, 9);
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 5000, noNaN: true }),
        fc.double({ min: 0, max: 5000, noNaN: true }),
        (a, more) => cutToleranceMm(a + more) >= cutToleranceMm(a),
      ),
      { seed: 21, numRuns: 500 },
    );
  });
  // published: Army table 4-15 heads its column "inside bend radius"; hand: 7.375 in + half of 1.23 in.
  it('brings an inside radius to the centreline', () => {
    expect(centrelineRadius(7.375 * inch, 1.23 * inch) / inch).toBeCloseTo(7.99, 9);
  });
  // hand: y = a (1 - cos(2 pi x / L)) / 2 has slack pi^2 a^2 / (4 L^2) and least radius L^2 / (2 pi^2 a); here summed numerically.
  it('bends a slack hose to the radius of its cosine wave', () => {
    const [chord, slack] = [600, 0.01];
    const rise = ((2 * chord) / Math.PI) * Math.sqrt(slack);
    const n = 20_000;
    let length = 0;
    for (let i = 0; i < n; i++) {
      const y = (k: number): number => (rise * (1 - Math.cos((2 * Math.PI * k) / n))) / 2;
      length += Math.hypot(chord / n, y(i + 1) - y(i));
    }
    expect(length / chord - 1).toBeCloseTo(slack, 3);
    expect(slackBendRadius(chord, slack)).toBeCloseTo(chord ** 2 / (2 * Math.PI ** 2 * rise), 6);
  });
  it('counts clamps so that no free length is too long', () => {
    expect([clampCount(610, 610), clampCount(611, 610), clampCount(0, 610)]).toEqual([0, 1, 0]);
  });
  it('a hose end takes at least its straights', () => {
    expect(hoseEndFactor(30, 0, 0, 0, 25, 23)).toBe(32);
  });
});

describe('bore areas', () => {
  // published: a -8 is 10.3 mm bore in one family and 12.7 in the other, +52 % area (SAE J517 families, from memory).
  it('differ by half between the two -8 families', () => {
    expect(boreArea(12.7) / boreArea(10.3)).toBeCloseTo(1.52, 2);
  });
  // published: FAA handbook, #10 x 0.065 wall tube has 0.495 in bore; hand: pi/4 x 0.495^2 = 0.19244 in2.
  it('of a -10 tube', () => {
    expect(boreArea((0.625 - 2 * 0.065) * inch) / inch ** 2).toBeCloseTo(0.19244, 5);
  });
});

describe('the register', () => {
  it('has one row an id, each with a source that the bibliography holds', () => {
    expect(new Set(formulas.map((f) => f.id)).size).toBe(formulas.length);
    for (const f of formulas) expect([f.id, findSource(f.source)?.id]).toEqual([f.id, f.source]);
  });
  it.each(formulas.map((f) => [f.id, f] as const))('%s gives what its example says, inside its range', (_, f) => {
    const worked = workFormula(f, f.example.given);
    if (!worked.ok) throw new Error(worked.faults.join('; '));
    expect(worked.findings).toEqual([]);
    expect(worked.value.toFixed(f.example.digits)).toBe(f.example.gives.toFixed(f.example.digits));
  });
});
