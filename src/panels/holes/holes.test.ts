import { readyOutline, straightOutline, type Vec } from '#geometry';
import type { Car, Panel } from '#car';
import { describe, expect, it } from 'vitest';
import { panelLayouts } from '../panel-layouts.ts';
import { gapOfHoles, gapToEdge, gapToLine, holeBody } from './hole-body.ts';
import type { PanelCrossing } from './panel-crossing.ts';

/** A wall of 600 by 300 across the car at X 0, seen from behind: x on the flat is car Y. */
const wall = (more: Partial<Panel> = {}): Panel => ({
  id: 'W',
  thicknessMm: 1.2,
  outside: [1, 0, 0],
  corners: [
    { id: 'A', atMm: [0, 0, 0] },
    { id: 'B', atMm: [0, 600, 0] },
    { id: 'C', atMm: [0, 600, 300] },
    { id: 'D', atMm: [0, 0, 300] },
  ],
  ...more,
});
const crossing = (line: string, y: number, z: number, more: Partial<PanelCrossing> = {}): PanelCrossing => ({
  panel: 'W',
  line,
  at: [0, y, z],
  along: [1, 0, 0],
  odMm: 12,
  kind: 'plain',
  ...more,
});
const laid = (crossings: readonly PanelCrossing[], panel = wall()) =>
  panelLayouts({ parts: [], movers: [], panels: [panel] } as unknown as Car, { crossings })[0]!;
const told = (crossings: readonly PanelCrossing[], panel = wall()) =>
  laid(crossings, panel).findings.filter(({ code }) => code !== 'panel-flat-span' && code !== 'panel-drums');

