import type { Car, Panel, PanelEdge } from '#car';
import { isInOutline, outlineArea } from '#geometry';
import { describe, expect, it } from 'vitest';
import { panelLayouts } from '../panel-layouts.ts';

/** A sheet of 200 by 100 at Z 0, outside up, 1.2 mm of 5052-H32; A-B and C-D are long. */
const sheet = (edges: readonly PanelEdge[], more: Partial<Panel> = {}): Panel => ({
  id: 'P',
  thicknessMm: 1.2,
  bendRadiusMm: 3,
  outside: [0, 0, 1],
  corners: [
    { id: 'A', atMm: [0, 0, 0] },
    { id: 'B', atMm: [200, 0, 0] },
    { id: 'C', atMm: [200, 100, 0] },
    { id: 'D', atMm: [0, 100, 0] },
  ],
  edges: [...edges],
  ...more,
});
const all = (panel: Panel) => panelLayouts({ parts: [], movers: [], panels: [panel] } as unknown as Car);
const laid = (panel: Panel) => all(panel)[0]!;
const rows = (panel: Panel) =>
  all(panel)
    .flatMap(({ findings }) => findings)
    // In what order they go on a brake is another question.
    .filter(({ code }) => !code.startsWith('panel-fold-'))
    .map(({ code, level, value, limit }) => [code, level, value, limit]);
const flange = (
  from: string,
  to: string,
  heightMm: number,
  turnDeg: number,
  towards: 'inside' | 'outside' = 'inside',
) => ({ from, to, flange: { heightMm, turnDeg, towards } }) as PanelEdge;

describe('flanges on opposite edges, by hand', () => {
  it('turned 135 degrees lean in by 0.71 of their height: over 100 mm they meet at 70 each', () => {
    // Mid planes 0.6 in: they cross in the middle, 50 mm from either edge: 50 / cos 45 = 70.7 up, less what 1.2 mm of sheet takes.
    expect(rows(sheet([flange('A', 'B', 60, 135), flange('C', 'D', 60, 135)]))).toEqual([]);
    const [[code, level, value, limit]] = rows(sheet([flange('A', 'B', 90, 135), flange('C', 'D', 90, 135)])) as [
      [string, string, number, number],
    ];
    expect([code, level, value]).toEqual(['panel-flanges-clash', 'stop', 90]);
    expect(limit).toBeGreaterThan(67);
    expect(limit).toBeLessThan(71);
  });

  it('the higher one is cut by the lower: 135 degrees and 110 against an upright of 90', () => {
    // An upright flange 60 high at the far edge: the leaning one comes to it at 100 / cos 45 = 141, 100 up, over its head.
    expect(rows(sheet([flange('A', 'B', 160, 135), flange('C', 'D', 60, 90)]))).toEqual([]);
    expect(rows(sheet([flange('A', 'B', 160, 135), flange('C', 'D', 120, 90)])).map(([code]) => code)).toEqual([
      'panel-flanges-clash',
    ]);
    // Folded to the other face they never meet.
    expect(rows(sheet([flange('A', 'B', 160, 135), flange('C', 'D', 120, 90, 'outside')]))).toEqual([]);
  });
});

describe('joggles, by hand', () => {
  const joggle = (stepMm: number) =>
    laid(sheet([{ from: 'A', to: 'B', joggle: { stepMm, landMm: 20, towards: 'inside' } }]));

  it('6 mm: two bends of 45 degrees with 5.5 of slope between, their allowances, then the land', () => {
    // 2R + T = 7.2: L = (6 - 7.2 (1 - cos 45)) / sin 45 = 5.503. BA = pi/4 (3 + 0.447 x 1.2) = 2.7776.
    const { flats, edges } = joggle(6);
    const folds = flats[0]!.folds;
    expect(folds.map(({ way, turnDeg }) => [way, turnDeg])).toEqual([
      ['down', 45],
      ['up', 45],
    ]);
    const ys = folds.map(({ from }) => from[1]).sort((a, b) => b - a);
    expect(ys[0]! - ys[1]!).toBeCloseTo(5.503 + 2.7776, 2);
    const reach = Math.min(...flats[0]!.outline.map(({ at }) => at[1]));
    expect(ys[1]! - reach).toBeCloseTo(2.7776 / 2 + 20, 2);
    expect(edges[0]!.strip!.landMm).toBeCloseTo(20, 6);
    // The measured edge is scribed: there it begins.
    expect(flats[0]!.marks.map(({ from, name }) => [from[1], name])).toEqual([[0, 'measured edge A-B']]);
  });

  it('1.2 mm, one sheet: the bends meet at acos(1 - 1.2 / 7.2) = 33.56 degrees, nothing straight between', () => {
    const folds = joggle(1.2).flats[0]!.folds;
    expect(folds[0]!.turnDeg).toBeCloseTo(33.56, 2);
    const ys = folds.map(({ from }) => from[1]);
    expect(Math.abs(ys[0]! - ys[1]!)).toBeCloseTo((33.557 * Math.PI * (3 + 0.447 * 1.2)) / 180, 2);
  });
});

