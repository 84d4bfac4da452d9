import { describe, expect, it } from 'vitest';
import {
  isInOutline,
  mirroredOutline,
  type Outline,
  outlineArea,
  outlinePoints,
  type Point2,
  roundOutline,
} from '#geometry';
import { drills } from './drills.ts';
import { trapezoidArea, trapezoidCells } from './window-cells.ts';
import { rectangle, seeded, seededPanel } from './seeded-panels.fixture.ts';
import { windowField } from './window-field.ts';
import { clearOfFoldMm, fieldRules } from './window-rules.ts';
import type { KeepClear, WindowField, WindowShape, WindowSpec } from './window-spec.ts';

const SEEDS = 12;
const shapes = ['trapezoid', 'slot', 'round', 'hexagon', 'own'] as const satisfies readonly WindowShape[];
const ownOutline: Outline = [{ at: [-20, -15] }, { at: [20, -15], bulge: 0.2 }, { at: [14, 15] }, { at: [-14, 15] }];

/** Points along an outline no further apart than 1 mm, its arcs within 0.01 mm: independent of the room's own distances. */
function walk(outline: Outline): Point2[] {
  const points = outlinePoints(outline, 0.01);
  return points.flatMap((a, i) => {
    const b = points[(i + 1) % points.length]!;
    const n = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1])));
    return Array.from(
      { length: n },
      (_, k): Point2 => [a[0] + (k / n) * (b[0] - a[0]), a[1] + (k / n) * (b[1] - a[1])],
    );
  });
}
/** Least distance of two walks, by a hash of squares; Infinity beyond the size of a square. */
function least(p: readonly Point2[], q: readonly Point2[], square = 25): number {
  const squares = new Map<number, Point2[]>();
  const key = (i: number, j: number): number => i * 100_003 + j;
  for (const b of q) {
    const at = key(Math.floor(b[0] / square), Math.floor(b[1] / square));
    (squares.get(at) ?? squares.set(at, []).get(at)!).push(b);
  }
  let best = Infinity;
  for (const a of p) {
    const [i, j] = [Math.floor(a[0] / square), Math.floor(a[1] / square)];
    for (let k = 0; k < 9; k++)
      for (const b of squares.get(key(i + (k % 3) - 1, j + Math.floor(k / 3) - 1)) ?? [])
        best = Math.min(best, Math.hypot(a[0] - b[0], a[1] - b[1]));
  }
  return best;
}
/** Chords stand off their arcs by 0.01 mm on either side. */
const SLACK = 0.021;

function held(
  field: WindowField,
  panel: Outline,
  clears: readonly { walk: Point2[]; mm: number }[],
  spec: WindowSpec,
): void {
  const rules = fieldRules(spec);
  const border = walk(panel);
  const walks = field.openings.map(({ outline }) => walk(outline));
  for (const [i, one] of walks.entries()) {
    expect(one.every((p) => isInOutline(panel, p))).toBe(true);
    expect(least(one, border)).toBeGreaterThan(rules.edgeMm - SLACK);
    for (const clear of clears) expect(least(one, clear.walk)).toBeGreaterThan(clear.mm - SLACK);
    const others = walks.slice(i + 1).flat();
    expect(least(one, others)).toBeGreaterThan(rules.webMm - SLACK);
    const { corners, outline } = field.openings[i]!;
    // Tangent to both sides: the drill's circle touches the cut and nowhere passes it.
    for (const hole of corners) {
      expect(hole.corner).toBe(true);
      expect(drills.some(({ mm }) => Math.abs(mm - hole.diameterMm) < 0.05)).toBe(true);
      expect(least([hole.at], one, 200)).toBeGreaterThan(hole.diameterMm / 2 - SLACK);
      expect(least([hole.at], one, 200)).toBeLessThan(hole.diameterMm / 2 + 0.02);
    }
    expect(field.openings[i]!.areaMm2).toBeCloseTo(outlineArea(outline), 6);
  }
}

