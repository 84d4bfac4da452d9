import { ggPictures, greatestG, oilSurface, tankOfCylinder, tankSection } from '#flow';
import { describe, expect, it } from 'vitest';
import type { Shape } from './drawing.ts';
import { gPicture } from './g-picture.ts';
import { gWords, wayWords } from './g-words.ts';
import { labelBoxes } from './label-boxes.ts';
import { tankPicture } from './tank-picture.ts';

const sheet = { width: 300, size: 13, unit: 'px' } as const;
const tank = tankOfCylinder([1780, -600, 90], [1780, -600, 570], 90, { name: 'Oil tank' });
const out = { id: 'out', atMm: [1690, -600, 120], axis: [-1, 0, 0], boreMm: 22 } as const;
const rest = { longitudinalG: 0, lateralG: 0, verticalG: 1 };
type Of<K extends Shape['kind']> = Extract<Shape, { kind: K }>;
const flat = (shapes: readonly Shape[]): Shape[] => shapes.flatMap((s) => (s.kind === 'group' ? flat(s.shapes) : [s]));
const kinds = <K extends Shape['kind']>(shapes: readonly Shape[], kind: K): Of<K>[] =>
  flat(shapes).filter((s): s is Of<K> => s.kind === kind);
const area = (points: readonly (readonly [number, number])[]): number =>
  Math.abs(
    points.reduce((sum, [x, y], i) => {
      const [u, v] = points[(i + 1) % points.length]!;
      return sum + (x * v - y * u) / 2;
    }, 0),
  );
const texts = (shapes: readonly Shape[]): string[] => kinds(shapes, 'text').map((t) => t.text);

describe('the tank picture', () => {
  const section = tankSection(tank, [out], { ...rest, longitudinalG: 1.5 }, 0.006);
  const drawing = tankPicture(section, 'metric', sheet);

  it('is to scale: the tinted area is to the outline as the oil to the tank (hand: 235.8 of 480 mm)', () => {
    const closed = kinds(drawing.shapes, 'polyline').filter((p) => p.isClosed === true);
    const oil = closed.find((p) => p.fill === 'tape')!;
    const inside = closed.find((p) => p.fill === undefined && p.pen?.role === 'ink' && area(p.points) > 1000)!;
    expect(area(oil.points) / area(inside.points)).toBeCloseTo(235.785 / 480, 3);
    expect(oil.hatch).toBeDefined();
    // The surface drops 270 mm over 180 mm across: its line has that slope on the sheet too.
    const [level] = kinds(drawing.shapes, 'line').filter((l) => l.pen.role === 'oil');
    expect(Math.abs((level!.to[1] - level!.from[1]) / (level!.to[0] - level!.from[0]))).toBeCloseTo(1.5, 6);
    // Rearward is to the right, and speeding up throws the oil there: its high side is on the right.
    const [left, right] = [level!.from, level!.to].sort((s, t) => s[0] - t[0]);
    expect(right![1]).toBeLessThan(left![1]);
  });

  it('says in words what it shows', () => {
    expect(drawing.title).toBe('Oil tank at speeding up 1.50 g');
    expect(texts(drawing.shapes)).toContain('Oil tank: 6.0 L of 12.2 L');
    expect(drawing.description).toMatch(
      /the right hand of the picture is rearward\. out covered, 33 mm of oil over its bore\.$/,
    );
  });

  it('speaks in inches and gallons where the builder works so: 33 mm are 1 5/16 in, 6.0 L 1.59 US gal', () => {
    const inch = tankPicture(section, 'inch', sheet);
    expect(texts(inch.shapes)).toContain('Oil tank: 1.59 US gal of 3.23 US gal');
    expect(inch.description).toMatch(/out covered, 1 5\/16 in of oil over its bore\.$/u);
    const words = [inch.description, ...texts(inch.shapes)].join(' ');
    expect(words).not.toMatch(/\d (mm|L)\b/u);
  });

  it('tells covered, partly and uncovered by mark and word', () => {
    const at = (oilM3: number) => tankPicture(tankSection(tank, [out], rest, oilM3), 'metric', sheet);
    const marks = (oilM3: number) =>
      kinds(at(oilM3).shapes, 'polyline')
        .filter((p) => p.pen === undefined && p.points.length < 5 && p.fill !== 'tape' && p.fill !== 'ink')
        .map((p) => p.points.length);
    expect([marks(0.006), marks(0.0008), marks(0.0003)]).toEqual([[], [4], [3]]);
    expect(at(0.0008).description).toMatch(/out partly covered, \d+ % of its bore; \d+ mm more to cover its bore/);
    expect(at(0.0003).description).toMatch(/out uncovered, \d+ mm more to cover its bore/);
  });

  it('without pull shows no oil and says why', () => {
    const g = { ...rest, verticalG: 0 };
    const nothing = tankPicture(tankSection(tank, [out], g, 0.006), 'metric', sheet);
    expect(kinds(nothing.shapes, 'polyline').some((p) => p.fill === 'tape')).toBe(false);
    expect(nothing.description).toMatch(/no g acts on the oil/);
    expect(oilSurface(tank, g, 0.006).kind).toBe('none');
  });

  it.each([180, 240, 400])('keeps its words on the sheet, %s px wide', (width) => {
    for (const g of [rest, { ...rest, lateralG: 1.2, longitudinalG: -0.7 }, { ...rest, verticalG: -0.5 }]) {
      const one = tankPicture(tankSection(tank, [out], g, 0.003), 'metric', { ...sheet, width });
      for (const box of labelBoxes(one)) {
        expect(box.left).toBeGreaterThanOrEqual(-0.01);
        expect(box.right).toBeLessThanOrEqual(width + 0.01);
        expect(box.bottom).toBeLessThanOrEqual(one.height + 0.01);
      }
    }
  });
});

