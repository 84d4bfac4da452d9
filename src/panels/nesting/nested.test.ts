import { outlineArea, outlinePoints, type Point2 } from '#geometry';
import clipper from 'clipper2-wasm';
import { describe, expect, it } from 'vitest';
import { laidRing, seededParts } from '../../../test/panels/seeded-parts.ts';
import { chance, lid } from '../../../test/panels/shapes.ts';
import type { NestPart } from './nest-parts.ts';
import { nested, type Nested } from './nested.ts';
import { nestedPanels } from './nested-panels.ts';
import { slabShape } from './slab-shape.kernel.ts';

const lib = await clipper();
const paths = (...rings: readonly (readonly Point2[])[]) => {
  const all = new lib.PathsD();
  for (const ring of rings) {
    const path = new lib.PathD();
    for (const [x, y] of ring) path.push_back(new lib.PointD(x, y, 0));
    all.push_back(path);
  }
  return all;
};

const SHEETS: Point2[] = [
  [1500, 1000],
  [1500, 1000],
  [1500, 1000],
];
const SPACING_MM = 6;
const EDGE_MM = 9;
/** A small part of the usual work: enough to be better, quick enough for a test. */
const FEW_CHECKS = 3e6;
const nestOf = (parts: readonly NestPart[], wish = {}): Nested =>
  nested(parts, SHEETS, { spacingMm: SPACING_MM, edgeMm: EDGE_MM, mostChecks: FEW_CHECKS, ...wish });

/** Two parts nearer than the spacing, or one over the edge, by a general polygon library. */
function faultsIn(parts: readonly NestPart[], nest: Nested): string[] {
  return nest.sheets.flatMap((sheet) => {
    const laid = sheet.parts.map((one) => ({
      id: one.id,
      ring: laidRing(parts[one.index]!.outline, one.turnDeg, one.by),
      openings: (parts[one.index]!.openings ?? []).map((opening) => laidRing(opening, one.turnDeg, one.by)),
    }));
    return laid.flatMap(({ id, ring, openings }, i) => {
      const isOut = ring.some(
        ([x, y]) =>
          x < EDGE_MM - 0.001 ||
          y < EDGE_MM - 0.001 ||
          x > sheet.sizeMm[0] - EDGE_MM + 0.001 ||
          y > sheet.sizeMm[1] - EDGE_MM + 0.001,
      );
      const grown = lib.InflatePathsD(
        paths(ring, ...openings),
        SPACING_MM - 0.02,
        lib.JoinType.Round,
        lib.EndType.Polygon,
        2,
        4,
        0.005,
      );
      const hits = laid
        .slice(i + 1)
        .filter((other) => lib.AreaPathsD(lib.IntersectD(grown, paths(other.ring), lib.FillRule.EvenOdd, 4)) > 0.01);
      return [...(isOut ? [`${id} over the edge`] : []), ...hits.map((other) => `${id} too near ${other.id}`)];
    });
  });
}