describe('tabs, by hand', () => {
  const tabs = { count: 3, widthMm: 30, heightMm: 20, turnDeg: 90, towards: 'inside' as const };

  it('stand in equal steps; between them the sheet ends on its measured edge', () => {
    const { flats, edges } = laid(sheet([{ from: 'A', to: 'B', tabs }]));
    const [first, second, third] = edges[0]!.tabs!;
    const middle = (tab: typeof first) => (tab!.start[0]![0] + tab!.end[0]![0]) / 2;
    expect(middle(second) - middle(first)).toBeCloseTo(middle(third) - middle(second), 6);
    expect(middle(second)).toBeCloseTo(100, 6);
    expect(first!.end[0]![0] - first!.start[0]![0]).toBeCloseTo(30, 6);
    // Each begins at its own tangent line, SB = R + T = 4.2 in; flat beyond: BA 5.555, then 20 - 4.2: 17.155 out of the edge.
    const out = Math.min(...flats[0]!.outline.map(({ at }) => at[1]));
    expect(out).toBeCloseTo(-(-4.2 + (Math.PI / 2) * (3 + 0.447 * 1.2) + 20 - 4.2), 2);
    const isIn = (x: number, y: number) => isInOutline(flats[0]!.outline, [x, y]);
    expect([isIn(100, -10), isIn(60, -10), isIn(60, 1), isIn(60, -1)]).toEqual([true, false, true, false]);
  });

  it('flat ones, not bent, go straight on by their height', () => {
    const bare = outlineArea(laid(sheet([])).flats[0]!.outline);
    const { flats } = laid(sheet([{ from: 'A', to: 'B', tabs: { ...tabs, turnDeg: 0 } }]));
    expect(Math.min(...flats[0]!.outline.map(({ at }) => at[1]))).toBeCloseTo(-20, 6);
    // Three of 30 by 20, less rounded corners and slits.
    expect(outlineArea(flats[0]!.outline) - bare).toBeGreaterThan(3 * 30 * 20 - 40);
    expect(outlineArea(flats[0]!.outline) - bare).toBeLessThanOrEqual(3 * 30 * 20 + 1e-6);
  });
});

describe('splits, by hand', () => {
  it('a corner 30 mm up is split from A to C: two triangles with a lap of 20 mm on the first', () => {
    const twisted = sheet([], {
      corners: [
        { id: 'A', atMm: [0, 0, 0] },
        { id: 'B', atMm: [200, 0, 0] },
        { id: 'C', atMm: [200, 100, 30] },
        { id: 'D', atMm: [0, 100, 0] },
      ],
      creases: [{ from: 'A', to: 'C', kind: 'split', overlapMm: 20 }],
    });
    const pieces = all(twisted);
    expect(pieces.map(({ piece }) => piece)).toEqual([
      { number: 1, of: 2 },
      { number: 2, of: 2 },
    ]);
    // Sides in space: AB 200, BC root(100^2 + 30^2) = 104.40, CA root(200^2 + 100^2 + 30^2) = 225.61; AD 100, DC root(200^2 + 30^2) = 202.24. Heron.
    const heron = (a: number, b: number, c: number) => {
      const s = (a + b + c) / 2;
      return Math.sqrt(s * (s - a) * (s - b) * (s - c));
    };
    const areas = pieces.map(({ flats }) => outlineArea(flats[0]!.outline));
    expect(areas[1]).toBeCloseTo(heron(100, 202.237, 225.61), 0);
    // The lap runs along CA, cut to the lines of its neighbours: 20 wide, about 225 long.
    expect(areas[0]! - heron(200, 104.403, 225.61)).toBeGreaterThan(20 * 200);
    expect(areas[0]! - heron(200, 104.403, 225.61)).toBeLessThan(20 * 290);
    expect(pieces[0]!.flats[0]!.marks.map(({ name }) => name)).toEqual(['measured edge C-A']);
    expect(pieces[1]!.flats[0]!.marks).toEqual([]);
  });
});

