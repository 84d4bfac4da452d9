import { describe, expect, it } from 'vitest';
import { type Car, carFrom } from '#car';
import { type Body, bodyGap, bodyShape, movedPoint, type Vec } from '#geometry';
import { bay, type Bay } from './bay.ts';
import { gapFaults, gapsToParts, type LineInBay } from './gaps.ts';
import { keepOff } from './keep-off.ts';
import { bridgedBodies, movedBodies } from './moved-line.ts';
import { jointPoses, relativeTo } from './movement.ts';
import { planningItems } from './planning-items.ts';
import { distanceToPart } from './port-inside.ts';
import { lengthAlong, stretch } from './stretch.ts';

const straight = (from: Vec, to: Vec, radiusMm: number, pieces = 20): Body => ({
  part: 'hose',
  path: Float64Array.from(
    Array.from({ length: pieces + 1 }, (_, i) => from.map((a, k) => a + ((to[k]! - a) * i) / pieces)).flat(),
  ),
  radiusMm,
});

type Json = Record<string, unknown>;
const port = (id: string, atMm: Vec, faces: Vec, more: Json = {}): Json => ({
  id,
  atMm,
  faces,
  end: { type: 'orb', dash: 8 },
  ...more,
});
const box = (minMm: Vec, maxMm: Vec, more: Json = {}): Json => ({ box: { minMm, maxMm }, ...more });

/** As good as a ball: a tube a hundredth of a millimetre long. */
const ball = (at: Vec, radiusMm: number, more: Json = {}): Json => ({
  tube: { pointsMm: [at, [at[0] + 0.01, at[1], at[2]]], radiusMm },
  ...more,
});

/** A line from block `a` at x = 0 to block `b` at x = 400, along X at y = 0, z = 450, known exactly. */
function carOf(
  parts: readonly Json[],
  more: { readonly a?: Json; readonly b?: Json; readonly line?: Json; readonly port?: Json } = {},
): Car {
  const reading = carFrom({
    fairlead: 1,
    name: 'Test',
    movers: [
      { id: 'engine', pivotMm: [0, 0, 0], axis: [1, 0, 0], turnDeg: [-1, 1] },
      {
        id: 'wheel',
        slideMm: [
          [0, 0, -50],
          [0, 0, 60],
        ],
      },
    ],
    parts: [
      {
        id: 'a',
        class: 'fixed',
        knownToMm: 0,
        shapes: [box([-50, -30, 420], [0, 30, 480])],
        ports: [port('out', [0, 0, 450], [1, 0, 0], more.port)],
        ...more.a,
      },
      {
        id: 'b',
        class: 'fixed',
        knownToMm: 0,
        shapes: [box([400, -30, 420], [450, 30, 480])],
        ports: [port('in', [400, 0, 450], [-1, 0, 0])],
        ...more.b,
      },
      ...parts.map((p) => ({ class: 'fixed', knownToMm: 0, ports: [], ...p })),
    ],
    lines: [
      { id: 'L', from: 'a.out', to: 'b.in', duty: 'oil-pressure', dash: 8, pieces: [], state: 'planned', ...more.line },
    ],
  } as never);
  if (!reading.ok) throw new Error(JSON.stringify(reading));
  return reading.car;
}

const LINE = straight([0, 0, 450], [400, 0, 450], 10, 134);
const lineIn = (car: Car, more: Partial<LineInBay> = {}): LineInBay => ({
  line: car.lines[0]!,
  bodies: [LINE],
  from: 'a.out',
  to: 'b.in',
  nearMm: [60, 60],
  ...more,
});
const rowOf = (space: Bay, part: string, more: Partial<LineInBay> = {}) =>
  gapsToParts(lineIn(space.car, more), space).find((r) => r.part === part);

