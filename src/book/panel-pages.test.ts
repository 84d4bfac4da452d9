import { type FlatPattern, movedPattern } from '#panels';
import { describe, expect, it } from 'vitest';
import { chance, lid } from '../../test/panels/shapes.ts';
import type { Drawing, PolylineShape, Shape, TextShape } from './drawing.ts';
import { checkMm } from './check-square.ts';
import { labelBox } from './label-boxes.ts';
import { nestPages } from './nest-pages.ts';
import { holeList, panelLists } from './panel-lists.ts';
import { listColumns, panelPages } from './panel-pages.ts';
import { panelSheet } from './panel-sheet.ts';
import { PAGE_PAPERS } from './paper-sizes.ts';
import { OVERLAP_MM, tilingOf } from './tiles.ts';

/** Nothing smaller is read at arm's length: 9 points [mm]. */
const NINE_POINTS_MM = (9 * 25.4) / 72;

interface Placed {
  readonly shape: Exclude<Shape, { kind: 'group' }>;
  readonly x: number;
  readonly y: number;
  readonly isClipped: boolean;
}

const flatOut = (shapes: readonly Shape[], x = 0, y = 0, isClipped = false): Placed[] =>
  shapes.flatMap((shape) =>
    shape.kind === 'group'
      ? flatOut(shape.shapes, x + shape.offset[0], y + shape.offset[1], isClipped || shape.clip !== undefined)
      : [{ shape, x, y, isClipped }],
  );

const textsOf = (drawing: Drawing): string[] =>
  flatOut(drawing.shapes).flatMap(({ shape }) => (shape.kind === 'text' ? [shape.text] : []));

/** A panel with many holes, so that its lists go over several columns and pages. */
const manyHoles = (count: number): FlatPattern => {
  const draw = chance(3);
  return {
    ...lid,
    holes: Array.from({ length: count }, (_, i) => ({
      at: [Math.round(draw() * 500), Math.round(draw() * 300)] as const,
      diameterMm: 4,
      for: `rivet ${i + 1}`,
    })),
  };
};