describe('nesting', () => {
  // second: Clipper2 grows each part by the spacing and cuts it with the others.
  it.each([1, 2, 3, 4, 5, 6, 7, 8])('keeps parts apart and inside, each once (seed %d)', (seed) => {
    const parts = seededParts(seed, 14);
    const nest = nestOf(parts, { isFree: seed > 5 });
    expect(faultsIn(parts, nest)).toEqual([]);
    const ids = [...nest.sheets.flatMap((sheet) => sheet.parts.map((part) => part.id)), ...nest.left];
    expect(ids.sort()).toEqual(parts.map((part) => part.id).sort());
    for (const one of nest.sheets.flatMap((sheet) => sheet.parts)) {
      const { grainDeg } = parts[one.index]!;
      if (grainDeg !== undefined) expect((one.turnDeg + grainDeg) % 180).toBe(0);
    }
  });

  it('is told when parts are too near or over the edge', () => {
    const parts = seededParts(1, 2);
    const at = (id: string, index: number, by: Point2) => ({ id, index, turnDeg: 0, by });
    const sheet = { sheet: 0, sizeMm: SHEETS[0]!, partsMm2: 0, wasteShare: 0 };
    const nest = { left: [], wasteShare: 0, rectanglesWasteShare: 0, rectanglesTakenMm2: 0 };
    const near = { ...nest, sheets: [{ ...sheet, parts: [at('S1', 0, [20, 20]), at('S2', 1, [30, 30])] }] };
    expect(faultsIn(parts, near)).toEqual(['S1 too near S2']);
    const over = { ...nest, sheets: [{ ...sheet, parts: [at('S1', 0, [EDGE_MM - 1, 20])] }] };
    expect(faultsIn(parts, over)).toEqual(['S1 over the edge']);
  });

  it('wastes less than the rectangles round them: never more, 8 of a hundred less in the middle of 20 sets', () => {
    const gains = Array.from({ length: 20 }, (_, i) => {
      const parts = seededParts(100 + i, 12);
      const nest = nestOf(parts, { mostChecks: 1.5e6 });
      const areaMm2 = parts.reduce((sum, part) => sum + outlineArea(part.outline), 0);
      expect(nest.left).toEqual([]);
      expect(nest.sheets.reduce((sum, sheet) => sum + sheet.partsMm2, 0)).toBeCloseTo(areaMm2, 3);
      return 100 * (nest.rectanglesWasteShare - nest.wasteShare);
    }).sort((a, b) => a - b);
    expect(gains[0]).toBeGreaterThanOrEqual(0);
    expect((gains[9]! + gains[10]!) / 2).toBeGreaterThanOrEqual(8);
  });

  it('gives the same answer each time, and stops where it is told to', () => {
    const parts = seededParts(9, 10);
    expect(nestOf(parts)).toEqual(nestOf(parts));
    const told: number[] = [];
    const stopped = nestOf(parts, { watch: (done: number) => told.push(done) < 3 });
    expect(told).toHaveLength(3);
    expect(stopped.sheets.flatMap((sheet) => sheet.parts)).toHaveLength(10);
    expect(faultsIn(parts, stopped)).toEqual([]);
  });

  it('names what is too large, and takes nothing for nothing', () => {
    const large: NestPart = { id: 'hull', outline: [{ at: [0, 0] }, { at: [1600, 0] }, { at: [0, 1200] }] };
    expect(nestOf([large, ...seededParts(2, 2)]).left).toEqual(['hull']);
    expect(nestOf([])).toMatchObject({ sheets: [], left: [], wasteShare: 0 });
  });

  it('lays parts in the openings of others where it may', () => {
    const square = (a: number, b: number): NestPart['outline'] => [
      { at: [a, a] },
      { at: [b, a] },
      { at: [b, b] },
      { at: [a, b] },
    ];
    const frame = { id: 'frame', outline: square(0, 980) };
    const parts = [
      { ...frame, openings: [square(100, 880)] },
      { id: 'inner', outline: square(0, 700) },
    ];
    const inside = nestOf(parts, { edgeMm: 5, mostChecks: 2e5 });
    expect(inside.sheets).toHaveLength(1);
    expect(inside.sheets[0]!.restMm?.[0]).toBeGreaterThan(500);
    const solid = nestOf([frame, parts[1]!], { edgeMm: 5, mostChecks: 2e5 });
    expect(solid.sheets).toHaveLength(2);
  });
});

describe('slabs of a shape', () => {
  it('hold all of it, grown, and not much more', () => {
    const draw = chance(7);
    for (const { outline } of seededParts(50, 10)) {
      const ring = outlinePoints(outline, 0.01);
      const [slab, grow] = [4, 6];
      const { firstRow, starts, spans, rows } = slabShape([ring], slab, grow);
      for (let k = 0; k < 300; k++) {
        // A place within the spacing of the shape's edge.
        const p = ring[Math.floor(draw() * ring.length)]!;
        const q = ring[(ring.indexOf(p) + 1) % ring.length]!;
        const [t, angle, far] = [draw(), draw() * 2 * Math.PI, draw() * grow];
        const x = p[0] + t * (q[0] - p[0]) + far * Math.cos(angle);
        const y = p[1] + t * (q[1] - p[1]) + far * Math.sin(angle);
        const r = Math.floor(y / slab) - firstRow;
        const isHeld = Array.from({ length: starts[r + 1]! - starts[r]! }, (_, i) => starts[r]! + i).some(
          (i) => x >= spans[2 * i]! - 1e-9 && x <= spans[2 * i + 1]! + 1e-9,
        );
        expect(isHeld, `${x}, ${y}`).toBe(true);
      }
      let area = 0;
      for (let i = 0; i < starts[rows]!; i++) area += slab * (spans[2 * i + 1]! - spans[2 * i]!);
      // second: Clipper2's area of the grown shape; each slab may hold a slab's height more along the edge.
      const grown = lib.AreaPathsD(
        lib.InflatePathsD(paths(ring), grow, lib.JoinType.Round, lib.EndType.Polygon, 2, 4, 0.005),
      );
      expect(area).toBeGreaterThanOrEqual(grown - 1);
      expect(area).toBeLessThan(
        grown +
          slab *
            1.3 *
            ring.reduce(
              (sum, a, i) =>
                sum + Math.hypot(ring[(i + 1) % ring.length]![0] - a[0], ring[(i + 1) % ring.length]![1] - a[1]),
              0,
            ),
      );
    }
  });
});

