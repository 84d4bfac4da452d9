import { describe, expect, it } from 'vitest';
import { bayParts, chance, joinedMeshes, type SoupMesh } from '../../test/geometry/seeded-meshes.ts';
import { box } from './box.ts';
import { capsule } from './capsule.ts';
import { cylinder } from './cylinder.ts';
import { freeCells } from './free-cells.ts';
import { meshSolid } from './mesh-solid.ts';
import type { SlackItem } from './slack-brick.kernel.ts';
import { type GridSlackField, type SlackFieldOptions, slackField } from './slack-field.ts';
import type { Vec } from './vec.ts';

const keepOff = { hot: 100, moving: 25, fixed: 6, line: 3 };
const solidOf = (m: SoupMesh) => meshSolid({ positions: new Float32Array(m.positions), indices: m.indices });

/** A made-up bay: scanned parts (closed and open), a pipe of capsules, a tank, a box; 20 k triangles. */
const bay: SlackItem[] = [
  ...bayParts(20_000, 3).map(({ mesh, group }) => ({ solid: solidOf(mesh), keepOffMm: keepOff[group] })),
  { solid: capsule([-400, -300, 0], [200, -350, 250], 3), keepOffMm: 3 },
  { solid: capsule([200, -350, 250], [380, 500, 120], 3), keepOffMm: 3 },
  { solid: cylinder([300, 300, -300], [300, 300, 100], 90), keepOffMm: 6 },
  { solid: box([-500, 400, -100], [-498.5, 600, 200]), keepOffMm: 6 },
];
const options: SlackFieldOptions = {
  bounds: { min: [-600, -750, -400], max: [600, 750, 400] },
  cellMm: 5,
  reachMm: 60,
  items: bay,
};

/** The definition itself: every item, no short cut. */
function trueSlack(p: Vec): number {
  return Math.min(options.reachMm, ...bay.map(({ solid, keepOffMm }) => solid.distance(...p) - keepOffMm));
}
const outside = (p: Vec): boolean => bay.every(({ solid }) => solid.distanceWithin(...p, 0) >= 0);

function pointsNear(n: number, seed: number): Vec[] {
  const draw = chance(seed);
  const points: Vec[] = [];
  while (points.length < n) {
    const p: Vec = [draw(-599, 599), draw(-749, 749), draw(-399, 399)];
    if (trueSlack(p) < options.reachMm && outside(p)) points.push(p);
  }
  return points;
}

describe('readings against the solids themselves, seed 5', () => {
  const field = slackField(options);
  const points = pointsNear(6000, 5);
  const errors = points.map((p) => field.slack(...p) - trueSlack(p));
  const lacks = points.map((p) => Math.max(0, -trueSlack(p)));

  it('never reads more than 0.9 mm too much, and a tenth of what is lacking', () => {
    expect(field.mostTooMuchMm).toBe(0.9);
    // 1e-5: float32 of values below 100 mm.
    expect(Math.max(...errors.map((e, i) => e - 0.1 * lacks[i]!))).toBeLessThanOrEqual(field.mostTooMuchMm + 1e-5);
    // The bound is met, not met by miles: the grid is really read.
    expect(Math.max(...errors)).toBeGreaterThan(0.2);
  });

  it('reads too little only by what a ridge between two things takes away', () => {
    expect(Math.min(...errors)).toBeGreaterThanOrEqual(-0.87 * 5 * 2);
    expect(errors.filter((e) => e < -1).length / errors.length).toBeLessThan(0.05);
    expect(errors.reduce((sum, e) => sum + Math.abs(e), 0) / errors.length).toBeLessThan(0.15);
  });

  it('gives the gradient of what it reads', () => {
    const out = new Float64Array(4);
    const other = new Float64Array(4);
    const h = 1e-3;
    let smooth = 0;
    for (const p of points.slice(0, 1500)) {
      field.slackAndGradient(...p, out);
      expect(out[0]).toBe(field.slack(...p));
      for (const axis of [0, 1, 2] as const) {
        const q: [number, number, number] = [...p];
        q[axis] += h;
        field.slackAndGradient(...q, other);
        const rise = (other[0]! - out[0]!) / h;
        // hand: a difference over 1 um inside one cell; where the step leaves the cell or crosses an edge the two may differ.
        if (Math.abs(rise - out[1 + axis]!) < 0.02) smooth++;
      }
    }
    expect(smooth / 4500).toBeGreaterThan(0.98);
  });

  it('reads exactly outside its bounds', () => {
    for (const p of [
      [-700, 0, 0],
      [0, 900, 100],
      [5000, 0, 0],
    ] as Vec[]) {
      expect(field.slack(...p)).toBe(trueSlack(p));
    }
  });
});