describe('a panel as pages', () => {
  it.each(PAGE_PAPERS)('on %s keeps words at nine points, inside the page', (paper) => {
    for (const page of panelPages(manyHoles(150), { paper, car: 'Shed special' }))
      for (const { shape, x, y, isClipped } of flatOut(page.shapes)) {
        if (shape.kind !== 'text') continue;
        expect(shape.size, shape.text).toBeGreaterThanOrEqual(NINE_POINTS_MM);
        if (isClipped || (shape.turnDeg ?? 0) !== 0) continue;
        const box = labelBox(shape as TextShape, x, y);
        expect(box.left, shape.text).toBeGreaterThanOrEqual(9.9);
        expect(box.right, shape.text).toBeLessThanOrEqual(page.width - 9.9);
        expect(box.bottom, shape.text).toBeLessThanOrEqual(page.height - 8);
      }
  });

  it('numbers every hole at its place and in the list, once each', () => {
    const pattern = manyHoles(150);
    const pages = panelPages(pattern, { paper: 'A4' });
    const rows = pages.flatMap(textsOf).filter((text) => /^rivet \d+$/.test(text));
    expect(rows).toEqual(pattern.holes.map((hole) => hole.for));
    const sheet = panelSheet(pattern);
    for (let n = 1; n <= 150; n++)
      expect(textsOf(sheet).filter((text) => text === String(n)).length, `no. ${n}`).toBeGreaterThanOrEqual(2);
  });

  it('has a check on every page that is full size, and says how to read it', () => {
    const pages = panelPages(lid, { paper: 'A4' });
    const tiles = pages.slice(-tilingOf(lid, 'A4').tiles.length);
    for (const tile of [pages[0]!, ...tiles]) {
      const shapes = flatOut(tile.shapes).map((placed) => placed.shape);
      const square = shapes.some((s) => s.kind === 'rect' && s.width === checkMm(false) && s.height === checkMm(false));
      const angle = textsOf(tile).includes('50 mm along and up: measure me');
      expect(square || angle, tile.title).toBe(true);
    }
    for (const word of ['TOP', 'OUTSIDE FACE', 'grain', 'y']) expect(tiles.flatMap(textsOf)).toContain(word);
    expect(textsOf(pages[0]!).join(' ')).toMatch(/deburr every edge/);
  });

  it('says on every tile which way TOP is and how far off the datum lies', () => {
    // The lower edge is marked: the arrow must point down, and the flat's own word is on one tile only.
    const turned = { ...lid, words: lid.words.map((word) => ({ ...word, turnDeg: word.text === 'TOP' ? 180 : 0 })) };
    for (const inches of [false, true]) {
      const tiles = panelPages(turned, { paper: 'A4', inches }).slice(-tilingOf(lid, 'A4').tiles.length);
      let told = 0;
      for (const tile of tiles) {
        const placed = flatOut(tile.shapes);
        const own = placed.filter(({ isClipped }) => !isClipped);
        expect(own.some(({ shape }) => shape.kind === 'text' && shape.text === 'TOP')).toBe(true);
        const head = own.find(({ shape }) => shape.kind === 'polyline' && shape.fill === 'blue')!;
        const [tip, ...barbs] = (head.shape as PolylineShape).points;
        for (const barb of barbs) expect(tip![1]).toBeGreaterThan(barb[1] + 2);
        // second: the dot and the cross as they are drawn; the page's y goes down.
        const circle = (radius: number) =>
          placed.flatMap(({ shape, x, y }) =>
            shape.kind === 'circle' && shape.radius === radius
              ? [{ x: x + shape.centre[0], y: y + shape.centre[1] }]
              : [],
          );
        const dot = circle(1.2)[0]!;
        const cross = circle(2.5).reduce((a, b) => (b.y - b.x > a.y - a.x ? b : a));
        const words = own.flatMap(({ shape }) => (shape.kind === 'text' ? [shape.text] : [])).join(' | ');
        const said = /lower left cross: x (-?[\d.]+), y (-?[\d.]+) (mm|in) from the datum/u.exec(words);
        if (said === null) {
          expect(words).toContain('the blue dot on this tile');
          continue;
        }
        told++;
        expect(said[3]).toBe(inches ? 'in' : 'mm');
        const unit = inches ? 25.4 : 1;
        expect(Math.abs(Number(said[1]) * unit - (cross.x - dot.x))).toBeLessThan(inches ? 0.13 : 0.051);
        expect(Math.abs(Number(said[2]) * unit - (dot.y - cross.y))).toBeLessThan(inches ? 0.13 : 0.051);
      }
      expect(told).toBe(tiles.length - 1);
    }
  });

  it('shows lengths in inches where they are asked for', () => {
    const texts = panelPages(lid, { paper: 'Letter', inches: true }).flatMap(textsOf);
    // hand: 134 / 25.4 = 5.2756; 7.1 / 25.4 = 0.27953.
    for (const word of ['x in', '5.28', '0.280', 'fold up 90°, inside radius 0.063 in (1.6 mm)'])
      expect(texts).toContain(word);
    expect(texts).not.toContain('x mm');
    // hand: 2 in = 50.8 mm, whole on an inch tape.
    const squares = panelPages(lid, { paper: 'Letter', inches: true }).flatMap((page) =>
      flatOut(page.shapes).filter(
        ({ shape }) => shape.kind === 'rect' && shape.width === 50.8 && shape.height === 50.8,
      ),
    );
    expect(squares.length).toBeGreaterThan(1);
    expect(texts).toContain('measure me: 2 in');
    expect(texts.join(' ')).not.toContain('50 mm');
  });

  it('measures from the edge of a flange that lies beyond the first edge', () => {
    const flanged: FlatPattern = {
      ...lid,
      outline: [
        { at: [5, -30] },
        { at: [605, -30] },
        { at: [610, 0] },
        { at: [610, 338] },
        { at: [-3, 341] },
        { at: [0, 0] },
      ],
    };
    const [first] = holeList(flanged, false).rows;
    // hand: hole 1 stands 12 above the first edge, that edge 30 above the flange's; the slanting left edge is none to measure from.
    expect(first!.slice(0, 4)).toEqual(['1', '20.0', '42.0', '7.1']);
    expect(holeList(lid, false).rows[0]!.slice(0, 4)).toEqual(['1', '20.0', '12.0', '7.1']);
    const upright: FlatPattern = {
      ...lid,
      outline: [{ at: [-20, 0] }, { at: [610, 0] }, { at: [610, 341] }, { at: [-20, 341] }],
    };
    expect(holeList(upright, false).rows[0]!.slice(1, 3)).toEqual(['40.0', '12.0']);
  });

  it.each(PAGE_PAPERS)('joins tiles that overlap and cover all of it on %s', (paper) => {
    const { tiles, stepMm, covered, pageMm } = tilingOf(lid, paper);
    expect(pageMm[0] - 20).toBeCloseTo(stepMm[0] + OVERLAP_MM, 9);
    expect(covered.minX).toBeLessThanOrEqual(-8);
    expect(covered.maxY).toBeGreaterThanOrEqual(372 + 8);
    const draw = chance(5);
    for (let i = 0; i < 500; i++) {
      // Places on the panel's bare rectangle below its bowed edge.
      const [x, y] = [draw() * 610, draw() * 335];
      const column = Math.floor((x - covered.minX) / stepMm[0]);
      const row = Math.floor((covered.maxY - y) / stepMm[1]);
      expect(tiles.some((tile) => tile.column === column && tile.row === row)).toBe(true);
    }
  });

  it('shows on a sheet which way TOP is and where each panel is measured from', () => {
    // A flange lies 30 beyond the first edge: its own sheet measures from there.
    const flanged: FlatPattern = {
      ...lid,
      outline: [{ at: [0, -30] }, { at: [610, -30] }, { at: [610, 341] }, { at: [0, 341] }],
    };
    const turned = movedPattern(flanged, 90, [500, 40]);
    const sheet = {
      sheet: 0,
      sizeMm: [1000, 800] as const,
      parts: [{ id: 'PN2R', index: 0, turnDeg: 90, by: [500, 40] as const }],
      partsMm2: 1,
      wasteShare: 0.5,
      material: '5052-H32',
      thicknessMm: 1.2,
      patterns: [turned],
    };
    const nest = { sheets: [sheet], left: [], usualSizes: [], wasteShare: 0.5, rectanglesWasteShare: 0.5 };
    const page = nestPages(nest, { paper: 'A4' })[0]!;
    const placed = flatOut(page.shapes);
    const at = (radius: number) =>
      placed.flatMap(({ shape, x, y }) =>
        shape.kind === 'circle' && shape.radius === radius ? [[x + shape.centre[0], y + shape.centre[1]]] : [],
      )[0]!;
    const [origin, dot] = [at(1), at(0.8)];
    // hand: 0, -30 turned by 90 degrees to the left is 30, 0; moved 530, 40. Drawn at 1:6 (1000 x 800 in 171 x 134).
    expect(textsOf(page).find((text) => text.startsWith('1:'))).toBe('1:6 · the grain runs along the sheet');
    expect(dot[0]! - origin[0]!).toBeCloseTo(530 / 6, 6);
    expect(origin[1]! - dot[1]!).toBeCloseTo(40 / 6, 6);
    // hand: TOP was up; turned to the left it is left.
    expect(textsOf(page)).toContain('left');
    const word = placed.find(({ shape }) => shape.kind === 'text' && shape.text === 'TOP' && shape.turnDeg === 90);
    expect(word).toBeDefined();
  });

  it('leaves out tiles on which nothing lies', () => {
    const thin: FlatPattern = {
      ...lid,
      outline: [
        { at: [0, 0] },
        { at: [1000, 0] },
        { at: [1000, 20] },
        { at: [20, 20] },
        { at: [20, 800] },
        { at: [0, 800] },
      ],
      cutOuts: [],
      holes: [],
      slots: [],
      folds: [],
      marks: [],
      words: [],
    };
    // In the middle of a bare panel nothing is drawn, and it is a piece of it all the same.
    const wide = tilingOf(
      { ...thin, outline: [{ at: [0, 0] }, { at: [1000, 0] }, { at: [1000, 1000] }, { at: [0, 1000] }] },
      'A4',
    );
    expect(wide.tiles).toHaveLength(wide.columns * wide.rows);
    const { columns, rows, tiles } = tilingOf(thin, 'A4');
    expect(tiles.length).toBeLessThan(columns * rows);
    expect(new Set(tiles.map((tile) => tile.name)).size).toBe(tiles.length);
  });

  it('goes on with a list in the next column, no column too high', () => {
    const lists = panelLists(manyHoles(150), false);
    const columns = listColumns(lists, 240);
    expect(columns.length).toBeGreaterThan(2);
    for (const column of columns) expect(column.height).toBeLessThanOrEqual(240);
  });
});