describe('placing', () => {
  it('hand: a box turned a quarter about Z, then moved', () => {
    const space = bay(
      carOf([{ id: 'p', shapes: [box([0, 0, 0], [100, 20, 10], { turnDeg: [0, 0, 90], atMm: [500, 0, 0] })] }]),
      new Map(),
    );
    // X 0..100 goes to Y 0..100, Y 0..20 to X 0..-20.
    expect(space.partById.get('p')!.bounds!.min.map((v) => Math.round(v) + 0)).toEqual([480, 0, 0]);
    expect(space.partById.get('p')!.bounds!.max.map((v) => Math.round(v) + 0)).toEqual([500, 100, 10]);
  });
  it('hand: X, then Y, then Z: (1, 2, 3) goes by quarter turns to (1,-3,2), (2,-3,-1), (3,2,-1)', () => {
    const space = bay(carOf([{ id: 'p', shapes: [ball([1, 2, 3], 0.5, { turnDeg: [90, 90, 90] })] }]), new Map());
    expect(distanceToPart(space.partById.get('p')!, 3, 2, -1)).toBeCloseTo(-0.5, 9);
  });
  it('a mesh file that is not there is a stop, in one line', () => {
    const space = bay(carOf([{ id: 'p', shapes: [{ mesh: { file: 'gone.stl', unit: 'mm' } }] }]), new Map());
    expect(space.warnings.map((w) => [w.code, w.level])).toEqual([['shape-unusable', 'stop']]);
  });
  it('a mesh is turned, then moved', () => {
    const tetra = {
      positions: Float64Array.of(0, 0, 0, 30, 0, 0, 0, 30, 0, 0, 0, 30),
      indices: Uint32Array.of(0, 2, 1, 0, 1, 3, 0, 3, 2, 1, 2, 3),
    };
    const space = bay(
      carOf([
        {
          id: 'p',
          shapes: [{ mesh: { file: 't.stl', unit: 'mm', turnDeg: [0, 0, 180], atMm: [100, 0, 0], knownToMm: 2 } }],
        },
      ]),
      new Map([['t.stl', tetra]]),
    );
    const part = space.partById.get('p')!;
    expect(part.knownToMm).toBe(2);
    expect(distanceToPart(part, 110, 0, 0)).toBeCloseTo(10, 6);
    expect(distanceToPart(part, 95, -5, 5)).toBeCloseTo(-5, 6);
  });
});

