import { describe, expect, it } from 'vitest';
import type { Car, Panel } from '#car';
import { rowDraft, rowFrom } from '../flow/row-draft.ts';
import { windowPlan } from './panel-plans.ts';

const panel: Panel = {
  id: 'PN1',
  thicknessMm: 1.2,
  corners: ['A', 'B', 'C', 'D'].map((id) => ({ id })),
};
const carOf = (panels: readonly Panel[]): Car =>
  ({ fairlead: 1, name: 'C', parts: [], lines: [], panels: [...panels] }) as unknown as Car;
const was = {
  id: 'V1',
  shape: 'trapezoid',
  sizeMm: [420, 180],
  along: { from: 'A', to: 'B' },
  mesh: { openPercent: 60 },
};
const car = carOf([panel, { ...panel, id: 'PN2' }, { ...panel, id: 'PN3' }]);
const plan = windowPlan(car, panel);
const made = (texts: Readonly<Record<string, string>>, law?: string) => {
  const draft = rowDraft(plan, was, true);
  return rowFrom(plan, { texts: { ...draft.texts, ...texts }, law: law ?? draft.law }, was, true);
};

describe('a window as a form', () => {
  it('comes back as it was', () => {
    expect(made({})).toEqual({ ok: true, value: was });
  });

  it.each([
    ['420 x 180 mm', [420, 180]],
    ['16 1/2 in; 7 in', [419.1, 177.8]],
    ['16 1/2 × 7', [419.1, 177.8]],
    ['16.5 by 7 in', [419.1, 177.8]],
    ['42 cm, 18 cm', [420, 180]],
  ] as const)('reads a size of %s', (text, sizeMm) => {
    expect(made({ sizeMm: text })).toMatchObject({ ok: true, value: { sizeMm } });
  });

  it('is of a free area instead, in square inches too; its size goes', () => {
    // hand: 40 * 2.54 * 2.54 = 258.064.
    const read = made({ freeCm2: '40 sq in' }, 'free');
    expect(read).toMatchObject({ ok: true, value: { freeCm2: 258.064 } });
    expect(read.ok && 'sizeMm' in read.value).toBe(false);
  });

  it('goes on over other panels, and has an outline of its own', () => {
    expect(made({ inLineWith: 'PN3, PN2 PN3' })).toMatchObject({ ok: true, value: { inLineWith: ['PN3', 'PN2'] } });
    const own = made({ shape: 'own', outlineMm: '-20 -15; 20 −15 0.2;\n14,15; -14 15 mm' });
    const outlineMm = [
      [-20, -15],
      [20, -15, 0.2],
      [14, 15],
      [-14, 15],
    ];
    expect(own).toMatchObject({ ok: true, value: { shape: 'own', outlineMm } });
    // hand: 0.8 in is 20.32 mm, 5/8 in is 15.875; a bulge has no unit.
    const inches = made({ shape: 'own', outlineMm: '-0.8 x -5/8; 0.8 x -5/8 x 0.2; 0 x 1/2 in' });
    expect(inches).toMatchObject({
      ok: true,
      value: {
        outlineMm: [
          [-20.32, -15.875],
          [20.32, -15.875, 0.2],
          [0, 12.7],
        ],
      },
    });
    const kept = { ...was, shape: 'own', outlineMm, inLineWith: ['PN2'] };
    const again = rowDraft(plan, kept, false);
    expect([again.texts['outlineMm'], again.texts['inLineWith']]).toEqual([
      '-20 -15; 20 -15 0.2; 14 15; -14 15 mm',
      'PN2',
    ]);
    expect(rowFrom(plan, again, kept, false)).toEqual({ ok: true, value: kept });
  });

  it('a bare area is in square inches where the builder works in inches', () => {
    // hand: 48 * 2.54 * 2.54 = 309.677.
    expect(made({ freeCm2: '48' }, 'free')).toMatchObject({ ok: true, value: { freeCm2: 309.6768 } });
    expect(rowDraft(plan, { ...was, freeCm2: 309.6768 }, true).texts['freeCm2']).toBe('48 sq in');
    expect(rowDraft(plan, { ...was, freeCm2: 310 }, false).texts['freeCm2']).toBe('310');
  });

  it.each([
    [{ inLineWith: 'PN2 PN9' }, /over the panels: "PN9" is none of them; allowed: PN2, PN3$/u],
    [{ outlineMm: '1 2; 3' }, /corner 2 is not two lengths/u],
    [{ outlineMm: '1 2; 3 4' }, /2 stand there; three corners or more/u],
    [{ sizeMm: '420' }, /^Along and across its edge: "420" is not that; two lengths/u],
    [{ count: '1.5' }, /no whole number/u],
    [{ cornerDrillMm: '900 mm' }, /out of range; 0\.1 to 500 mm/u],
  ] as const)('says what is wrong: %j', (texts, words) => {
    const read = made(texts as unknown as Readonly<Record<string, string>>);
    expect(read.ok ? 'none' : read.fault).toMatch(words);
  });
});
