import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { workFormula } from '#sources';
import { catalogue, cutFactors, cutToleranceMm } from '#standards';
import { cutFromOverall, cutLength, facingShift, hoseCutLength } from './cut-length.ts';
import { endMakeUps } from './end-make-ups.ts';
import { endShape } from './end-shape.ts';
import { makeUpFormulas } from './make-up-formulas.ts';
import { turned, sub, dot } from '#geometry';

const shelf = catalogue();

function straightEnd(hoseId: string, dash: number) {
  const found = endMakeUps({ end: { type: 'flare37-male', dash } }, shelf.findHose(hoseId)!, shelf, {
    angles: [0],
    allowElbowAdapters: false,
  });
  if ('missing' in found) throw new Error(found.missing);
  return found.makeUps[0]!;
}

describe('cut length', () => {
  // published: US Navy training manual 14018 table 5-2, cut-off factor of a straight rubber-hose end and a flared PTFE end, inch.
  const published = [
    ['rubber-braid', 6, 0.77],
    ['rubber-braid', 8, 0.94],
    ['rubber-braid', 10, 1],
    ['rubber-braid', 12, 1],
    ['rubber-braid', 16, 0.94],
    ['ptfe-steel', 4, 0.74],
    ['ptfe-steel', 8, 0.93],
    ['ptfe-steel', 12, 1.13],
  ] as const;
  it.each(published)("of %s -%i takes the naval manual's factor off at each straight end", (family, dash, factorIn) => {
    const end = straightEnd(`${family}-${dash}`, dash);
    // Overall 500 mm, seat to seat: what shows is 500 less both ends; cut by insert and cut by factor must agree.
    const flexible = 500 - 2 * end.lengthMm;
    const byFactor = cutFromOverall(500, factorIn * 25.4, factorIn * 25.4);
    expect(hoseCutLength(flexible, end.insertMm, end.insertMm)).toBeCloseTo(byFactor, 1);
  });

  it('has the table as printed', () => {
    // published: the same table, last rows.
    expect(cutFactors.find((r) => r.end === 'rubber-end' && r.dash === 32)?.factorIn).toBe(1.24);
  });

  it('is printed to 5 mm, with -5 and +15 for two ports known to a tape', () => {
    const end = straightEnd('rubber-braid-12', 12);
    const tape = { knownToMm: 5, facingKnownDeg: 5, makeUp: end };
    const cut = cutLength({ flexibleMm: 563.2, insertAMm: 24, insertBMm: 24.1, ends: [tape, tape] });
    // hand: 611.3; root of 5^2 + 5^2 + (1/4 in = 6.35)^2 = 9.5, so the least of +15 stands; 6.35 inwards is 5. Straight ends have no facing shift.
    expect(cut.exactMm).toBeCloseTo(611.3, 9);
    expect(cut).toMatchObject({ cutLengthMm: 610, allowanceMm: [-5, 15] });
  });

  it('allows more where ports are known badly or the hose is long', () => {
    const end = straightEnd('rubber-braid-12', 12);
    const poor = { knownToMm: 20, facingKnownDeg: 5, makeUp: end };
    // hand: 2000 mm: 1 % = 20 above 72 in; root of 20^2 + 20^2 + 20^2 = 34.6 -> 35.
    expect(cutLength({ flexibleMm: 1950, insertAMm: 25, insertBMm: 25, ends: [poor, poor] }).allowanceMm).toEqual([
      -20, 35,
    ]);
  });

  it('never rounds the long side inwards or the short side outwards, and grows with every tolerance (seed 2)', () => {
    const end = straightEnd('rubber-braid-12', 12);
    const mm = fc.double({ min: 0, max: 30, noNaN: true });
    fc.assert(
      fc.property(mm, mm, fc.double({ min: 60, max: 4000, noNaN: true }), (a, more, flexibleMm) => {
        const at = (knownToMm: number) =>
          cutLength({
            flexibleMm,
            insertAMm: 20,
            insertBMm: 20,
            ends: [{ knownToMm, facingKnownDeg: 3, makeUp: end }],
          });
        const [minus, plus] = at(a).allowanceMm;
        expect(plus).toBeGreaterThanOrEqual(Math.hypot(a, cutToleranceMm(flexibleMm + 40)) - 1e-6);
        expect(-minus).toBeLessThanOrEqual(Math.max(5, cutToleranceMm(flexibleMm + 40)));
        expect(-minus).toBeGreaterThanOrEqual(5);
        expect(at(a + more).allowanceMm[1]).toBeGreaterThanOrEqual(plus);
        expect(Math.abs(at(a).cutLengthMm - at(a).exactMm)).toBeLessThanOrEqual(2.5 + 1e-9);
        expect(plus % 5).toBe(0);
        expect(minus % 5).toBe(-0);
      }),
      { seed: 2, numRuns: 200 },
    );
  });
});

describe('cutToleranceMm', () => {
  // published: RMA IP-2 (2003) table 4-8, plus or minus inch.
  it.each([
    [12, 0.125],
    [12.01, 0.188],
    [24, 0.188],
    [36, 0.25],
    [48, 0.375],
    [72, 0.5],
  ])('%d in: %d in', (lengthIn, tolIn) => {
    expect(cutToleranceMm(lengthIn * 25.4)).toBeCloseTo(tolIn * 25.4, 9);
  });
  it('is 1 % above 72 in', () => expect(cutToleranceMm(3000)).toBeCloseTo(30, 9));
});

it('facingShift is what turning the port really does along the hose, to first order (seed 9)', () => {
  // second: the drawn end, its port turned by a small angle in the plane of its bend; tail movement measured along the tail.
  const hose = shelf.findHose('rubber-braid-12')!;
  const found = endMakeUps({ end: { type: 'orb', dash: 12 } }, hose, shelf, { allowElbowAdapters: false });
  for (const makeUp of 'makeUps' in found ? found.makeUps : []) {
    const faces = [1, 0, 0] as const;
    const tail = endShape(makeUp, { at: [0, 0, 0], faces }, [0]).tail;
    const small = 1e-5;
    const moved = turned(tail.at, [0, 1, 0], small);
    const shift = Math.abs(dot(sub(moved, tail.at), tail.along)) / small;
    const angleRad = (makeUp.angleDeg * Math.PI) / 180;
    expect(facingShift(tail.at[0], tail.at[2], angleRad, 1)).toBeCloseTo(shift, 2);
  }
});

describe("the register's rows", () => {
  it.each(makeUpFormulas.map((f) => [f.id, f] as const))('%s gives its example', (_, formula) => {
    const worked = workFormula(formula, formula.example.given);
    expect(worked.ok && Number(worked.value.toPrecision(formula.example.digits))).toBe(
      Number(formula.example.gives.toPrecision(formula.example.digits)),
    );
  });
});