describe('the g-g picture', () => {
  const g = Array.from({ length: 21 }, (_, i) => -2 + i * 0.2);
  const [picture] = ggPictures(tank, [out], [0.003], { verticalG: 1, longitudinalG: g, lateralG: g });
  const directionsDeg = Array.from({ length: 72 }, (_, i) => i * 5);
  const greatest = greatestG(tank, out, 0.003, { directionsDeg, verticalG: 1, mostG: 3 });
  const drawing = gPicture({ picture: picture!, outlet: 'out', greatest }, 'metric', sheet);

  it('fills its frame with cells, each told by tint or hatch as well as by colour', () => {
    const rects = kinds(drawing.shapes, 'rect');
    const frame = rects.find((r) => r.fill === undefined)!;
    const cells = rects.filter((r) => r.pen === undefined);
    expect(cells.reduce((sum, r) => sum + r.width * r.height, 0) / (frame.width * frame.height)).toBeCloseTo(1, 1);
    const looks = new Set(cells.map((r) => `${r.fill} ${r.hatch?.pitch}`));
    expect(looks.size).toBe(3);
    // Speeding up bares the outlet in the front wall: dark above, tinted below.
    const row = (fill: string) => cells.filter((r) => r.fill === fill).map((r) => r.at[1]);
    expect(Math.max(...row('steel'))).toBeLessThan(Math.max(...row('tape')));
    expect(Math.min(...row('tape'))).toBeGreaterThan(Math.min(...row('steel')));
  });

  it('draws where it is lost at the g worked by hand: 0.854 g speeding up', () => {
    const rects = kinds(drawing.shapes, 'rect');
    const frame = rects.find((r) => r.fill === undefined)!;
    const line = kinds(drawing.shapes, 'line').filter((l) => l.pen.width > 2);
    const top = Math.min(...line.flatMap((l) => [l.from[1], l.to[1]]));
    // 21 cells of 0.2 g over the height: 0 g in the middle.
    const perG = frame.height / 4.2;
    expect((frame.at[1] + frame.height / 2 - top) / perG).toBeCloseTo(0.8544, 3);
  });

  it('says in words what it shows', () => {
    expect(texts(drawing.shapes)).toEqual(
      expect.arrayContaining([
        'covered',
        'partly covered',
        'uncovered',
        'speeding up',
        'braking',
        'right-hand',
        'bared first at 0.85 g, speeding up',
      ]),
    );
    expect(drawing.description).toMatch(
      /^Oil tank with 3\.0 L, out, over -2\.0 to 2\.0 g along the car .*: covered \d+ %, partly covered \d+ %, uncovered \d+ %; bared first/,
    );
    expect(() => gPicture({ picture: picture!, outlet: 'drain' }, 'metric', sheet)).toThrow(/drain/);
  });

  it('keeps its words on the sheet', () => {
    for (const width of [200, 300, 500]) {
      const one = gPicture({ picture: picture!, outlet: 'out', greatest }, 'metric', { ...sheet, width });
      for (const box of labelBoxes(one)) {
        expect(box.left).toBeGreaterThanOrEqual(-0.01);
        expect(box.right).toBeLessThanOrEqual(width + 0.01);
      }
    }
  });
});

it('g in words', () => {
  expect(gWords(rest)).toBe('standing still');
  expect(gWords({ longitudinalG: -1.2, lateralG: 0.8, verticalG: 1 })).toBe('braking 1.20 g, right-hand corner 0.80 g');
  expect(gWords({ longitudinalG: 0, lateralG: -0.8, verticalG: 0.5 })).toBe('left-hand corner 0.80 g, 0.50 g downward');
  expect(gWords({ longitudinalG: 0, lateralG: 0, verticalG: 0 })).toBe('no g downward');
  expect(gWords({ longitudinalG: 0, lateralG: 0, verticalG: -0.5 })).toBe('0.50 g upward');
  expect([0, 90, 180, 270, -45, 359].map(wayWords)).toEqual([
    'speeding up',
    'in a right-hand corner',
    'braking',
    'in a left-hand corner',
    'speeding up in a left-hand corner',
    'speeding up',
  ]);
});