const specFor = (seed: number, shape: WindowShape): WindowSpec => {
  const next = seeded(seed + 4000);
  const { along } = seededPanel(seed);
  return {
    id: 'W1',
    shape,
    thicknessMm: 0.8 + next(),
    along,
    ...(next() < 0.6 ? { count: 1 + Math.floor(5 * next()) } : {}),
    ...(next() < 0.3 ? { rows: 1 + Math.floor(2 * next()) } : {}),
    ...(next() < 0.4 ? { webMm: 6 + 10 * next() } : {}),
    ...(next() < 0.4 ? { edgeMm: 6 + 15 * next() } : {}),
    ...(shape === 'own' ? { outline: ownOutline } : {}),
    ...(shape === 'slot' && seed % 2 === 0 ? { ends: 'leaning' as const } : {}),
  };
};
const clearsFor = (seed: number): { keep: KeepClear[]; walks: { walk: Point2[]; mm: number }[] } => {
  const next = seeded(seed + 8000);
  const keep: KeepClear[] = [];
  const walks: { walk: Point2[]; mm: number }[] = [];
  for (let k = 0; k < Math.floor(3 * next()); k++) {
    const at: Point2 = [50 + 250 * next(), 15 + 60 * next()];
    const [radiusMm, mm] = [3 + 12 * next(), 5 + 8 * next()];
    keep.push({ name: `hole ${k}`, shape: { at, radiusMm }, clearMm: mm });
    walks.push({ walk: walk(roundOutline(at, radiusMm)), mm });
  }
  return { keep, walks };
};

describe('fields on seeded panels', () => {
  it.each(shapes)('%s: webs, edges, clearances and corners hold by dense walks', (shape) => {
    let fields = 0;
    const gains: number[] = [];
    for (let seed = 1; seed <= SEEDS; seed++) {
      const { outline } = seededPanel(seed);
      const [spec, clears] = [specFor(seed, shape), clearsFor(seed)];
      const answer = windowField(outline, clears.keep, spec);
      if (!answer.ok) {
        expect(answer.why, `seed ${seed}`).toMatch(/^window W1: .{10,}/);
        continue;
      }
      fields++;
      held(answer.field, outline, clears.walks, spec);
      if (shape === 'slot') continue;
      // Ends that lean with the panel never leave less open than square ones.
      const square = windowField(outline, clears.keep, { ...spec, ends: 'square' });
      if (square.ok) gains.push(answer.field.openMm2 / square.field.openMm2);
    }
    if (shape !== 'slot') {
      expect(Math.min(...gains)).toBeGreaterThan(shape === 'trapezoid' ? 0.97 : 1 - 1e-9);
      expect(Math.max(...gains)).toBeGreaterThan(1.02);
    }
    expect(fields).toBeGreaterThan(0.6 * SEEDS);
  });

  it.each(shapes)('%s: a mirrored panel has the mirrored windows and the same free area', (shape) => {
    for (let seed = 1; seed <= SEEDS; seed++) {
      const { outline, along } = seededPanel(seed);
      const spec = specFor(seed, shape);
      const answer = windowField(outline, [], spec);
      const { from, to } = along;
      const mirror = windowField(mirroredOutline(outline), [], {
        ...spec,
        along: { from: [-to[0], to[1]], to: [-from[0], from[1]] },
        ...(spec.outline === undefined ? {} : { outline: mirroredOutline(spec.outline) }),
      });
      expect(mirror.ok, `seed ${seed}`).toBe(answer.ok);
      if (!answer.ok || !mirror.ok) continue;
      expect(mirror.field.openings.length).toBe(answer.field.openings.length);
      expect(Math.abs(mirror.field.freeMm2 / answer.field.freeMm2 - 1), `seed ${seed}`).toBeLessThan(0.001);
      const there = mirror.field.openings.flatMap(({ outline: o }) => mirroredOutline(o).map(({ at }) => at));
      let far = 0;
      for (const opening of answer.field.openings)
        for (const p of opening.outline.map(({ at }) => at)) far = Math.max(far, least([p], there));
      expect(far, `seed ${seed}`).toBeLessThan(0.05);
    }
  });

  it.each(['trapezoid', 'slot', 'round', 'hexagon', 'own'] as const)(
    '%s: a free area is met to a thousandth or refused with the most that fits',
    (shape) => {
      let [met, refused] = [0, 0];
      for (let seed = 1; seed <= SEEDS; seed++) {
        const { outline } = seededPanel(seed);
        const next = seeded(seed + 12000);
        const freeMm2 = seed % 4 === 0 ? 1e6 : 2000 + 100_000 * next() ** 3;
        const spec = { ...specFor(seed, shape), freeMm2, meshShare: 0.7 };
        const answer = windowField(outline, [], spec);
        if (answer.ok) {
          met++;
          const sum = answer.field.openings.reduce((all, opening) => all + outlineArea(opening.outline), 0);
          expect(Math.abs((0.7 * sum) / freeMm2 - 1), `seed ${seed}`).toBeLessThan(0.001);
          if (shape === 'round')
            for (const { areaMm2 } of answer.field.openings)
              expect(areaMm2 / ((Math.PI / 4) * answer.field.drillMm ** 2), `seed ${seed}`).toBeCloseTo(1, 9);
          held(answer.field, outline, [], spec);
        } else {
          refused++;
          if (answer.most !== undefined)
            expect(answer.most.freeMm2, `seed ${seed}: ${answer.why}`).toBeLessThan(freeMm2);
          expect(answer.why, `seed ${seed}`).toMatch(/is the most that fits|leave none large enough|fits between/);
        }
      }
      expect(met).toBeGreaterThan(3);
      expect(refused).toBeGreaterThan(0);
    },
  );
});

