import { readFileSync } from 'node:fs';
import { type Car, readCar } from '#car';
import { cross, distance, dot, outlineArea } from '#geometry';
import { describe, expect, it } from 'vitest';
import { panelLayouts } from './panel-layouts.ts';
import { carFromFlat } from './surface/flat-frame.ts';

const read = readCar(readFileSync(new URL('../../demo/fellside.json', import.meta.url), 'utf8'));
if (!('car' in read)) throw new Error('the demo car cannot be read');
const layouts = panelLayouts(read.car as Car);
const laid = (id: string) => layouts.find(({ panel }) => panel.id === id)!;

describe('the panels of the demo car against rectangles worked out by hand', () => {
  it('PN1 is 1280 by 390: its corners run counter-clockwise seen from the engine', () => {
    const flat = laid('PN1').flats[0]!;
    expect(flat.corners.map(({ at }) => at.map(Math.round))).toEqual([
      [0, 0],
      [1280, 0],
      [1280, 390],
      [0, 390],
    ]);
    expect(outlineArea(flat.outline)).toBeCloseTo(1280 * 390, 3);
  });

  it('PN4 is seen from below: its corners run clockwise, so the drawing begins at B', () => {
    const flat = laid('PN4').flats[0]!;
    expect(flat.corners.map(({ at }) => at.map((v) => Math.round(v) + 0))).toEqual([
      [540, 0],
      [0, 0],
      [0, 660],
      [540, 660],
    ]);
    expect(outlineArea(flat.outline)).toBeCloseTo(540 * 660, 3);
  });

  it('no drawing is a mirror image: x, y and outside are right-handed, and outside looks where the car says', () => {
    for (const { panel, facets, corners } of layouts)
      for (const { frame } of facets) {
        expect(dot(cross(frame.x, frame.y), frame.out)).toBeCloseTo(1, 9);
        expect(dot(frame.out, panel.outside!)).toBeGreaterThan(0);
        // A corner carried back onto the car stands off by its twist alone.
        for (const { flat, at, outMm } of corners)
          expect(distance(carFromFlat(frame, flat), at)).toBeCloseTo(Math.abs(outMm), 1);
      }
  });
});
