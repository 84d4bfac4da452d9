import { describe, expect, it } from 'vitest';
import type { Panel } from '#car';
import { rowDraft, rowFrom } from '../flow/row-draft.ts';
import { windowPlan } from './panel-plans.ts';

const panel: Panel = {
  id: 'PN1',
  thicknessMm: 1.2,
  corners: ['A', 'B', 'C', 'D'].map((id) => ({ id })),
};
const was = {
  id: 'V1',
  shape: 'trapezoid',
  sizeMm: [420, 180],
  along: { from: 'A', to: 'B' },
  mesh: { openPercent: 60 },
};
const plan = windowPlan(panel, false);
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

  it.each([
    [{ sizeMm: '420' }, /^Along and across its edge: "420" is not that; two lengths/u],
    [{ count: '1.5' }, /no whole number/u],
    [{ cornerDrillMm: '900 mm' }, /out of range; 0\.1 to 500 mm/u],
  ] as const)('says what is wrong: %j', (texts, words) => {
    const read = made(texts as unknown as Readonly<Record<string, string>>);
    expect(read.ok ? 'none' : read.fault).toMatch(words);
  });
});