describe('holes for what crosses a panel, by hand', () => {
  it('a plain hole has 6 mm of air all round and is a hole saw that exists', () => {
    // 12 + 2 x 6 = 24: a saw. 14.45 + 12 = 26.45: the next saw is 27.
    expect(laid([crossing('L', 100, 100)]).holes[0]).toMatchObject({ diameterMm: 24, fitted: 'plain' });
    expect(laid([crossing('L', 100, 100, { odMm: 14.45 })]).holes[0]!.diameterMm).toBe(27);
  });

  it('a hot pipe has 12 mm of air when it has moved and grown, drawn out the way it moves, and a ring of 15 mm round that', () => {
    // 17.3e-6 x 1000 mm x (520 - 20) K = 8.65 mm of growth and 9 of shake: 17.65 either way along the sheet.
    const pipe = crossing('pipe', 300, 150, {
      odMm: 76,
      surfaceC: 520,
      growsOverMm: 1000,
      growthPerMk: 17.3,
      movesMm: 9,
      movesAlong: [0, 1, 0],
    });
    const [hole] = laid([pipe]).holes;
    // 76 + 24 = 100: the next saw is 102 (101.6 is the 4 in one).
    expect(hole!.diameterMm).toBeGreaterThanOrEqual(100);
    expect(hole!.diameterMm).toBeLessThanOrEqual(102);
    expect(hole!.longMm! - hole!.diameterMm).toBeCloseTo(2 * 17.65, 6);
    expect(hole!.seal).toMatch(/^stand-off ring, 13[12] by 16[78] mm outside, on spacers$/);
    // In a wall that parts a fire from people the air round it is an opening.
    expect(told([pipe], wall({ fireSide: 'outside' })).map(({ code }) => code)).toContain('panel-fire-opening');
    expect(told([pipe]).map(({ code }) => code)).not.toContain('panel-fire-opening');
  });

  it('a hot pipe that leans is an ellipse in the sheet, and what it moves along itself asks for no room', () => {
    // 30 degrees: the saw of 102 (76 + 24 = 100 wanted) is as wide, 100 / cos 30 - 100 = 15.47 and 1.2 tan 30 = 0.69 longer.
    const along: Vec = [Math.cos(Math.PI / 6), 0, Math.sin(Math.PI / 6)];
    const pipe = { odMm: 76, surfaceC: 520, along };
    const [still] = laid([crossing('pipe', 300, 150, pipe)]).holes;
    expect(still!.longMm! - still!.diameterMm).toBeCloseTo(15.47 + 0.69, 1);
    expect(Math.abs(still!.turnDeg! % 180)).toBeCloseTo(90, 6);
    const moving = (movesAlong: Vec, more = {}) =>
      laid([crossing('pipe', 300, 150, { ...pipe, movesMm: 10, movesAlong, ...more })]).holes[0]!;
    // Along itself: nothing; square to the sheet 10 tan 30 either way; in the sheet across the lean 10 either way.
    expect(moving(along).longMm!).toBeCloseTo(still!.longMm!, 9);
    expect(moving([1, 0, 0]).longMm! - still!.longMm!).toBeCloseTo(20 * Math.tan(Math.PI / 6), 6);
    expect(moving([0, 1, 0]).longMm! - still!.diameterMm).toBeCloseTo(Math.hypot(16.16, 20), 1);
    // What grows while it moves along itself may do so any way: 17.3e-6 x 1000 x 500 = 8.65 all round, 117.3 wide.
    const grown = moving(along, { growsOverMm: 1000, growthPerMk: 17.3 });
    expect(grown.diameterMm).toBeGreaterThanOrEqual(100 + 17.3);
  });

  it('what leans 60 degrees and more takes a slot, told with its length and what 30 degrees would take', () => {
    const leaning = (deg: number): Vec => [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180), 0];
    // 12 / cos 70 = 35.1; 12 / cos 30 = 13.9.
    const row = told([crossing('L', 300, 150, { along: leaning(70) })]).find(
      ({ code }) => code === 'panel-crossing-slant',
    );
    expect(row).toMatchObject({ value: 70, limit: 60, level: 'fix', line: 'L' });
    expect(row!.text).toContain('it takes 35 mm of sheet');
    expect(row!.cures[0]).toContain('14 mm');
    expect(told([crossing('L', 300, 150, { along: leaning(50) })])).toEqual([]);
  });

  it('hexagons, lips and rings want flat sheet of their own where the holes have room', () => {
    const union = (line: string, y: number, z = 150) =>
      crossing(line, y, z, { kind: 'bulkhead-fitting', holeMm: 22, seatMm: 32, panelMaxMm: 6 });
    const codes = (rows: readonly PanelCrossing[], panel?: Panel) =>
      told(rows, panel).map(({ code, value }) => [code, value]);
    // 30 apart: rims 8 mm from each other (6 are wanted), hexagons 2 mm over each other.
    expect(codes([union('P', 300), union('Q', 330)])).toEqual([['panel-seat-collides', -2]]);
    expect(codes([union('P', 300), union('Q', 333)])).toEqual([]);
    // 14 from the edge: its rim has 14 - 11 = 3 of 6 mm, its hexagon hangs 16 - 14 = 2 over.
    expect(codes([union('P', 14)])).toEqual([
      ['panel-hole-near', 3],
      ['panel-seat-collides', -2],
    ]);
    // Beside a bend: B-C is folded up, its bend begins 4.2 mm in from the edge (R 3, T 1.2) and is 5.55 mm of sheet: its middle is 1.42 in.
    const edges: Panel['edges'] = [{ from: 'B', to: 'C', flange: { heightMm: 20, turnDeg: 90, towards: 'inside' } }];
    const folded = wall({ edges, bendRadiusMm: 3 });
    expect(codes([union('P', 560)], folded)).toEqual([]);
    const beside = codes([union('P', 600 - 4.2 - 14)], folded).find(([code]) => code === 'panel-seat-collides');
    expect(beside).toEqual(['panel-seat-collides', -2]);
    // A grommet's groove takes 3 mm of sheet.
    const thick = told(
      [crossing('G', 300, 150, { kind: 'grommet', holeMm: 18, seatMm: 24, panelMaxMm: 3 })],
      wall({ thicknessMm: 4 }),
    );
    expect(thick.find(({ code }) => code === 'panel-too-thick')).toMatchObject({ value: 4, limit: 3 });
  });

  it('a slot is told by its rim, not by a circle round it; no cure makes a hole smaller than what goes through', () => {
    // A slot of 24 by 224 along the lower edge, its rim 20 mm from it: a circle round it would run 80 mm out of the sheet.
    const slot = crossing('S', 300, 32, { movesMm: 100, movesAlong: [0, 1, 0] });
    expect(laid([slot]).holes[0]).toMatchObject({ diameterMm: 24, longMm: 224 });
    expect(told([slot])).toEqual([]);
    // Beside each other along their length: 12 + 4 + 12 apart, 4 of 6 mm.
    const near = told([slot, crossing('T', 300, 60)]);
    expect(near).toMatchObject([{ code: 'panel-hole-near', value: 4, limit: 6 }]);
    expect(near[0]!.cures).toEqual(['move it 2 mm away', 'a hole 4 mm smaller']);
    // 5 mm from the edge, 40 mm smaller would be nothing.
    const out = told([crossing('U', 5, 150)]).find(({ code }) => code === 'panel-hole-near')!;
    expect(out.cures).toEqual(['move it 13 mm away']);
  });

  it('round ones that nothing goes through keep the rules of lightening holes (common practice, no source)', () => {
    // hand: 60 at 100 and 190 leave 30 of metal, 60 wanted; 60 at 575 - 25 from the edge, 150 up: 20 to the edge, 30 wanted.
    const hole = (id: string, y: number, more: object = {}) => ({
      id,
      flatMm: [y, 150] as [number, number],
      diameterMm: 60,
      ...more,
    });
    const notes = (panel: Panel) =>
      told([], panel).map(({ code, at, value, limit, level }) => [code, at, value, limit, level]);
    expect(notes(wall({ holes: [hole('H1', 100), hole('H2', 190), hole('H3', 550)] }))).toEqual([
      ['panel-lightening', 'H1', 30, 60, 'note'],
      ['panel-lightening-rim', 'H1', 1.2, 2, 'note'],
      ['panel-lightening', 'H3', 20, 30, 'note'],
    ]);
    expect(notes(wall({ thicknessMm: 2, holes: [hole('H1', 100), hole('H2', 220)] }))).toEqual([]);
    // What something goes through or sits in is no lightening hole, nor is a pilot.
    const through = [
      hole('H1', 100, { for: 'L' }),
      hole('H2', 190, { fitted: 'drain' }),
      hole('P', 550, { diameterMm: 8 }),
    ];
    expect(notes(wall({ holes: through }))).toEqual([]);
  });

  it('what closes each is listed, with the face that the fire is on', () => {
    const rows = [
      crossing('F', 100, 150, { kind: 'bulkhead-fitting', holeMm: 22, seal: 'union' }),
      crossing('G', 200, 150, { kind: 'grommet', holeMm: 18 }),
      crossing('P', 300, 150),
    ];
    const edges = [{ from: 'A', to: 'B', sealed: true }];
    expect(laid(rows, wall({ edges })).flats[0]!.seals).toEqual([
      { at: 'F', words: 'union' },
      { at: 'G', words: 'grommet for 12 mm' },
      { at: 'P', words: 'edge strip round it', longMm: 24 * Math.PI },
      { at: 'A-B', words: 'sealed along its length', longMm: 600 },
    ]);
    const fire = laid(rows, wall({ edges, fireSide: 'inside' })).flats[0]!.seals;
    expect(fire[0]!.words).toBe('union; fire sealant on the inside face');
  });

  it('a window in such a wall is a stop, whichever way its air goes', () => {
    const windows: Panel['windows'] = [{ id: 'V', shape: 'slot', count: 3, sizeMm: [200, 60], lets: 'in' }];
    expect(told([], wall({ windows, fireSide: 'inside' })).map(({ code }) => code)).toContain('panel-fire-window');
    expect(told([], wall({ windows }))).toEqual([]);
  });
});

