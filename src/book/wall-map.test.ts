import { readFileSync } from 'node:fs';
import { findLine } from '#car';
import type { Vec } from '#geometry';
import { describe, expect, it } from 'vitest';
import { demoOf } from './demo.fixture.ts';
import type { Shape, Spot } from './drawing.ts';
import { hull } from './hull.ts';
import { labelBoxes } from './label-boxes.ts';
import { outside, overlapping } from './label-clashes.fixture.ts';
import { doCross, onRow } from './leaders.ts';
import { partOutlines } from './part-outlines.ts';
import { wallMap } from './wall-map.ts';

const demo = demoOf((place) => readFileSync(new URL(`../../${place}`, import.meta.url), 'utf8'));
const lines = demo.ways
  .filter((row) => row.isTaken)
  .map(({ line, way }) => ({
    line: findLine(demo.car, line)!,
    bodies: way.bodies,
    cutsMm: way.pieces.map((piece) => piece.cutLengthMm),
  }));
const refused = demo.ways.filter((row) => !row.isTaken).map((row) => row.line);
const flat = (shapes: readonly Shape[]): Shape[] =>
  shapes.flatMap((shape) => (shape.kind === 'group' ? flat(shape.shapes) : [shape]));
const area = (points: readonly Spot[]) =>
  Math.abs(points.reduce((sum, p, i) => sum + p[0] * points.at(i - 1)![1] - p[1] * points.at(i - 1)![0], 0)) / 2;

describe('outlines', () => {
  it('of spots go round them: worked by hand', () => {
    const square: Spot[] = [
      [0, 0],
      [4, 0],
      [4, 4],
      [0, 4],
      [1, 2],
      [2, 0],
    ];
    expect(area(hull(square))).toBe(16);
    expect(hull(square)).toHaveLength(4);
  });

  const part = (shapes: unknown) => ({ id: 'p', class: 'fixed', shapes, ports: [] }) as never;
  it('of a box turned 45 degrees about Z are wider by the root of two', () => {
    const shapes = [{ box: { minMm: [-50, -50, 0], maxMm: [50, 50, 30] }, turnDeg: [0, 0, 45], atMm: [500, 0, 0] }];
    const [top] = partOutlines(part(shapes), new Map(), ([x, y]) => [x, y]);
    expect(Math.max(...top!.map((s) => s[0]))).toBeCloseTo(500 + 50 * Math.SQRT2, 9);
    expect(area(top!)).toBeCloseTo(100 * 100, 6);
    const [side] = partOutlines(part(shapes), new Map(), ([x, , z]) => [x, z]);
    expect(area(side!)).toBeCloseTo(100 * Math.SQRT2 * 30, 6);
  });

  it('of a cylinder are a circle from its end and a rectangle from its side', () => {
    const shapes = [{ cylinder: { fromMm: [0, 0, 0], toMm: [0, 0, 200], radiusMm: 50 } }];
    const [top] = partOutlines(part(shapes), new Map(), ([x, y]) => [x, y]);
    // 24 corners: n/2 r² sin(2π/n).
    expect(area(top!)).toBeCloseTo(12 * 2500 * Math.sin(Math.PI / 12), 6);
    const [side] = partOutlines(part(shapes), new Map(), ([x, , z]) => [x, z]);
    const width = Math.max(...side!.map((s) => s[0])) - Math.min(...side!.map((s) => s[0]));
    expect(width).toBeGreaterThan(99);
    expect(width).toBeLessThanOrEqual(100 + 1e-9);
  });
});

describe('tags at leaders', () => {
  it('stand apart and their leaders do not cross', () => {
    // A fixed scatter: multiples of 37 and 61 in a field of 23 x 80, so that the tags are pushed far aside.
    const leds = Array.from({ length: 14 }, (_, i) => ({
      id: `L${i}`,
      anchor: [(i * 37) % 23, 20 + ((i * 61) % 60)] as const,
    }));
    const placed = onRow(leds, 0, 0, 120, 8);
    const xs = placed.map((p) => p.tag[0]).sort((a, b) => a - b);
    for (const [i, x] of xs.entries()) if (i > 0) expect(x - xs[i - 1]!).toBeGreaterThanOrEqual(8 - 1e-9);
    for (const [i, a] of placed.entries())
      for (const b of placed.slice(i + 1)) expect(doCross(a.anchor, a.tag, b.anchor, b.tag)).toBe(false);
    expect(doCross([0, 0], [2, 2], [0, 2], [2, 0])).toBe(true);
  });
});

