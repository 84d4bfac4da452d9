import { readFileSync } from 'node:fs';
import { type Car, readCar } from '#car';
import { cross, distance, dot, isInOutline, outlineArea } from '#geometry';
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

describe('what is written on a flat', () => {
  it('stands on metal: no word begins, ends or has its middle in an opening', () => {
    expect(layouts.filter(({ flats }) => flats[0]!.cutOuts.length > 0).length).toBeGreaterThan(2);
    for (const { flats } of layouts)
      for (const { words, cutOuts } of flats)
        for (const { at, text, heightMm, turnDeg } of words)
          for (const share of [0, 0.5, 1]) {
            // Words begin at their place; a bold capital is some three quarters of its height wide.
            const long = share * text.length * heightMm * 0.75;
            const turn = (turnDeg * Math.PI) / 180;
            const place = [at[0] + long * Math.cos(turn), at[1] + long * Math.sin(turn)] as const;
            expect([
              text,
              cutOuts.filter(({ outline }) => isInOutline(outline, place)).map(({ name }) => name),
            ]).toEqual([text, []]);
          }
  });
});

describe('what the demo says of its panels without being told (hand: see each name)', () => {
  const codes = (id: string) => laid(id).findings.map(({ code }) => code);

  it('PN2R and PN2L are twisted: the fourth corner stands as far off the plane of the other three as a plane through them says', () => {
    // Plane of A, B, C of PN2R: normal of AB x AC; D's distance from it.
    for (const id of ['PN2R', 'PN2L']) {
      const [a, b, c, d] = laid(id).corners.map(({ at }) => at);
      const sub = (p: readonly number[], q: readonly number[]) =>
        p.map((v, i) => v - q[i]!) as [number, number, number];
      const normal = cross(sub(b!, a!), sub(c!, a!));
      const off = Math.abs(dot(normal, sub(d!, a!))) / Math.hypot(...normal);
      expect(laid(id).surface!.liftMm).toBeCloseTo(off, 6);
      expect(off).toBeGreaterThan(30);
      expect(codes(id)).toContain('panel-twisted');
    }
    for (const id of ['PN1', 'PN3', 'PN4', 'PN5']) expect(codes(id)).not.toContain('panel-twisted');
  });

  it('PN2L is no mirror of PN2R: C is 4 right and 4 up of it, the root of 32 in all', () => {
    const told = laid('PN2L').findings.find(({ code }) => code === 'panel-no-mirror')!;
    expect(told).toMatchObject({ at: 'C', value: 5.7, limit: 2.8 });
    expect(laid('PN2L').windows).toHaveLength(1);
    expect(laid('PN2L').flats[0]!.cutOuts.map(({ name }) => name)).toEqual(
      laid('PN2R').flats[0]!.cutOuts.map(({ name }) => name),
    );
  });

  it('PN4 has its two drain holes of 50 where they were measured, 60 in from two edges', () => {
    const drains = laid('PN4').flats[0]!.holes.filter(({ for: what }) => what === 'drain');
    expect(drains.map(({ at, diameterMm }) => [Math.round(at[0]), Math.round(at[1]), diameterMm])).toEqual([
      [60, 60, 50],
      [60, 600, 50],
    ]);
  });

  it('PN3 is folded down along both long edges, its fixings there in the flanges', () => {
    const { flats, fixings, edges } = laid('PN3');
    expect(flats[0]!.folds.map(({ way, turnDeg }) => [way, turnDeg])).toEqual([
      ['down', 90],
      ['down', 90],
    ]);
    const flanged = edges.find(({ id }) => id === 'A-B')!;
    const own = fixings.filter(({ edge }) => edge === 'A-B');
    expect(own.length).toBeGreaterThan(5);
    expect(own.every(({ at }) => at[1] < flanged.line[0][1])).toBe(true);
  });
});
