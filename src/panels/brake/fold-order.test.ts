import type { Car, Panel, PanelEdge } from '#car';
import { describe, expect, it } from 'vitest';
import { panelLayouts } from '../panel-layouts.ts';

/** A sheet of 1.2 mm with bends of 3 mm inside, outside up: A-B and C-D are 200 long, `wide` apart. */
const sheet = (wide: number, edges: readonly PanelEdge[]): Panel => ({
  id: 'P',
  thicknessMm: 1.2,
  bendRadiusMm: 3,
  outside: [0, 0, 1],
  corners: [
    { id: 'A', atMm: [0, 0, 0] },
    { id: 'B', atMm: [200, 0, 0] },
    { id: 'C', atMm: [200, wide, 0] },
    { id: 'D', atMm: [0, wide, 0] },
  ],
  edges: [...edges],
});
const flange = (from: string, to: string, heightMm: number, towards = 'inside', turnDeg = 90) =>
  ({ from, to, flange: { heightMm, turnDeg, towards } }) as PanelEdge;
const told = (panel: Panel, brake?: NonNullable<Car['workshop']>['brake']) =>
  panelLayouts({ parts: [], movers: [], panels: [panel], ...(brake && { workshop: { brake } }) } as unknown as Car)
    .flatMap(({ findings }) => findings)
    .filter(({ code }) => code.startsWith('panel-fold'));

describe('what a brake reaches, by hand', () => {
  it('a channel wider than the nose is deep goes in any order', () => {
    expect(told(sheet(100, [flange('A', 'B', 20), flange('C', 'D', 20)]))).toEqual([]);
  });

  it('in a narrow one the first flange stands where the nose is, whichever is first', () => {
    // Between the flanges 30 - 2 x 1.2 = 27.6; the bend begins 3 mm out from its own flange: 24.6 mm for a nose of 40.
    const narrow = sheet(30, [flange('A', 'B', 20), flange('C', 'D', 20)]);
    expect(told(narrow)).toMatchObject([
      {
        code: 'panel-fold-no-order',
        level: 'note',
        value: 24.6,
        limit: 40,
        text: expect.stringMatching(/small box-and-pan/),
      },
    ]);
    expect(told(narrow, { noseMm: 30 })).toMatchObject([{ level: 'fix', limit: 30, at: 'A-B' }]);
    expect(told(narrow, { noseMm: 24.7 })).toHaveLength(1);
    expect(told(narrow, { noseMm: 24, beamMm: 100 })).toEqual([]);
    // Leant in by 45 degrees beyond upright its tip comes (20 - 1.2 - ...) sin 45 nearer.
    const [leant] = told(sheet(60, [flange('A', 'B', 20, 'inside', 135), flange('C', 'D', 20, 'inside', 135)]));
    expect(leant).toMatchObject({ code: 'panel-fold-no-order' });
  });

  it('a flange higher than the fingers comes last, where the other is lower', () => {
    // 70 wide: 64.6 behind the bend is beyond the nose but under the beam, which is 75 up and 100 deep; 90 high less 1.2 is 88.8.
    const found = told(sheet(70, [flange('C', 'D', 90), flange('A', 'B', 20)]));
    expect(found).toMatchObject([{ code: 'panel-fold-order', level: 'note', cures: ['fold A-B, then C-D'] }]);
    expect(found[0]!.text).toMatch(/with A-B last, C-D stands 89 mm up, and the beam is 75 mm over the sheet/);
    const both = told(sheet(70, [flange('C', 'D', 90), flange('A', 'B', 80)]));
    expect(both).toMatchObject([{ code: 'panel-fold-no-order', limit: 75 }]);
    expect(both[0]!.cures[0]).toMatch(/no higher than 75 mm/);
  });

  it('folds that go either way hold each other off the bed', () => {
    // 50 wide: the one that is down stands 50 - 1.2 - ... behind the bend, on a bed of 60.
    const zed = sheet(50, [flange('A', 'B', 20), flange('C', 'D', 20, 'outside')]);
    expect(told(zed)).toMatchObject([{ code: 'panel-fold-no-order', limit: 60 }]);
    expect(told(zed, { bedMm: 40 })).toEqual([]);
  });

  it('the last side of a box goes between the two beside it only with fingers that are narrow enough', () => {
    const box = (wide: number) =>
      sheet(wide, [flange('A', 'B', 20), flange('B', 'C', 20), flange('C', 'D', 20), flange('D', 'A', 20)]);
    expect(told(box(120))).toEqual([]);
    expect(told(box(120), { fingerMm: 0 })).toMatchObject([
      { code: 'panel-fold-no-order', text: expect.stringMatching(/the bar has no fingers/) },
    ]);
    expect(told(box(120), { fingerMm: 150 })).toMatchObject([
      { code: 'panel-fold-order', cures: [expect.stringMatching(/then (A-B|C-D)$/)] },
    ]);
    // Three sides hang off the end of a straight bar.
    const three = sheet(120, [flange('A', 'B', 20), flange('B', 'C', 20), flange('C', 'D', 20)]);
    expect(told(three, { fingerMm: 0 })).toMatchObject([{ code: 'panel-fold-order' }]);
  });
});