describe('fields worked by hand', () => {
  const along = { from: [0, 0], to: [400, 0] } as const;
  const base = { id: 'W', thicknessMm: 1.2, along, webMm: 12, edgeMm: 20, cornerDrillMm: 12 } as const;
  const fieldIn = (panel: Outline, spec: WindowSpec, keep: readonly KeepClear[] = []): WindowField => {
    const answer = windowField(panel, keep, spec);
    if (!answer.ok) throw new Error(answer.why);
    return answer.field;
  };

  it('four trapezoids in a rectangle share what webs and edges leave', () => {
    // hand: (400 - 2*20 - 3*12)/4 = 81 wide, 200 - 2*20 = 160 high, less four corners of (1 - pi/4) 6^2.
    const field = fieldIn(rectangle(400, 200), { ...base, shape: 'trapezoid', count: 4 });
    const one = 81 * 160 - (4 - Math.PI) * 36;
    expect(field.openMm2).toBeCloseTo(4 * one, 3);
    expect(field.webMm).toBeCloseTo(12, 6);
    expect(field.edgeMm).toBeCloseTo(20, 4);
    expect(field.openings.map(({ name }) => name)).toEqual(['W.1', 'W.2', 'W.3', 'W.4']);
    const [first] = field.openings[0]!.corners;
    expect(first).toMatchObject({ diameterMm: 12, for: 'corner of W.1', corner: true });
    expect(first!.at[0]).toBeCloseTo(26, 4);
    expect(first!.at[1]).toBeCloseTo(26, 4);
  });

  it('in a tapering panel the long sides follow both its edges', () => {
    // hand: far edge falls 100 in 400, so its unit normal keeps the windows 20 away: 20 sqrt(1 + 1/16) straight down.
    const panel: Outline = [{ at: [0, 0] }, { at: [400, 0] }, { at: [400, 150] }, { at: [0, 250] }];
    const field = fieldIn(panel, { ...base, shape: 'trapezoid', count: 3 });
    const drop = 20 * Math.sqrt(1 + 1 / 16);
    const heights = (u: number): number => 250 - u / 4 - drop - 20;
    const wide = (360 - 24) / 3;
    for (const [i, { areaMm2 }] of field.openings.entries()) {
      const u = 20 + i * (wide + 12) + wide / 2;
      expect(areaMm2 / (wide * heights(u))).toBeGreaterThan(0.99);
      expect(areaMm2 / (wide * heights(u))).toBeLessThan(1);
    }
    expect(field.edgeMm).toBeCloseTo(20, 4);
  });

  it('the ends of trapezoids lean with the panel; those of slots where it is asked', () => {
    // hand: a parallelogram 400 long and 200 high whose ends lean 80 in 200; square to them 20 is 20 sqrt(1 + 0.4^2) along. Webs of
    // 12 lie square to their sides, so 12 sqrt(1.16) along; what is left, three ways, by 160 high, is the area of the openings with
    // sharp corners. A corner that turns through t gives r^2 (tan(t/2) - t/2) away.
    const panel: Outline = [{ at: [0, 0] }, { at: [400, 0] }, { at: [480, 200] }, { at: [80, 200] }];
    const along1 = Math.sqrt(1.16);
    const lean = Math.atan(0.4);
    const off = (turn: number): number => 36 * (Math.tan(turn / 2) - turn / 2);
    const corners = 3 * 2 * (off(Math.PI / 2 + lean) + off(Math.PI / 2 - lean));
    const field = fieldIn(panel, { ...base, shape: 'trapezoid', count: 3 });
    expect(field.openMm2).toBeCloseTo((400 - 40 * along1 - 24 * along1) * 160 - corners, 1);
    expect(field.webMm).toBeCloseTo(12, 6);
    expect(field.edgeMm).toBeCloseTo(20, 4);
    expect(field.centreMm[0]).toBeCloseTo(240, 4);
    // Square ends have 400 - 80 (what leans) less an end's distance, and 200 high near one corner only.
    const upright = fieldIn(panel, { ...base, shape: 'trapezoid', count: 3, ends: 'square' });
    expect(upright.openMm2).toBeLessThan(0.93 * field.openMm2);
    for (const { outline } of upright.openings) {
      const us = outline.map(({ at }) => at[0]).toSorted((a, b) => a - b);
      expect(us[1]! - us[0]!).toBeLessThan(1e-9);
    }
    // hand: slots of 12 that lean as the ends do: 2 half rounds and a stretch between heights 26 and 174, 148 sqrt(1.16) long.
    const slots = fieldIn(panel, { ...base, shape: 'slot', count: 5, ends: 'leaning' });
    expect(slots.openMm2).toBeCloseTo(5 * (12 * 148 * along1 + Math.PI * 36), 1);
    // The outermost axes are 26 from the ends: what is between them in fourths, square to them, less a drill.
    expect(slots.webMm).toBeCloseTo((400 / along1 - 52) / 4 - 12, 3);
  });

  it('between ends that lean towards each other the openings fan out, their webs as wide all along', () => {
    const panel: Outline = [{ at: [0, 0] }, { at: [600, 0] }, { at: [460, 250] }, { at: [90, 250] }];
    const far = { ...base, along: { from: [0, 0], to: [600, 0] } } as const;
    for (const shape of ['trapezoid', 'slot'] as const) {
      const leaning = fieldIn(panel, { ...far, shape, count: 5, ends: 'leaning' });
      const square = fieldIn(panel, { ...far, shape, count: 5, ends: 'square' });
      expect(leaning.openMm2, shape).toBeGreaterThan((shape === 'trapezoid' ? 1.1 : 1.0) * square.openMm2);
      held(leaning, panel, [], { ...far, shape });
    }
    const trapezoids = fieldIn(panel, { ...far, shape: 'trapezoid', count: 5, rows: 2 });
    expect(trapezoids.webMm).toBeCloseTo(12, 6);
    expect(trapezoids.edgeMm).toBeCloseTo(20, 4);
  });

  it('webs and edges are two thicknesses, 6 mm at the least; a bend is kept clear of by two thicknesses and its radius', () => {
    // hand: 2 x 4 = 8, 2 x 1.2 is under 6; 2 x 1.2 + 3 = 5.4 from the line of a fold.
    const thick = fieldRules({ thicknessMm: 4 });
    expect([thick.webMm, thick.edgeMm, thick.drillMm]).toEqual([8, 8, 24]);
    expect(fieldRules({ thicknessMm: 1.2 })).toMatchObject({ webMm: 6, edgeMm: 6 });
    expect(clearOfFoldMm(1.2, 3)).toBeCloseTo(5.4, 9);
  });

  it('a size and a middle are kept, from either end of the edge', () => {
    const spec = {
      ...base,
      shape: 'slot',
      count: 6,
      sizeMm: [200, 100],
      centreAlongMm: 150,
      centreAcrossMm: 90,
    } as const;
    const field = fieldIn(rectangle(400, 200), spec);
    expect(field.sizeMm).toEqual([200, 100]);
    expect(field.centreMm[0]).toBeCloseTo(150, 9);
    // hand: six slots of 12 x 100 with half round ends; webs (200 - 72)/5.
    expect(field.openMm2).toBeCloseTo(6 * (12 * 88 + Math.PI * 36), 6);
    expect(field.webMm).toBeCloseTo(25.6, 9);
    const turned = fieldIn(rectangle(400, 200), { ...spec, along: { from: along.to, to: along.from } });
    expect(turned.centreMm[0]).toBeCloseTo(150, 9);
    expect(Math.max(...turned.openings.flatMap(({ outline }) => outline.map(({ at }) => at[0])))).toBeCloseTo(350, 9);
  });

  it('a size that does not fit is refused with what is in its way and what fits', () => {
    const panel = rectangle(400, 200);
    const big = windowField(panel, [], { ...base, shape: 'trapezoid', count: 2, sizeMm: [380, 100] });
    expect(big).toMatchObject({ ok: false });
    if (!big.ok) expect(big.why).toMatch(/380 x 100 mm is too near to the outline; 360.0 x 94.7 mm fits there/);
    const keep: KeepClear[] = [{ name: 'crossing of O1', shape: { at: [200, 100], radiusMm: 15 }, clearMm: 10 }];
    const hit = windowField(panel, keep, {
      ...base,
      shape: 'trapezoid',
      count: 1,
      sizeMm: [100, 50],
      centreAlongMm: 120,
      centreAcrossMm: 100,
    });
    expect(hit.ok).toBe(true);
    const over = windowField(panel, keep, {
      ...base,
      shape: 'trapezoid',
      count: 1,
      sizeMm: [140, 50],
      centreAlongMm: 120,
      centreAcrossMm: 100,
    });
    if (over.ok) throw new Error('laid over a crossing');
    expect(over.why).toMatch(/too near to crossing of O1/);
    // Of no size, about a middle beside it: what ends its room is named.
    const beside = windowField(panel, keep, { ...base, shape: 'trapezoid', count: 6, centreAlongMm: 172 });
    if (beside.ok) throw new Error('six in so little room');
    expect(beside.why).toMatch(/leave none large enough .* crossing of O1 ends the room about its middle$/);
  });

  it('hexagons have the same web three ways, and rounds of the saw that exists', () => {
    const hexes = fieldIn(rectangle(400, 300), { ...base, shape: 'hexagon', count: 5, rows: 3 });
    expect(hexes.openings).toHaveLength(14);
    expect(hexes.webMm).toBeCloseTo(12, 6);
    const { cornerDrillMm: _, ...free } = base;
    const rounds = fieldIn(rectangle(400, 100), { ...free, shape: 'round' });
    // hand: 60 mm is left between the edges and a 60 mm saw exists; (360 + 12)/72 = 5.
    expect(rounds.drillMm).toBe(60);
    expect(rounds.openings).toHaveLength(5);
  });

  it('rows of rounds are as large as the rows leave them, and say which saw comes next where an area is asked for', () => {
    const { cornerDrillMm: _, edgeMm: __, webMm: ___, ...rules } = base;
    const spec = { ...rules, along: { from: [0, 0], to: [823, 0] }, shape: 'round', rows: 3 } as const;
    const field = fieldIn(rectangle(823, 305), spec);
    // hand: 305 - 12 = d + 2 (d + 6) sin 60, so d is 103.4 and the saw 102; (811 + 6)/108 = 7.6, so 7, 6 and 7 of them.
    expect([field.drillMm, field.openings.length]).toEqual([102, 20]);
    // hand: 20 of d have 1200 cm2 where d = sqrt(120000/(5 pi)) = 87.40; with 3 1/2 in, 88.9, they have 1241.4.
    const asked = fieldIn(rectangle(823, 305), { ...spec, freeMm2: 120_000 });
    expect(asked.drillMm).toBeCloseTo(87.4, 1);
    expect(asked.notes).toEqual(['no usual hole saw is 87.4 mm: with one of 88.9 mm 1241.4 cm2 are free']);
  });

  it('rows of rounds follow ends that lean, and long sides that do', () => {
    // hand: ends that lean by half a step a row (30 degrees): 40 with webs of 10 step by 50 and by 50 sin 60 = 43.30; three rows and 20
    // all round are 166.60 high; six in a row are 250 long and 40 / cos 30 from each end.
    const [high, long] = [80 + 100 * (Math.sqrt(3) / 2) + 1e-6, 250 + 80 / Math.cos(Math.PI / 6) + 1e-6];
    const lean = high * Math.tan(Math.PI / 6);
    const panel: Outline = [{ at: [0, 0] }, { at: [long, 0] }, { at: [long + lean, high] }, { at: [lean, high] }];
    const spec = { ...base, webMm: 10, cornerDrillMm: 40, along: { from: [0, 0], to: [long, 0] } } as const;
    for (const ends of [{}, { ends: 'leaning' }] as const) {
      const field = fieldIn(panel, { ...spec, ...ends, shape: 'round' });
      expect(field.openings).toHaveLength(18);
      expect([field.count, field.rows]).toEqual([6, 3]);
      expect(field.webMm).toBeCloseTo(10, 4);
      expect(field.edgeMm).toBeCloseTo(20, 4);
    }
    expect(fieldIn(panel, { ...spec, shape: 'round', ends: 'square' }).openings.length).toBeLessThan(10);
    // A corner plate: rows all as short as the one under its tip would hold nine at most.
    const corner: Outline = [{ at: [0, 0] }, { at: [800, 0] }, { at: [0, 300] }];
    const plate = fieldIn(corner, { ...spec, along: { from: [0, 0], to: [800, 0] }, shape: 'round' });
    held(plate, corner, [], { ...spec, edgeMm: 20, shape: 'round' });
    expect(plate.openings.length).toBeGreaterThan(20);
    // Without a saw they are as large as three such rows leave them; as if all rows were alike there were five, 63 cm2.
    const { cornerDrillMm: _, webMm: __, edgeMm: ___, ...rules } = spec;
    const rows = fieldIn(corner, { ...rules, along: { from: [0, 0], to: [800, 0] }, shape: 'round', rows: 3 });
    expect(rows.openMm2).toBeGreaterThan(40_000);
  });

  it('an outline of your own has its inside corners drilled, whichever way round it is drawn', () => {
    const square = rectangle(40, 30);
    const shapes = { square, turned: square.toReversed() };
    const lain = { ...base, shape: 'own', count: 3, rows: 1 } as const;
    for (const outline of Object.values(shapes)) {
      const field = fieldIn(rectangle(400, 200), { ...lain, outline });
      // hand: 40 x 30 less four corners of (1 - pi/4) 6^2, three times; the first hole 6 from both its sides.
      expect(field.openMm2).toBeCloseTo(3 * (1200 - (4 - Math.PI) * 36), 6);
      expect(field.openings[0]!.corners).toHaveLength(4);
      held(field, rectangle(400, 200), [], { ...lain, outline });
    }
    // hand: of an L the corner where metal points in stays: five of six, each (1 - pi/4) 36 less.
    const ell: Outline = [
      [0, 0],
      [60, 0],
      [60, 30],
      [30, 30],
      [30, 60],
      [0, 60],
    ].map(([x, y]) => ({ at: [x!, y!] }));
    const bent = fieldIn(rectangle(400, 200), { ...lain, outline: ell, count: 1 });
    expect(bent.openings[0]!.corners).toHaveLength(5);
    expect(bent.openMm2).toBeCloseTo(2700 - 5 * (1 - Math.PI / 4) * 36, 6);
    expect(bent.notes).toEqual([]);
    // 8 mm leave no room for two quarters of 12: it stays as drawn, and says so.
    const slit = fieldIn(rectangle(400, 200), { ...lain, outline: rectangle(40, 8) });
    expect(slit.openMm2).toBeCloseTo(3 * 320, 6);
    expect(slit.notes).toEqual([expect.stringMatching(/^its corners stay sharp, and crack: .* 12\.0 mm drill$/)]);
  });

  it('slots for which no saw is named are as wide as the smallest saw with which they have their area', () => {
    const wide = { from: [0, 0], to: [500, 0] } as const;
    const spec = { id: 'W', shape: 'slot', count: 5, thicknessMm: 1.2, along: wide, freeMm2: 40_000 } as const;
    const answer = windowField(rectangle(500, 500), [], spec);
    if (!answer.ok) throw new Error(answer.why);
    // By hand, 6 mm clear all round: five slots w wide and 488 long over all have 5 (w (488 - w) + pi w2/4).
    const has = (w: number): number => 5 * (w * (488 - w) + (Math.PI * w * w) / 4);
    const saw = drills.find(({ mm }) => mm >= 12 && has(mm) >= 40_000)!.mm;
    expect(answer.field.drillMm).toBe(saw);
    expect(answer.field.freeMm2).toBeCloseTo(40_000, -1);
    // One that is named stays, and is refused with what it has.
    expect(windowField(rectangle(500, 500), [], { ...spec, cornerDrillMm: 12 }).ok).toBe(false);
  });
});

describe('the area of trapezoids without laying them', () => {
  it('is that of the trapezoids laid, by the shoelace of their arcs; none where a drill does not fit', () => {
    const quad = {
      left: { at0: 10, slope: 0.3 },
      right: { at0: 610, slope: -0.2 },
      low: { at0: 20, slope: 0.1 },
      high: { at0: 320, slope: -0.15 },
    };
    for (const division of [
      { count: 1, rows: 1, webMm: 6, drillMm: 24 },
      { count: 7, rows: 3, webMm: 8, drillMm: 12 },
    ]) {
      const laid = trapezoidCells(quad, division)!.reduce((sum, { areaMm2 }) => sum + areaMm2, 0);
      expect(trapezoidArea(quad, division) / laid).toBeCloseTo(1, 9);
    }
    const tight = { count: 20, rows: 3, webMm: 8, drillMm: 24 };
    expect([trapezoidCells(quad, tight), trapezoidArea(quad, tight)]).toEqual([undefined, 0]);
  });
});
