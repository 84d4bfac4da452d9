import { readFileSync } from 'node:fs';
import { catalogue } from '#standards';
import { describe, expect, it } from 'vitest';
import { demoOf } from './demo.fixture.ts';
import type { Shape, Spot } from './drawing.ts';
import { labelBoxes } from './label-boxes.ts';
import { overlapping, outside } from './label-clashes.fixture.ts';
import { stripItems } from './make-up-parts.ts';
import { makeUpStrip } from './make-up-strip.ts';
import { lengthOf, turnOf } from './unrolled.ts';

const demo = demoOf((place) => readFileSync(new URL(`../../${place}`, import.meta.url), 'utf8'));
const parts = catalogue(demo.car.catalogue as never);
const wayOf = (id: string) => demo.ways.find((row) => row.line === id)!.way;

describe('the make-up of a way', () => {
  it('is all its parts in order, seals with what they seal', () => {
    const items = stripItems(wayOf('O8'), parts);
    expect(items.map((item) => (item.kind === 'fitting' ? item.row : item.kind))).toEqual([
      'port',
      'taper-1-8-flare-4',
      'end-crushed-collar-ptfe-smooth-4-45',
      'run',
      'end-crushed-collar-ptfe-smooth-4-120',
      'washer-m12x1.5-flare-4-restrictor-1.2',
      'port',
    ]);
    const words = items.map((item) => (item.kind === 'over' ? '' : item.words));
    expect(words[1]).toMatch(/^1\/8 taper pipe .*; thread sealant/);
    expect(words[5]).toMatch(/1\.2 mm restrictor; sealing washer M12x1\.5/);
  });

  it.each([
    ['O1', 'end-reusable-rubber-braid-16-150', 150],
    ['O1', 'end-reusable-rubber-braid-16-60', 60],
    ['O2', 'boss-12-flare-12-90', 90],
    ['O2', 'end-reusable-rubber-braid-12-0', 0],
    ['O3', 'end-reusable-rubber-braid-12-180', 180],
    ['O3', 'end-reusable-rubber-braid-12-30', 30],
  ])('%s: %s turns by its own angle when it is laid flat', (line, row, deg) => {
    const item = stripItems(wayOf(line), parts).find((i) => i.kind === 'fitting' && i.row === row);
    const turn = item?.kind === 'fitting' ? item.bodies.reduce((sum, body) => sum + turnOf(body.steps), 0) : NaN;
    expect(Math.abs((turn * 180) / Math.PI - deg)).toBeLessThan(0.5);
  });

  it('lays a hose end flat at the length that the catalogue gives it', () => {
    const hose = parts.findHose('rubber-16')!;
    const end = parts.hoseEndsFor(hose).find((e) => e.id === 'end-reusable-rubber-braid-16-60')!;
    const told = end.nutMm + (end.bendRadiusMm * Math.PI) / 3 + end.afterBendMm + end.socketMm;
    const item = stripItems(wayOf('O1'), parts).find((i) => i.kind === 'fitting' && i.row === end.id);
    const drawn = item?.kind === 'fitting' ? item.bodies.reduce((sum, body) => sum + lengthOf(body.steps), 0) : NaN;
    expect(Math.abs(drawn - told)).toBeLessThan(1.5);
  });
});

describe('the strip', () => {
  const sheets = [
    { width: 190, size: 2.6, unit: 'mm' },
    { width: 340, size: 12, unit: 'px' },
    { width: 560, size: 13, unit: 'px' },
  ] as const;
  it.each(sheets)('of every demo line keeps its words apart and on the sheet: $width $unit', (sheet) => {
    for (const { line, way } of demo.ways) {
      const grommets = demo.car.lines.find((l) => l.id === line)!.through.map((t) => t.part);
      const strip = makeUpStrip(way, parts, { ...sheet, grommets });
      expect([line, outside(strip), overlapping(strip)]).toEqual([line, [], []]);
    }
  });

  it('keeps its rings with numbers apart', () => {
    const rings = (shapes: readonly Shape[], x = 0, y = 0): Spot[] =>
      shapes.flatMap((shape) => {
        if (shape.kind === 'group') return rings(shape.shapes, x + shape.offset[0], y + shape.offset[1]);
        const isRing = shape.kind === 'circle' && shape.pen?.role === 'soft';
        return isRing ? [[shape.centre[0] + x, shape.centre[1] + y] as const] : [];
      });
    for (const { line, way } of demo.ways) {
      const found = rings(makeUpStrip(way, parts, { width: 190, size: 2.6, unit: 'mm' }).shapes);
      expect(found.length).toBeGreaterThan(2);
      for (const [i, a] of found.entries())
        for (const b of found.slice(i + 1))
          expect([line, Math.hypot(a[0] - b[0], a[1] - b[1]) >= 2 * 2.6 * 0.78]).toEqual([line, true]);
    }
  });

  it('prints the cut length and its allowance, in inches where asked', () => {
    const texts = (inches: boolean) =>
      labelBoxes(makeUpStrip(wayOf('O2'), parts, { width: 190, size: 2.6, unit: 'mm', inches })).map((l) => l.text);
    expect(texts(false)).toContain('cut 610 mm, −5 +15');
    // By hand: 610 / 25.4 = 24.016, to the nearest sixteenth 24; 5 / 25.4 = 3.1 sixteenths, 15 / 25.4 = 9.4.
    expect(texts(true)).toContain('cut 24 in, −3/16 +9/16');
  });

  it('says that there is nothing where no make-up was found', () => {
    const way = { ...wayOf('O2'), bodies: [], pieces: [] };
    const strip = makeUpStrip(way, parts, { width: 190, size: 2.6, unit: 'mm' });
    expect(strip.description).toBe('No make-up was found.');
    expect(overlapping(strip)).toEqual([]);
  });
});
