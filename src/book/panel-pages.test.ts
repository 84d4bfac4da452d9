import type { FlatPattern } from '#panels';
import { describe, expect, it } from 'vitest';
import { chance, lid } from '../../test/panels/shapes.ts';
import type { Drawing, Shape, TextShape } from './drawing.ts';
import { CHECK_MM } from './check-square.ts';
import { labelBox } from './label-boxes.ts';
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
      const square = shapes.some((s) => s.kind === 'rect' && s.width === CHECK_MM && s.height === CHECK_MM);
      const angle = textsOf(tile).includes('50 mm along and up: measure me');
      expect(square || angle, tile.title).toBe(true);
    }
    for (const word of ['TOP', 'OUTSIDE FACE', 'grain', 'y']) expect(tiles.flatMap(textsOf)).toContain(word);
    expect(textsOf(pages[0]!).join(' ')).toMatch(/deburr every edge/);
  });

  it('shows lengths in inches where they are asked for', () => {
    const texts = panelPages(lid, { paper: 'Letter', inches: true }).flatMap(textsOf);
    // hand: 134 / 25.4 = 5.2756; 7.1 / 25.4 = 0.27953.
    for (const word of ['x in', '5.28', '0.280', 'fold up 90°, inside radius 0.063 in (1.6 mm)'])
      expect(texts).toContain(word);
    expect(texts).not.toContain('x mm');
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
