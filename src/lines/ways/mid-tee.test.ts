import { describe, expect, it } from 'vitest';
import { readCar } from '#car';
import { type Vec, distance } from '#geometry';
import { lineWays } from '../line-ways.ts';
import { plan } from '../plan.ts';
import type { Way } from '../way.ts';
import { type LinesWorld, linesWorld } from '../world.ts';

const flare = { type: 'flare37-male', dash: 8 };
const block = (id: string, at: number[], faces: number[]) => ({
  id,
  class: 'fixed',
  shapes: [
    {
      box: {
        minMm: at.map((c, k) => c - 40 - 40 * faces[k]!),
        maxMm: at.map((c, k) => c + 40 - 40 * faces[k]!),
      },
    },
  ],
  ports: [{ id: 'p', atMm: at, faces, end: flare }],
});

/** A tee at 600, its run along X, its branch up; ports 30 mm from its middle. Left, right and upper ports; all invented. */
const tee = {
  id: 'tee',
  name: 'Oil tee',
  class: 'fixed',
  crossable: ['tee'],
  shapes: [
    { cylinder: { fromMm: [570, 0, 0], toMm: [630, 0, 0], radiusMm: 9 } },
    { cylinder: { fromMm: [600, 0, 0], toMm: [600, 0, 30], radiusMm: 9 } },
  ],
  ports: [
    { id: 'right', atMm: [630, 0, 0], faces: [1, 0, 0], end: flare },
    { id: 'left', atMm: [570, 0, 0], faces: [-1, 0, 0], end: flare },
    { id: 'branch', atMm: [600, 0, 30], faces: [0, 0, 1], end: flare },
  ],
};

const run = {
  id: 'R',
  from: 'a.p',
  to: 'b.p',
  duty: 'oil-pressure',
  dash: 8,
  hose: 'rubber-braid-8',
  state: 'planned',
};
const branch = { ...run, id: 'T', from: 'c.p', to: 'tee.branch' };

function worldWith(through: object, ports: readonly object[] = tee.ports, lines?: object[]): LinesWorld {
  const car = {
    fairlead: 1,
    name: 'Tee rig',
    parts: [
      block('a', [0, 60, 0], [1, 0, 0]),
      block('b', [1200, -60, 40], [-1, 0, 0]),
      block('c', [640, 0, 600], [0, 0, -1]),
      { ...tee, ports },
    ],
    lines: lines ?? [{ ...run, through: [{ part: 'tee', kind: 'tee', ...through }] }, branch],
  };
  const read = readCar(JSON.stringify(car));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return linesWorld(read.car, new Map());
}

const bestWay = (world: LinesWorld, line = 0): Way => lineWays(world, world.car.lines[line]!, null, 1)[0]!;
const widestBreakMm = (way: Way): number =>
  Math.max(...way.bodies.slice(1).map((body, i) => distance(body.pathMm[0]!, way.bodies[i]!.pathMm.at(-1)!)));

describe('a line that runs through a tee', () => {
  it('hand: two hoses with the tee between, in by its near port and out by the other, each end with its parts', () => {
    const way = bestWay(worldWith({}));
    expect(way.fails).toEqual([]);
    expect(way.pieces.map((p) => p.hose)).toEqual(['rubber-braid-8', 'rubber-braid-8']);
    // hand: the near port of the tee faces the line's start.
    expect(way.joints.map((j) => j.port)).toEqual(['tee.left', 'tee.right']);
    for (const joint of way.joints) expect(joint.parts.some((p) => p.kind === 'hose-end')).toBe(true);
    const body = way.bodies.find((b) => b.part === 'tee')!;
    expect([body.row, body.pathMm[0], body.pathMm.at(-1)]).toEqual(['tee', [570, 0, 0], [630, 0, 0] as Vec]);
    expect(widestBreakMm(way)).toBeLessThan(0.01);
    expect([way.bodies[0]!.pathMm[0], way.bodies.at(-1)!.pathMm.at(-1)]).toEqual([
      [0, 60, 0],
      [1200, -60, 40],
    ]);
  });

  it('hand: led through the other way where the car file says so', () => {
    const way = bestWay(worldWith({ faces: [-1, 0, 0] }));
    expect(way.joints.map((j) => j.port)).toEqual(['tee.right', 'tee.left']);
  });

  it('second: another line ends at its branch, and the two are clear of each other but for the tee', () => {
    const world = worldWith({});
    const { lines } = plan(world.car, {
      solve: (line, placed, count) => lineWays(world, line, placed, count),
      bodies: (way) =>
        way.bodies.map((b) => ({ part: b.part, path: Float64Array.from(b.pathMm.flat()), radiusMm: b.odMm / 2 })),
      made: new Map(),
      lineKeepOffMm: world.lineKeepOffMm,
    });
    expect(lines.map(({ line, taken }) => [line, taken?.fails])).toEqual([
      ['R', []],
      ['T', []],
    ]);
    expect(lines[1]!.taken!.ends[1].port).toBe('tee.branch');
    const [r, t] = lines.map(({ taken }) => JSON.parse(JSON.stringify(taken)));
    const least = Math.min(
      ...r.bodies.flatMap((p: Way['bodies'][number]) =>
        t.bodies.flatMap((q: Way['bodies'][number]) =>
          p.pathMm.flatMap((u) => q.pathMm.map((v) => distance(u, v) - (p.odMm + q.odMm) / 2)),
        ),
      ),
    );
    expect(least).toBeGreaterThan(3 - 0.5);
  });

  it('hand: a tube runs to the one port of the tee, a hose goes on from the other', () => {
    const tube = { odMm: 12.7, wallMm: 0.9, bendRadiusMm: 38, material: 'stainless' };
    const pieces = [{ tube }, { hose: 'rubber-braid-8' }];
    const { hose: _, ...bare } = run;
    const way = bestWay(worldWith({}, tee.ports, [{ ...bare, pieces, through: [{ part: 'tee', kind: 'tee' }] }]));
    expect(way.fails).toEqual([]);
    expect(way.pieces.map((p) => p.tube !== undefined)).toEqual([true, false]);
    expect(way.joints.map((j) => j.port)).toEqual(['tee.left', 'tee.right']);
    expect(way.joints[0]!.makeUp).toEqual(['tube-nut-8']);
    expect(widestBreakMm(way)).toBeLessThan(0.01);
  });

  it('refuses a tee without two free ports in line, and says what it wants', () => {
    const way = bestWay(worldWith({}, tee.ports.slice(1)));
    expect(way.fails.map((f) => [f.limit, f.text.includes('tee has no two free ports')])).toEqual([['mating', true]]);
  });
});