it('holds the same values in whatever order its bricks are worked out, on one memory or two', () => {
  const near = { min: [-100, -100, -100], max: [220, 140, 60] } as const;
  const forward = slackField({ ...options, bounds: near });
  const mixed = slackField({ ...options, bounds: near });
  const helper = slackField({ ...options, bounds: near, memory: mixed.memory });
  expect(forward.fill(0, forward.bricks)).toBe(true);
  for (let i = 0; i < mixed.bricks; i++) {
    const brick = (i * 37 + 11) % mixed.bricks;
    (i % 2 === 0 ? mixed : helper).fill(brick, brick + 1);
  }
  mixed.fill(0, mixed.bricks);
  expect(mixed.memory.state).toEqual(forward.memory.state);
  expect(mixed.memory.values).toEqual(forward.memory.values);
  expect(mixed.memory.flags).toEqual(forward.memory.flags);
});

it('stops filling when it is called off', () => {
  const field = slackField(options);
  let asked = 0;
  expect(field.fill(0, field.bricks, () => ++asked < 2)).toBe(false);
  expect(field.memory.state.filter((s) => s !== 0).length).toBe(512);
});

describe('single shapes at the corners of the grid', () => {
  it.each([1, 2, 5, 10])('a wire of 0.1 mm is not read over at %d mm cells, seed 8', (cellMm) => {
    const wire = { solid: capsule([-30.3, 1.7, 2.9], [41.3, 13.1, 7.7], 0.05), keepOffMm: 3 };
    const field = slackField({
      bounds: { min: [-50, -50, -50], max: [50, 50, 50] },
      cellMm,
      reachMm: 30,
      items: [wire],
    });
    const draw = chance(8);
    for (let i = 0; i < 3000; i++) {
      const p: Vec = [draw(-50, 50), draw(-50, 50), draw(-50, 50)];
      const slack = Math.min(30, wire.solid.distance(...p) - 3);
      expect(field.slack(...p) - slack).toBeLessThanOrEqual(0.9 + 0.1 * Math.max(0, -slack) + 1e-5);
    }
  });

  it('a sheet thinner than a cell is solid, and what lies inside a closed mesh is below 0', () => {
    const sheet = { solid: box([-40, -40, 2.2], [40, 40, 2.7]), keepOffMm: 0 };
    const field = slackField({
      bounds: { min: [-50, -50, -50], max: [50, 50, 50] },
      cellMm: 5,
      reachMm: 30,
      items: [sheet],
    });
    expect(field.slack(1, 2, 2.4)).toBeLessThan(0);
    expect(field.slack(1, 2, 12.7)).toBeCloseTo(10, 5);
  });
});

describe('cells with room', () => {
  it('mark as hopeless only cells without any room, and as free only those with room in the middle, seed 9', () => {
    const field = slackField(options);
    const { room, counts, cellMm, min } = freeCells(field, 18, 25);
    const draw = chance(9);
    const seen = [0, 0, 0];
    for (let t = 0; t < 4000; t++) {
      const [i, j, k] = counts.map((n) => Math.floor(draw(0, n))) as [number, number, number];
      const is = room[(k * counts[1] + j) * counts[0] + i]!;
      seen[is]!++;
      const at = (u: number, v: number, w: number): Vec => [
        min[0] + (i + u) * cellMm,
        min[1] + (j + v) * cellMm,
        min[2] + (k + w) * cellMm,
      ];
      expect(is === 2).toBe(trueSlack(at(0.5, 0.5, 0.5)) >= 18);
      if (is === 0) expect(trueSlack(at(draw(), draw(), draw()))).toBeLessThan(18);
    }
    expect(Math.min(...seen)).toBeGreaterThan(200);
  });
});

describe('refusals', () => {
  const bad = (change: Partial<SlackFieldOptions>) => (): GridSlackField => slackField({ ...options, ...change });
  it.each([
    ['cellMm', bad({ cellMm: 0 })],
    ['reachMm', bad({ reachMm: Number.NaN })],
    ['bounds side 0', bad({ bounds: { min: [0, 0, 0], max: [-1, 1, 1] } })],
    ['bricks', bad({ cellMm: 0.1 })],
  ])('%s', (words, make) => {
    expect(make).toThrow(words);
  });
});

it('joins meshes of one class into one item with the same slack', () => {
  const hot = bayParts(20_000, 3).filter((p) => p.group === 'hot');
  const apart = hot.map((p) => ({ solid: solidOf(p.mesh), keepOffMm: 100 }));
  const joined = [{ solid: solidOf(joinedMeshes(...hot.map((p) => p.mesh))), keepOffMm: 100 }];
  const [a, b] = [apart, joined].map((items) => slackField({ ...options, items }));
  const draw = chance(13);
  for (let i = 0; i < 400; i++) {
    const p: Vec = [draw(-599, 599), draw(-749, 749), draw(-399, 399)];
    if (apart.every(({ solid }) => solid.distance(...p) > 0))
      expect(a!.exactSlack(...p)).toBeCloseTo(b!.exactSlack(...p), 9);
  }
});