describe('movement', () => {
  const rocking = { id: 'p', movesWith: 'engine', shapes: [ball([200, 0, 550], 20)] };
  it('hand: engine rock of 1 degree moves what is 450 mm over the pivot by 450 sin 1 = 7.85 mm', () => {
    const space = bay(carOf([]), new Map());
    const moved = space.movers.get('engine')!.extremes.map((m) => movedPoint(m, [200, 0, 450])[1]);
    expect(Math.max(...moved)).toBeCloseTo(450 * Math.sin(Math.PI / 180), 9);
    expect(Math.min(...moved)).toBeCloseTo(-7.8535, 3);
  });
  it('hand: a part beside the line comes nearer by that much', () => {
    const space = bay(carOf([{ ...rocking, shapes: [ball([200, 100, 450], 20)] }]), new Map());
    const row = rowOf(space, 'p')!;
    expect(row.gapMm).toBeCloseTo(70, 1);
    // The ball turns about X: from (100, 450) to 100 cos 1 - 450 sin 1, 450 cos 1 + 100 sin 1.
    const [c, s] = [Math.cos(Math.PI / 180), Math.sin(Math.PI / 180)];
    expect(row.worstMm).toBeCloseTo(Math.hypot(100 * c - 450 * s, 450 * c + 100 * s - 450) - 30, 1);
    expect(row.bestMm).toBeCloseTo(Math.hypot(100 * c + 450 * s, 450 * c - 100 * s - 450) - 30, 1);
  });
  it('two things on one mover do not move against each other', () => {
    const on = { movesWith: 'engine' };
    const row = rowOf(bay(carOf([rocking], { a: on, b: on }), new Map()), 'p')!;
    expect(row.worstMm).toBe(row.gapMm);
    expect(row.bestMm).toBe(row.gapMm);
    const space = bay(carOf([rocking], { a: on, b: on }), new Map());
    for (const m of space.movers.get('engine')!.poses) {
      const there = bodyGap(movedBodies([LINE], m)[0]!, space.partById.get('p')!.solids[0]!.moved(m)).gapMm;
      expect(there).toBeCloseTo(row.gapMm, 1);
    }
  });
  it('a line on the engine and a part on the chassis: the same as the line moved (second method)', () => {
    const on = { movesWith: 'engine' };
    const space = bay(carOf([{ id: 'p', shapes: [box([150, 40, 400], [250, 60, 500])] }], { a: on, b: on }), new Map());
    const row = rowOf(space, 'p')!;
    const solid = space.partById.get('p')!.solids[0]!;
    const all = space.movers.get('engine')!.poses.map((m) => bodyGap(movedBodies([LINE], m)[0]!, solid).gapMm);
    expect(row.worstMm).toBeCloseTo(Math.min(...all), 1);
    expect(row.bestMm).toBeCloseTo(Math.max(...all), 1);
  });
  it('a line between chassis and engine is looked at with its ends apart', () => {
    const space = bay(
      carOf([{ id: 'p', shapes: [box([300, 14, 400], [340, 60, 500])] }], { b: { movesWith: 'engine' } }),
      new Map(),
    );
    const row = rowOf(space, 'p')!;
    expect(row.gapMm).toBeCloseTo(4, 1);
    expect(row.worstMm).toBeLessThan(-2);
    const ends = bridgedBodies(
      [LINE],
      space.movers.get('engine')!.extremes[0]!,
      space.movers.get('engine')!.extremes[1]!,
      [60, 60],
    );
    const path = bodyShape(ends[0]!).points;
    expect(path[1]).toBe(0);
    expect(Math.abs(path[path.length - 2]!)).toBeCloseTo(7.8535, 3);
  });
  it('slides count with both extremes', () => {
    const space = bay(
      carOf([{ id: 'p', class: 'moving', movesWith: 'wheel', shapes: [box([150, -20, 520], [250, 20, 560])] }]),
      new Map(),
    );
    const row = rowOf(space, 'p')!;
    expect([row.gapMm, row.worstMm, row.bestMm].map((v) => Math.round(v * 10) / 10)).toEqual([60, 10, 120]);
  });
  it('poses of three movers are joint ones; one mover for all is nominal only', () => {
    const { movers } = bay(carOf([]), new Map());
    expect(jointPoses(movers, { from: 'engine', to: 'engine', part: 'engine' })).toHaveLength(1);
    expect(jointPoses(movers, { from: null, to: null, part: 'wheel' })).toHaveLength(5);
    expect(jointPoses(movers, { from: null, to: 'engine', part: 'wheel' })).toHaveLength(9);
    const m = movers.get('engine')!.extremes[1]!;
    expect(relativeTo(m, m).shift).toEqual([0, 0, 0]);
  });
  it('worst <= nominal <= best, with tolerances and the spread of the hang', () => {
    const space = bay(
      carOf(
        [
          { ...rocking, knownToMm: 4 },
          { id: 'q', class: 'moving', knownToMm: 2, movesWith: 'wheel', shapes: [box([100, 30, 380], [130, 60, 410])] },
        ],
        { a: { knownToMm: 3 } },
      ),
      new Map(),
    );
    for (const row of gapsToParts(lineIn(space.car, { hangSpreadMm: 6 }), space)) {
      expect(row.worstMm).toBeLessThanOrEqual(row.gapMm);
      expect(row.bestMm).toBeGreaterThanOrEqual(row.gapMm);
    }
    const row = rowOf(space, 'p', { hangSpreadMm: 6 })!;
    expect(row.worstMm).toBeLessThanOrEqual(row.gapMm - 4 - 3 - 6 + 0.05);
  });
});