describe('distances between holes, by hand', () => {
  const square = holeBody({ at: [100, 100], diameterMm: 0, sizeMm: [40, 20] });
  const slot = holeBody({ at: [0, 0], diameterMm: 10, longMm: 50, turnDeg: 90 });

  it('go from rim to rim', () => {
    expect(gapOfHoles(square, holeBody({ at: [140, 100], diameterMm: 10 }))).toBeCloseTo(15, 9);
    expect(gapOfHoles(square, holeBody({ at: [100, 100], diameterMm: 4 }))).toBeLessThan(0);
    // The slot stands upright, 20 either way: its end is at Y 25, its flank 5 from its middle line.
    expect(gapOfHoles(slot, holeBody({ at: [0, 40], diameterMm: 10 }))).toBeCloseTo(10, 9);
    expect(gapToLine(slot, [30, -100], [30, 100])).toBeCloseTo(25, 9);
    expect(gapToLine(slot, [-10, 0], [10, 0])).toBeCloseTo(-5, 9);
  });

  it('to the edge of the sheet are negative where they run out of it', () => {
    const sheet = readyOutline(
      straightOutline([
        [-20, -30],
        [200, -30],
        [200, 200],
        [-20, 200],
      ]),
    );
    expect(gapToEdge(slot, sheet)).toBeCloseTo(5, 9);
    expect(gapToEdge(holeBody({ at: [0, -20], diameterMm: 10, longMm: 50, turnDeg: 90 }), sheet)).toBeCloseTo(-15, 9);
    expect(gapToEdge(square, sheet)).toBeCloseTo(80, 9);
  });
});