describe('reliefs of a twist, by hand', () => {
  const corners = [
    { id: 'A', atMm: [0, 0, 0] },
    { id: 'B', atMm: [200, 0, 0] },
    { id: 'C', atMm: [200, 100, 30] },
    { id: 'D', atMm: [0, 100, 0] },
  ] satisfies Panel['corners'];
  const relieved = (more: object, edges: Panel['edges'] = []) =>
    laid(sheet(edges, { corners: [...corners], creases: [{ from: 'A', to: 'C', kind: 'relief', ...more }] }));

  it('a slit from A ends in a hole short of C, and only what is left is folded', () => {
    const [flat] = relieved({ neckMm: 40 }).flats;
    const creased = laid(sheet([], { corners: [...corners], creases: [{ from: 'A', to: 'C', kind: 'crease' }] }))
      .flats[0]!;
    expect(flat!.outline).toEqual(creased.outline);
    const [slit] = flat!.slits!;
    const [stop] = flat!.holes;
    // The hole of a bend's relief: two inside radii, 6 mm. AC is root(200^2 + 100^2 + 30^2) = 225.61 long.
    expect(stop).toMatchObject({ diameterMm: 6, for: 'end of relief A-C', corner: true });
    expect(slit!.from).toEqual(stop!.at);
    expect(Math.hypot(slit!.to[0] - slit!.from[0], slit!.to[1] - slit!.from[1])).toBeCloseTo(225.61 - 40 - 3, 0);
    expect(Math.hypot(...slit!.to)).toBeLessThan(0.3);
    const [fold] = flat!.folds;
    expect(Math.hypot(fold!.to[0] - fold!.from[0], fold!.to[1] - fold!.from[1])).toBeCloseTo(40, 9);
    expect(fold!.turnDeg).toBe(creased.folds[0]!.turnDeg);
    // From the other end, and beyond half the diagonal it is no slit any more: half is left.
    const other = laid(
      sheet([], { corners: [...corners], creases: [{ from: 'C', to: 'A', kind: 'relief', neckMm: 500 }] }),
    ).flats[0]!;
    expect(Math.hypot(other.folds[0]!.from[0], other.folds[0]!.from[1])).toBeCloseTo(225.61 / 2, 0);
  });

  it('a slit goes out through a flange that ends at its corner', () => {
    const [flat] = relieved({}, [flange('A', 'B', 20, 90), flange('D', 'A', 20, 90)]).flats;
    const { to } = flat!.slits![0]!;
    // The relief hole of the two flanges, 3 mm round its middle, is where the slit comes out.
    const corner = flat!.holes.find(({ for: what }) => what === 'relief')!;
    expect(Math.hypot(to[0] - corner.at[0], to[1] - corner.at[1])).toBeLessThan(3.01);
  });

  it('what springs a plate in and what bends a neck are told, by their closed forms', () => {
    const { findings } = laid(sheet([], { corners: [...corners] }));
    const { cures } = findings.find(({ code }) => code === 'panel-twisted')!;
    // hand: 159 MPa x 50 mm x 1.2^2 / 4 = 2862 N mm. A corner 30 mm up on 100 mm is no small turn: nothing is said of springing.
    expect(cures.filter((cure) => cure.startsWith('relieve'))).toEqual([
      expect.stringMatching(
        /slit from . towards . to a 6 mm hole 50 mm short of ., where it is bent [\d.]+ degrees by hand \(2\.9 N m\)/,
      ),
    ]);
    expect(cures.some((cure) => cure.includes('spring'))).toBe(false);
    const low = [...corners.slice(0, 2), { id: 'C', atMm: [200, 100, 8] }, corners[3]!] satisfies Panel['corners'];
    const gentle = laid(sheet([], { corners: low })).findings.find(({ code }) => code === 'panel-twisted')!;
    // hand: E t^3 h / (6 (1 + nu) a b) with E of 5052, 69.6 GPa: 69600 x 1.728 x 8 / (6 x 1.33 x 200.1 x 100.2) = 6.0 N; 3 P / t^2 = 12.5 MPa.
    expect(gentle.cures.find((cure) => cure.includes('spring'))).toMatch(/6\.0 N at each corner, 12\.5 MPa of shear/);
    const stiff = laid(sheet([flange('A', 'B', 20, 90)], { corners: low })).findings;
    expect(stiff.find(({ code }) => code === 'panel-twisted')!.cures.some((cure) => cure.includes('spring'))).toBe(
      false,
    );
  });
});

describe('relief holes, by hand', () => {
  const both = (reliefMm?: number) =>
    sheet([{ ...flange('A', 'B', 20, 90), ...(reliefMm === undefined ? {} : { reliefMm }) }, flange('B', 'C', 20, 90)]);
  const relief = (panel: Panel) => laid(panel).flats[0]!.holes.filter(({ for: what }) => what === 'relief');

  it('are two inside radii, 6 mm, where nothing is said; what the builder has stands, and is told where it is less', () => {
    expect(relief(both()).map(({ diameterMm }) => diameterMm)).toEqual([6]);
    expect(relief(both(8)).map(({ diameterMm }) => diameterMm)).toEqual([8]);
    expect(rows(both(8))).toEqual([]);
    expect(relief(both(4)).map(({ diameterMm }) => diameterMm)).toEqual([4]);
    expect(rows(both(4))).toEqual([['panel-relief-small', 'fix', 4, 6]]);
  });
});