describe('panels on sheets', () => {
  it('takes the sheets at hand, or usual ones and says so', () => {
    const wish = { mostChecks: 2e5 };
    const own = nestedPanels(
      [lid, { ...lid, panel: 'X', grainDeg: 90 }],
      [{ sheet: '5052-H32', thicknessMm: 1.2, sizeMm: [1100, 800], qty: 1 }],
      wish,
    );
    expect(own.usualSizes).toEqual([]);
    expect(own.sheets).toHaveLength(1);
    expect(own.sheets[0]!.patterns.map((pattern) => pattern.grainDeg! % 180)).toEqual([0, 0]);
    const bought = nestedPanels([lid, { ...lid, panel: 'Y', thicknessMm: 2 }], [], wish);
    expect(bought.usualSizes).toEqual(['5052-H32, 1.2 mm', '5052-H32, 2 mm']);
    expect(bought.sheets.map((sheet) => [sheet.sizeMm, sheet.thicknessMm])).toEqual([
      [[1250, 625], 1.2],
      [[1250, 625], 2],
    ]);
    // hand: one sheet's own share is the share in all; of two, what both use up is added (edges counted, rests taken off).
    expect(own.wasteShare).toBeCloseTo(own.sheets[0]!.wasteShare, 9);
    const used = bought.sheets.map(({ sizeMm, restMm }) => (sizeMm[0] - (restMm?.[0] ?? 0)) * sizeMm[1]);
    const areaMm2 = 2 * Math.abs(outlineArea(lid.outline));
    expect(bought.wasteShare).toBeCloseTo(1 - areaMm2 / (used[0]! + used[1]!), 9);
    expect(bought.rectanglesWasteShare).toBeCloseTo(bought.wasteShare, 9);
    // What lies on the panel goes along: hole 1 is 20, 12 from the datum, wherever that is.
    const moved = bought.sheets[0]!.patterns[0]!;
    const [a, h] = [moved.corners[0]!.at, moved.holes[0]!.at];
    expect(Math.hypot(h[0] - a[0], h[1] - a[1])).toBeCloseTo(Math.hypot(20, 12), 9);
  });

  it('leaves the metal asked for beside what the saw takes: two kerfs between panels, one at the edge of the sheet', () => {
    const square = {
      ...lid,
      outline: [
        [0, 0],
        [200, 0],
        [200, 200],
        [0, 200],
      ].map(([x, y]) => ({ at: [x!, y!] as const })),
      cutOuts: [],
    };
    const sheet = [{ sheet: '5052-H32', thicknessMm: 1.2, sizeMm: [900, 260] as const, qty: 1 }];
    const laid = (wish: object) => {
      const { sheets, left } = nestedPanels([square, { ...square, panel: 'Z' }, { ...square, panel: 'Q' }], sheet, {
        mostChecks: 2e5,
        ...wish,
      });
      const boxes = sheets[0]!.patterns.map(({ outline }) => outline.map(({ at }) => at));
      const xs = boxes
        .map((box) => [Math.min(...box.map(([x]) => x)), Math.max(...box.map(([x]) => x))] as const)
        .toSorted((a, b) => a[0] - b[0]);
      return { left, first: xs[0]![0], gaps: xs.slice(1).map(([from], k) => from - xs[k]![1]) };
    };
    const [plain, sawn] = [laid({ spacingMm: 4, edgeMm: 6 }), laid({ spacingMm: 4, edgeMm: 6, kerfMm: 3 })];
    // To a chord of 0.05 mm.
    expect(plain.first).toBeCloseTo(6, 0);
    expect(sawn.first).toBeCloseTo(9, 0);
    for (const gap of plain.gaps) expect(gap).toBeGreaterThanOrEqual(4 - 1e-6);
    for (const gap of plain.gaps) expect(gap).toBeLessThan(10);
    for (const gap of sawn.gaps) expect(gap).toBeGreaterThanOrEqual(10 - 1e-6);
    // 9 + 3 x 200 + 2 x 10 + 9 = 638 fit on 640 and not on 637.
    const on = (longMm: number) =>
      nestedPanels(
        [square, { ...square, panel: 'Z' }, { ...square, panel: 'Q' }],
        [{ ...sheet[0]!, sizeMm: [longMm, 230] }],
        { mostChecks: 2e5, spacingMm: 4, edgeMm: 6, kerfMm: 3 },
      ).left;
    expect(on(640)).toEqual([]);
    expect(on(636)).toHaveLength(1);
  });
});
