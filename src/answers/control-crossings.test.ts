import { type Car, readCar } from '#car';
import { isInOutline } from '#geometry';
import { linesWorld } from '#lines';
import { describe, expect, it } from 'vitest';
import { leverOf } from './lever-of.ts';
import { panelsOf } from './panels-of.ts';

/** A flat cover 200 mm over the pivot of a lever of 12 mm that swings 20 degrees either way; its cable of 9 mm goes through a wall. */
const car: Car = (() => {
  const sheet = (id: string, corners: readonly (readonly number[])[], outside: readonly number[]) => ({
    id,
    thicknessMm: 1.2,
    outside,
    corners: corners.map((atMm, i) => ({ id: 'ABCD'[i], atMm })),
  });
  const text = JSON.stringify({
    fairlead: 1,
    parts: [],
    panels: [
      sheet(
        'cover',
        [
          [-300, -200, 200],
          [300, -200, 200],
          [300, 200, 200],
          [-300, 200, 200],
        ],
        [0, 0, 1],
      ),
      sheet(
        'wall',
        [
          [600, -200, -100],
          [600, 200, -100],
          [600, 200, 150],
          [600, -200, 150],
        ],
        [1, 0, 0],
      ),
    ],
    levers: [
      {
        id: 'stick',
        name: 'Gear lever',
        acts: 'hand',
        pivotMm: [0, 0, 0],
        axis: [0, 1, 0],
        handle: { atMm: [0, 0, 350] },
        arms: [{ id: 'low', atMm: [0, 0, -60] }],
        turnDeg: [-20, 20],
        shapes: [
          {
            pointsMm: [
              [0, 0, -60],
              [0, 0, 350],
            ],
            radiusMm: 6,
          },
        ],
        cables: [
          {
            id: 'c',
            arm: 'low',
            to: { lever: 'far', arm: 'in' },
            pathMm: [
              [100, 0, -60],
              [900, 0, -60],
            ],
            odMm: 9,
          },
        ],
      },
      {
        id: 'far',
        acts: 'link',
        pivotMm: [1000, 0, 0],
        axis: [0, 1, 0],
        arms: [{ id: 'in', atMm: [1000, 0, -60] }],
        turnDeg: [-30, 30],
      },
    ],
  });
  const reading = readCar(text);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.car;
})();
const world = linesWorld(car, new Map());
const layouts = panelsOf(world);
const laid = (id: string) => layouts.find(({ panel }) => panel.id === id)!;

describe('controls that cross panels are cut into them', () => {
  it('a lever has a slot for its whole swing, by hand: 2 x 200 tan 20 degrees between its ends, its thickness and 6 mm of air as it leans there, 1.2 mm of sheet leant through', () => {
    const [hole] = laid('cover').holes;
    expect(hole).toMatchObject({ for: 'stick', diameterMm: 12 + 2 * 6 });
    const [turn, lean] = [Math.tan((20 * Math.PI) / 180), Math.cos((20 * Math.PI) / 180)];
    expect(hole!.longMm).toBeCloseTo(2 * 200 * turn + (12 + 2 * 6) / lean + 1.2 * turn, 6);
    expect(hole!.at.map(Math.round)).toEqual([300, 200]);
    expect(Math.abs(Math.sin((hole!.turnDeg! * Math.PI) / 180))).toBeLessThan(1e-6);
    expect(hole!.seal).toBe('a gaiter over the slot, clamped to the lever');
    // The slot stands on the flat that is cut.
    expect(laid('cover').flats[0]!.slots).toMatchObject([{ for: 'stick', wideMm: 24 }]);
  });

  it('a cable has the hole of a grommet that takes it, where its path goes through', () => {
    const { bulkheadFittings: _, grommets } = world.shelf;
    const fits = grommets.filter((row) => row.lineOdMinMm < 9 && 9 <= row.lineOdMaxMm).map(({ holeMm }) => holeMm);
    const [hole] = laid('wall').holes;
    expect(hole).toMatchObject({ for: 'stick-c', fitted: 'grommet' });
    expect(fits).toContain(hole!.diameterMm);
    // Wall from Y -200, Z -100: 200 along and 40 up.
    expect(hole!.at.map(Math.round)).toEqual([200, 40]);
    const flat = laid('wall').flats[0]!;
    expect(isInOutline(flat.outline, hole!.at)).toBe(true);
  });

  it('neither the panel nor the lever calls the other an obstacle there; without the slot both would', () => {
    const about = layouts.flatMap(({ findings }) => findings).filter(({ part }) => part === 'stick');
    expect(about).toEqual([]);
    const answer = leverOf(car, new Map(), car.levers![0]!);
    expect([...answer.sweep, ...answer.cableGaps].map(({ part }) => part)).toEqual([]);
    // A cover 30 mm over the knob is none of its business, 2 mm beside it is.
    const lid = {
      ...car.panels![0]!,
      corners: car.panels![0]!.corners!.map((c) => ({
        ...c,
        atMm: [c.atMm![0], c.atMm![1], 360] as [number, number, number],
      })),
    };
    const near = { ...car, panels: [lid] };
    expect(leverOf(near, new Map(), car.levers![0]!).sweep).toMatchObject([{ part: 'cover' }]);
    expect(panelsOf(linesWorld(near, new Map()))[0]!.findings.map(({ code, part }) => [code, part])).toContainEqual([
      'part-touches-panel',
      'stick',
    ]);
  });

  it('a cable is held against lines as they lie, by hand from both middles: its 4.5 and the hose of 12 its 6', () => {
    // The cable runs along X at Z -60; a hose crosses over it at X 500.
    const hose = (z: number) =>
      new Map([['L', [{ part: 'hose', odMm: 12, pathMm: [-1, 1].map((y) => [500, 200 * y, z] as const) }]]]);
    const told = (z: number) =>
      leverOf(car, new Map(), car.levers![0]!, hose(z)).findings.filter(({ code }) => code === 'cable-lines');
    expect(told(-45)).toEqual([]);
    const [near] = told(-48);
    expect(near).toMatchObject({ level: 'fix', link: 'c', limit: 3 });
    expect(near!.value).toBeCloseTo(1.5, 1);
    const [through] = told(-55);
    expect(through).toMatchObject({ level: 'stop' });
    expect(through!.value).toBeCloseTo(-5.5, 1);
    expect(through!.text).toMatch(/runs 6 mm into L; 3 mm are wanted/);
  });
});
