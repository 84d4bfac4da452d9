import { box, type Solid, type Vec } from '#geometry';
import { describe, expect, it } from 'vitest';
import { handRoom } from './hand-room.ts';
import type { Thing } from './things.ts';
import { toolsOf } from './workshop.ts';

const { hand } = toolsOf(undefined);

const thing = (id: string, solid: Solid): Thing => ({
  id,
  kind: 'part',
  bounds: solid.bounds,
  distanceWithin: (x, y, z, limit) => solid.distanceWithin(x, y, z, limit),
  closest: null,
});

/** A box of sheet 800 mm a side, with a slot of that width and height in the middle of its top. */
function chest(wideMm: number, longMm: number): Thing[] {
  const [w, l] = [wideMm / 2, longMm / 2];
  const wall = (id: string, min: Vec, max: Vec): Thing => thing(id, box(min, max));
  return [
    wall('floor', [-400, -400, -10], [400, 400, 0]),
    wall('left', [-410, -400, 0], [-400, 400, 800]),
    wall('right', [400, -400, 0], [410, 400, 800]),
    wall('front', [-400, -410, 0], [400, -400, 800]),
    wall('back', [-400, 400, 0], [400, 410, 800]),
    wall('lid', [-400, -400, 800], [-w, 400, 810]),
    wall('lid', [w, -400, 800], [400, 400, 810]),
    wall('lid', [-w, -400, 800], [w, -l, 810]),
    wall('lid', [-w, l, 800], [w, 400, 810]),
  ];
}

describe('a hand comes', () => {
  it('as deep as an arm is long through a hole for an arm, and no deeper (hand: 800 of chest, 650 of arm and 190 of hand)', () => {
    const room = handRoom(chest(200, 200), hand);
    expect(room.reaches([0, 0, 700])).toBe(true);
    expect(room.reaches([0, 0, 250])).toBe(true);
    expect(room.reaches([380, 380, 60])).toBe(false);
  });

  it('a hand deep through a slot for a flat hand (hand: 80 by 200 lets 55 by 100 in, no arm of 100)', () => {
    const room = handRoom(chest(80, 200), hand);
    expect(room.reaches([0, 0, 720])).toBe(true);
    expect(room.reaches([0, 0, 450])).toBe(false);
  });

  it('nowhere through a slot of 40', () => {
    const room = handRoom(chest(40, 300), hand);
    expect(room.reaches([0, 0, 700])).toBe(false);
    expect(room.reaches([0, 0, 900])).toBe(true);
  });

  it('to a shut chest once its lid is off, unless the lid never comes off', () => {
    const room = handRoom(chest(0.1, 0.1), hand);
    expect(room.reaches([0, 0, 600])).toBe(false);
    expect(room.shutBy([0, 0, 600], new Set(['floor', 'left', 'right', 'front', 'back']))).toEqual(['lid']);
    expect(room.shutBy([0, 0, 600], new Set(['lid', 'floor', 'left', 'right', 'front', 'back']))).toBeNull();
  });

  it('out again by its own way, from a place it comes to', () => {
    const room = handRoom(chest(200, 200), hand);
    const way = room.wayOut([0, 0, 500]);
    expect(way.length).toBeGreaterThan(10);
    expect(way.some(([x, y, z]) => Math.abs(z - 805) < 20 && Math.hypot(x, y) < 100)).toBe(true);
  });
});
