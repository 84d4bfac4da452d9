import type { Car, Panel } from '#car';
import { describe, expect, it } from 'vitest';
import type { PanelCrossing } from '../holes/panel-crossing.ts';
import { panelLayouts } from '../panel-layouts.ts';
import { carFromFlat } from './flat-frame.ts';

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

describe('a panel from a template that is worked like any other', () => {
  const work = (a: string, b: string, c: string, d: string): Partial<Panel> => ({
    bendRadiusMm: 3,
    edges: [
      { from: a, to: b, flange: { heightMm: 20, turnDeg: 90, towards: 'inside' } },
      { from: c, to: d, fixing: { kind: 'rivet', size: '3.2', pitchMm: 60 } },
    ],
    windows: [{ id: 'V', shape: 'trapezoid', count: 2, sizeMm: [160, 60], along: { from: a, to: b } }],
  });
  const measured: Panel = {
    id: 'wall',
    thicknessMm: 1.2,
    outside: [1, 0, 0],
    corners: [
      { id: 'A', atMm: [1000, 0, 100] },
      { id: 'B', atMm: [1000, 300, 100] },
      { id: 'C', atMm: [1000, 300, 300] },
      { id: 'D', atMm: [1000, 0, 300] },
    ],
    ...work('A', 'B', 'C', 'D'),
  };

  it('has the flange, the fixings, the windows and the folded solid of the same panel by its corners', () => {
    const [card1, wall] = [laid(card(work('c1', 'c2', 'c3', 'c4')), []), laid(measured, [])];
    const drawn = (layout: typeof wall) => {
      const [flat] = layout.flats;
      return {
        outline: flat!.outline.map(({ at, bulge = 0 }) => [...at, bulge].map((x) => x.toFixed(6))),
        cuts: flat!.cutOuts.map(({ outline }) => outline.map(({ at }) => rounded(at))),
        holes: flat!.holes.map(({ at, diameterMm }) => [...rounded(at), diameterMm]),
        folds: flat!.folds.map(({ from, to, turnDeg }) => [rounded(from), rounded(to), turnDeg]),
        top: flat!.words.map(({ text, at }) => [text.replace('wall', 'card'), rounded(at)]),
      };
    };
    expect(drawn(card1)).toEqual(drawn(wall));
    expect(card1.findings.map(({ code }) => code)).toEqual(wall.findings.map(({ code }) => code));
    expect(card1.edges.map(({ id }) => id)).toEqual(['c1-c2', 'c2-c3', 'c3-c4', 'c4-c1']);
  });

  it('keeps its arcs and its own openings, which windows keep off; holes stay in its own axes; from the inside it is turned over', () => {
    // Its top bulges by a quarter of 200 mm of chord: tan(22.5 deg); an opening of 40 by 40 from 130 to 170, 80 to 120.
    const template = {
      ...card().template!,
      outlineMm: [
        [0, 0],
        [300, 0],
        [300, 200],
        [250, 200, Math.tan(Math.PI / 8)],
        [50, 200],
        [0, 200],
      ] as NonNullable<Panel['template']>['outlineMm'],
      holesMm: [
        [
          [130, 80],
          [170, 80],
          [170, 120],
          [130, 120],
        ],
      ] as NonNullable<Panel['template']>['outlineMm'][],
    };
    const holes: Panel['holes'] = [{ id: 'H', flatMm: [50, 60], diameterMm: 16 }];
    const { edges } = work('c1', 'c2', 'c3', 'c4');
    const layout = laid(card({ template, holes, edges: edges!.slice(0, 1), bendRadiusMm: 3 }));
    const [flat] = layout.flats;
    // Chord 200, tan(22.5): radius 141.42, bow 41.42: the arc's highest point stands at 241.42.
    const arc = flat!.outline.find(({ bulge = 0 }) => Math.abs(bulge - Math.tan(Math.PI / 8)) < 1e-3);
    expect(arc).toBeDefined();
    const own = flat!.cutOuts.find(({ name }) => name === 'opening 1')!.outline;
    expect(own.map(({ at }) => rounded(at)).toSorted((a, b) => a[0]! - b[0]! || a[1]! - b[1]!)).toEqual([
      [130, 80],
      [130, 120],
      [170, 80],
      [170, 120],
    ]);
    expect(flat!.holes.filter(({ for: what }) => what === 'H').map(({ at }) => rounded(at))).toEqual([[50, 60]]);
    const over = laid(card({ template, holes, outside: [-1, 0, 0], edges: edges!.slice(0, 1), bendRadiusMm: 3 }));
    expect(over.findings.map(({ code }) => code)).toContain('panel-template-turned');
    // On the car the hole is where it was.
    const [here, there] = [layout, over].map(({ holes: [hole], facets }) => carFromFlat(facets[0]!.frame, hole!.at));
    expect(here!.map((mm) => Math.round(mm))).toEqual(there!.map((mm) => Math.round(mm)));
    // So is the opening, 130 to 170 along and 80 to 120 up, though its outline runs the other way round.
    const inCar = (of: typeof layout) =>
      of.flats[0]!.cutOuts.find(({ name }) => name === 'opening 1')!
        .outline.map(({ at }) => rounded(carFromFlat(of.facets[0]!.frame, at)).join(' '))
        .toSorted();
    expect(inCar(over)).toEqual(['1000 130 180', '1000 130 220', '1000 170 180', '1000 170 220']);
    expect(inCar(layout)).toEqual(inCar(over));
    // A window that would lie over the opening is refused by its name.
    const [stop] = laid(
      card({
        template,
        windows: [
          { id: 'V', shape: 'trapezoid', count: 1, sizeMm: [100, 60], centreAlongMm: 205, centreAcrossMm: 100 },
        ],
      }),
      [],
    ).findings.filter(({ code }) => code === 'panel-window-no-room');
    expect(stop!.text).toMatch(/too near to opening 1/);
  });
});