describe('the wall map', () => {
  it.each(['A2', 'A3'] as const)(
    'of the demo on %s names every line in both views, apart and on the sheet',
    (paper) => {
      const map = wallMap(demo.car, lines, { paper, refused });
      const texts = labelBoxes(map).map((label) => label.text);
      for (const { line } of lines)
        expect([line.id, texts.filter((text) => text === line.id).length]).toEqual([line.id, 3]);
      expect(texts.join(' ')).toContain(`No way yet, not drawn: ${refused.join(', ')}`);
      expect([outside(map), overlapping(map)]).toEqual([[], []]);
    },
  );

  it('is to scale: its bar is as long as it says', () => {
    const map = wallMap(demo.car, lines, { paper: 'A2' });
    const texts = labelBoxes(map).map((label) => label.text);
    const reduced = Number(/Scale 1 : ([\d.]+) on A2/.exec(texts.join('\n'))?.[1]);
    const bar = labelBoxes(map).find((label) => /^\d+ mm$/.test(label.text))!;
    const zero = labelBoxes(map).find((label) => label.text === '0')!;
    expect((bar.left + bar.right) / 2 - zero.left).toBeCloseTo(Number.parseInt(bar.text, 10) / reduced, 6);
    const placed = (shapes: readonly Shape[], x = 0): { x: number; shape: Shape }[] =>
      shapes.flatMap((shape) => (shape.kind === 'group' ? placed(shape.shapes, x + shape.offset[0]) : [{ x, shape }]));
    // The ends of the clutch line: 2,100 mm and more apart along the car, in the file and on the sheet.
    const path = lines.find(({ line }) => line.id === 'H1')!.bodies.flatMap((body) => body.pathMm);
    const xs = placed(map.shapes).flatMap(({ x, shape }) =>
      shape.kind === 'polyline' && shape.pen?.role === 'brake' ? shape.points.map((p) => p[0] + x) : [],
    );
    const brakes = lines
      .filter(({ line }) => ['B1', 'B2', 'H1'].includes(line.id))
      .flatMap(({ bodies }) => bodies.flatMap((b) => b.pathMm));
    const span = Math.max(...brakes.map((p) => p[0])) - Math.min(...brakes.map((p) => p[0]));
    expect(path.length).toBeGreaterThan(10);
    expect((Math.max(...xs) - Math.min(...xs)) * reduced).toBeCloseTo(span, 3);
  });

  it('of who works in inches says cuts to 1/16, and its bar is as many inches long as it says', () => {
    const o1 = lines.find(({ line }) => line.id === 'O1')!;
    // hand: 1260 mm / 25.4 = 49.61 in, to the nearest sixteenth 49 10/16.
    const map = wallMap(demo.car, [{ ...o1, cutsMm: [1260] }], { paper: 'A2', inches: true });
    const all = labelBoxes(map).map((label) => label.text);
    expect(all.some((text) => text.endsWith('; 49 5/8 in'))).toBe(true);
    expect(all.join(' ')).not.toMatch(/\d mm\b|\bmm\b/u);
    const reduced = Number(/Scale 1 : ([\d.]+) on A2/.exec(all.join('\n'))?.[1]);
    const bar = labelBoxes(map).find((label) => /^\d+ in$/.test(label.text))!;
    const zero = labelBoxes(map).find((label) => label.text === '0')!;
    expect(((bar.left + bar.right) / 2 - zero.left) * reduced).toBeCloseTo(25.4 * Number.parseInt(bar.text, 10), 6);
  });

  it('shows panels by a thin broken edge, each in both views, and what lies behind them', () => {
    const corners = [
      [1000, -300, 700],
      [1600, -300, 700],
      [1600, 300, 700],
      [1000, 300, 700],
    ] as const;
    const edges = (panels: readonly { readonly id: string; readonly corners: readonly Vec[] }[]): Shape[] =>
      flat(wallMap(demo.car, lines, { paper: 'A2', panels }).shapes).filter(
        (shape) => shape.kind === 'polyline' && shape.pen?.role === 'ink' && shape.pen.dash !== undefined,
      );
    expect(edges([])).toEqual([]);
    const [left, above] = edges([{ id: 'PN', corners }]).map((shape) => {
      const points = shape.kind === 'polyline' ? shape.points : [];
      const span = (k: 0 | 1): number => Math.max(...points.map((p) => p[k])) - Math.min(...points.map((p) => p[k]));
      return [span(0), span(1), 'fill' in shape && shape.fill !== undefined];
    });
    // From the left it is seen edge on; from above as it is, 600 by 600 mm.
    expect(left![1]).toBeCloseTo(0, 9);
    expect(above![0] as number).toBeCloseTo(above![1] as number, 9);
    expect([left![2], above![2]]).toEqual([false, false]);
  });

  it('is still a sheet without lines and without parts', () => {
    expect(outside(wallMap({ ...demo.car, parts: [], lines: [] }, []))).toEqual([]);
  });
});
