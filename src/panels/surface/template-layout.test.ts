import type { Car, Panel } from '#car';
import { describe, expect, it } from 'vitest';
import type { PanelCrossing } from '../holes/panel-crossing.ts';
import { panelLayouts } from '../panel-layouts.ts';

/** A card of 300 by 200 found on a wall at X 1000: its x runs along car Y, its y up. */
const card = (more: Partial<Panel> = {}): Panel => ({
  id: 'card',
  thicknessMm: 1.2,
  outside: [1, 0, 0],
  template: {
    outlineMm: [
      [0, 0],
      [300, 0],
      [300, 200],
      [0, 200],
    ],
    knownToMm: 1,
    matches: [
      { flatMm: [0, 0], atMm: [1000, 0, 100] },
      { flatMm: [300, 0], atMm: [1000, 300, 100] },
      { flatMm: [0, 200], atMm: [1000, 0, 300] },
    ],
  },
  ...more,
});
const hose: PanelCrossing = {
  panel: 'card',
  line: 'L',
  at: [1000, 150, 200],
  along: [1, 0, 0],
  odMm: 12,
  kind: 'plain',
};
const laid = (panel: Panel, crossings: readonly PanelCrossing[] = [hose]) =>
  panelLayouts({ parts: [], movers: [], panels: [panel] } as unknown as Car, { crossings })[0]!;
const rounded = (at: readonly number[]) => at.map((x) => Math.round(x) + 0);

describe('a panel from a template, by hand', () => {
  it('is cut for what goes through it and for its own holes, on either face', () => {
    const holes: Panel['holes'] = [{ id: 'H', for: 'switch', flatMm: [50, 60], diameterMm: 16, fitted: 'grommet' }];
    const flat = laid(card({ holes })).flats[0]!;
    expect(flat.holes.map(({ for: what, at, diameterMm }) => [what, rounded(at), diameterMm])).toEqual([
      ['switch', [50, 60], 16],
      ['L', [150, 100], 24],
    ]);
    expect(flat.seals.map(({ at }) => at)).toEqual(['switch', 'L']);
    // Traced from the inside it is turned over: x runs the other way.
    const over = laid(card({ holes, outside: [-1, 0, 0] })).flats[0]!;
    expect(over.holes.map(({ at }) => rounded(at))).toEqual([
      [-50, 60],
      [-150, 100],
    ]);
  });

  it('is told where a hole runs out of it; without its place on the car nothing crosses it', () => {
    const near = laid(card(), [{ ...hose, at: [1000, 295, 200] }]).findings.map(({ code, value }) => [code, value]);
    // 5 mm from the edge, 12 of radius.
    expect(near).toEqual([['panel-hole-near', -7]]);
    const { template } = card();
    const lost = laid(card({ template: { ...template!, matches: [] } }));
    expect(lost.holes).toEqual([]);
    expect(lost.flats[0]!.words.map(({ text }) => text)).toEqual(['card: OUTSIDE FACE']);
  });

  it('says TOP by the edge that is highest on the car, to be read with it upwards', () => {
    const top = (outside: readonly [number, number, number], matches: NonNullable<Panel['template']>['matches']) =>
      laid(card({ outside: [...outside], template: { ...card().template!, matches } })).flats[0]!.words.find(
        ({ text }) => text === 'TOP',
      );
    const upright = top([1, 0, 0], card().template!.matches)!;
    expect(upright.turnDeg).toBeCloseTo(0, 6);
    expect(upright.at[1]).toBeGreaterThan(110);
    // Hung upside down it is read from the other side: x runs to the left, y down.
    const hung = top(
      [1, 0, 0],
      [
        { flatMm: [0, 0], atMm: [1000, 300, 300] },
        { flatMm: [300, 0], atMm: [1000, 0, 300] },
        { flatMm: [0, 200], atMm: [1000, 300, 100] },
      ],
    )!;
    expect(Math.abs(hung.turnDeg)).toBeCloseTo(180, 6);
    expect(hung.at[1]).toBeLessThan(90);
    // Lying flat it has none.
    const level = top(
      [0, 0, 1],
      [
        { flatMm: [0, 0], atMm: [1000, 0, 100] },
        { flatMm: [300, 0], atMm: [1300, 0, 100] },
        { flatMm: [0, 200], atMm: [1000, 200, 100] },
      ],
    );
    expect(level).toBeUndefined();
  });
});