describe('near a port', () => {
  const hot = { a: { class: 'hot' } };
  it('hand: the own part is not kept off near its port, and is beyond', () => {
    const row = rowOf(bay(carOf([], hot), new Map()), 'a')!;
    expect(row.near).toBe(true);
    expect(row.keepOffMm).toBeCloseTo(0, 3);
    expect(row.gapMm).toBeCloseTo(0, 2);
    // 60 mm along, square off the face: 60 mm away, 100 wanted.
    expect(row.beyond!.gapMm).toBeCloseTo(60, 1);
    expect(row.beyond!.keepOffMm).toBe(100);
    expect(gapFaults([row]).map((f) => f.when)).toEqual(['nominal']);
  });
  it('hand: with 100 mm near it the same line fails nothing', () => {
    const row = rowOf(bay(carOf([], hot), new Map()), 'a', { nearMm: [100, 60] })!;
    expect(gapFaults([row])).toEqual([]);
  });
  it('hand: to another part the port face sets the limit, and only near', () => {
    // A hot bar 40 off the axis beside the face: 40 - 10 - 5 = 25 mm from the face's rim; its other
    // end is sqrt(100^2 + 30^2) - 5 = 99.4 from the far face's rim.
    const space = bay(
      carOf([
        {
          id: 'h',
          class: 'hot',
          shapes: [
            {
              tube: {
                pointsMm: [
                  [-40, 40, 450],
                  [300, 40, 450],
                ],
                radiusMm: 5,
              },
            },
          ],
        },
      ]),
      new Map(),
    );
    const row = rowOf(space, 'h')!;
    expect(row.gapMm).toBeCloseTo(25, 1);
    const near = row.regions.filter((r) => r.near);
    expect(near.map((r) => Math.round(r.keepOffMm)).sort((x, y) => x - y)).toEqual([25, 99]);
    expect(gapFaults([row]).map((f) => [f.region.near, f.when])).toContainEqual([false, 'nominal']);
    expect(gapFaults([row]).some((f) => f.region.near && f.region.keepOffMm < 30)).toBe(false);
  });
  it('a port may say otherwise', () => {
    const near = { near: { parts: ['h'], mm: 120, keepOffMm: 15 } };
    const space = bay(carOf([{ id: 'h', class: 'hot', shapes: [ball([100, 40, 450], 5)] }], { port: near }), new Map());
    const row = rowOf(space, 'h')!;
    expect(row).toMatchObject({ near: true, keepOffMm: 15, class: 'hot' });
    expect(row.gapMm).toBeCloseTo(25, 1);
    expect(row.beyond!.keepOffMm).toBe(100);
    expect(row.beyond!.gapMm).toBeCloseTo(Math.hypot(20, 30) - 5, 1);
  });
  it('hand: a port 4 mm deep in its own part lets the line be as deep there', () => {
    const space = bay(carOf([], { a: { shapes: [box([-50, -30, 420], [4, 30, 480])] } }), new Map());
    const row = rowOf(space, 'a')!;
    expect(row.gapMm).toBeCloseTo(-4, 1);
    expect(gapFaults([row])).toEqual([]);
    expect(space.warnings).toEqual([]);
  });
});

describe('ports out of place', () => {
  it('hand: 15 mm inside its own part, 20 mm off it, 5 mm inside another', () => {
    const inside = bay(carOf([], { a: { shapes: [box([-50, -30, 420], [15, 30, 480])] } }), new Map());
    expect(inside.warnings.map((w) => [w.code, w.level, w.value])).toEqual([['port-inside-own', 'stop', 15]]);
    const off = bay(carOf([], { a: { shapes: [box([-50, -30, 420], [-14, 30, 480])] } }), new Map());
    expect(off.warnings[0]!.text).toBe('a.out misses its part by 14 mm');
    const other = bay(carOf([{ id: 'p', shapes: [box([-5, -10, 400], [5, 10, 460])] }]), new Map());
    expect(other.warnings.map((w) => [w.code, w.value])).toEqual([['port-inside', 5]]);
  });
});

describe('keep-offs', () => {
  const space = bay(
    carOf([
      { id: 'h', class: 'hot' },
      { id: 's', class: 'hot', shielded: true },
      { id: 't', class: 'hot', turbine: true },
      { id: 'own', class: 'moving', keepOffMm: 50 },
    ]),
    new Map(),
  );
  const of = (part: string, duty: 'oil-pressure' | 'fuel', own?: number) =>
    keepOff(space, space.partById.get(part)!, own === undefined ? { duty } : { duty, keepOffMm: own });
  it('hand: by class, shielding and duty; the stricter of part and line', () => {
    expect([of('h', 'oil-pressure').mm, of('s', 'oil-pressure').mm, of('t', 'oil-pressure').mm]).toEqual([
      100, 50, 150,
    ]);
    expect([of('h', 'fuel').mm, of('s', 'fuel').mm]).toEqual([100, 76]);
    expect(of('own', 'oil-pressure')).toEqual({ mm: 50, source: 'set on the part (usual 25 mm)' });
    expect(of('h', 'oil-pressure', 120).mm).toBe(120);
    expect(of('h', 'oil-pressure', 20).mm).toBe(100);
  });
});

describe('planning items', () => {
  it('a part that moves against the line stands there at each extreme too', () => {
    const space = bay(
      carOf([
        { id: 'p', class: 'moving', movesWith: 'wheel', knownToMm: 30, shapes: [box([150, -20, 520], [250, 20, 560])] },
      ]),
      new Map(),
    );
    const items = planningItems(space, space.car.lines[0]!).filter((i) => i.part === 'p');
    expect(items.filter((i) => !i.moved).map((i) => i.keepOffMm)).toEqual([31]);
    const low = Math.min(...items.map((i) => i.solid.bounds.min[2]));
    expect([low, Math.max(...items.map((i) => i.solid.bounds.max[2]))]).toEqual([470, 620]);
    expect(
      planningItems(space, space.car.lines[0]!)
        .filter((i) => i.own)
        .map((i) => i.part),
    ).toEqual(['a', 'b']);
  });
});

describe('stretches of a line', () => {
  it('cut square, whole bodies kept as they are', () => {
    const bodies = [straight([0, 0, 0], [100, 0, 0], 12), straight([100, 0, 0], [300, 0, 0], 10)];
    expect(lengthAlong(bodies)).toBeCloseTo(300, 9);
    const cut = stretch(bodies, 40, 300);
    expect(cut[1]).toBe(bodies[1]);
    expect(cut[0]!.path[0]).toBeCloseTo(40, 9);
    expect(lengthAlong(cut)).toBeCloseTo(260, 9);
    expect(lengthAlong(stretch(bodies, 90, 110))).toBeCloseTo(20, 9);
  });
});

describe('through a panel', () => {
  const space = bay(
    carOf([{ id: 'w', crossable: ['grommet'], shapes: [box([200, -300, 200], [201.2, 300, 700])] }]),
    new Map(),
  );
  const crossing = { part: 'w', alongMm: [194, 207.2] as const };
  it('hand: the panel is passed over from 6 before to 6 after, and is that far off the rest of the line', () => {
    expect(rowOf(space, 'w')!.gapMm).toBeLessThan(0);
    const row = rowOf(space, 'w', { crossings: [crossing] })!;
    expect(row.gapMm).toBeGreaterThanOrEqual(6 - 0.05);
    expect(row.gapMm).toBeLessThanOrEqual(6 + 0.05);
    expect(gapFaults([row])).toEqual([]);
  });
  it('a line that turns back along the panel does not take its hole with it', () => {
    const back: Body = { part: 'hose', path: Float64Array.of(0, 0, 450, 215, 0, 450, 215, 200, 450), radiusMm: 10 };
    const rows = gapsToParts(lineIn(space.car, { bodies: [back], crossings: [crossing] }), space);
    expect(gapFaults(rows.filter((r) => r.part === 'w')).map((f) => f.when)).toContain('nominal');
  });
});
