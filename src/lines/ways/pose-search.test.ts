import { describe, expect, it } from 'vitest';
import { type Solid, type Vec, box, planarWays } from '#geometry';
import { SlackBricks } from './bricks.ts';
import { clearance, corridorGrid } from './clearance.ts';
import { PoseSearch, type PoseWant } from './pose-search.ts';
import { NOTHING } from './run.ts';
import type { Span, SpanEnd } from './span.ts';
import { tails } from './tails.ts';

const RADIUS_MM = 60;
const OD_MM = 12;
const STRAIGHT_MM = 5;
const WANT: PoseWant = { seeds: 6, expansions: 20_000, promise: 0.95, leastRoomMm: -2, aPair: 6, aMiddle: 6 };

const end = (at: Vec, faces: Vec): SpanEnd => ({
  label: 'held',
  at,
  faces,
  partId: null,
  moverId: null,
  makeUps: [NOTHING],
  nearItems: [],
  nearMm: 0,
  straightMm: STRAIGHT_MM,
});

function searched(a: SpanEnd, b: SpanEnd, solids: readonly Solid[]) {
  const far = new SlackBricks(solids.map((solid) => ({ solid, keepOffMm: 3 })));
  const span: Span = { a, b, odMm: OD_MM, minBendRadiusMm: RADIUS_MM, far };
  const clear = clearance(span);
  const grid = corridorGrid(span, clear, 250);
  const search = new PoseSearch(span, clear, grid, tails(a, OD_MM, {}), tails(b, OD_MM, {}));
  return search.seeds(WANT);
}

describe('seeds from a search over poses', () => {
  it.each<[string, Vec, Vec]>([
    ['ahead and aside', [400, 150, 0], [-1, 0, 0]],
    ['turned back', [150, 260, 0], [1, 0, 0]],
    ['beside, the same way', [0, 220, 0], [-1, 0, 0]],
    ['across', [300, 300, 0], [0, -1, 0]],
  ])('paper: %s, the cheapest is about as long as the shortest path (Dubins 1957)', (_, at, faces) => {
    const [seed] = searched(end([0, 0, 0], [1, 0, 0]), end(at, faces), []);
    const start = { x: STRAIGHT_MM, y: 0, headingRad: 0 };
    const stop = {
      x: at[0] + STRAIGHT_MM * faces[0],
      y: at[1] + STRAIGHT_MM * faces[1],
      headingRad: Math.atan2(-faces[1], -faces[0]),
    };
    const shortest = Math.min(...planarWays(start, stop, RADIUS_MM).map((way) => way.lengthMm));
    // Both straights count too. It ends near B's pose, not in it: that may save a bend radius.
    const length = seed!.hope - 2 * STRAIGHT_MM;
    expect(length).toBeGreaterThan(shortest - RADIUS_MM);
    expect(length).toBeLessThan(1.12 * shortest);
  });

  it('second: through the window of a wall, each knot off it by the hose and its keep-off but for what poses may lack', () => {
    const wall = [
      box([200, -400, -400], [206, 400, 40]),
      box([200, -400, 110], [206, 400, 400]),
      box([200, -400, 40], [206, 100, 110]),
      box([200, 170, 40], [206, 400, 110]),
    ];
    const seeds = searched(end([0, 0, 0], [1, 0, 0]), end([420, 60, 0], [-1, 0, 0]), wall);
    expect(seeds.length).toBeGreaterThan(0);
    for (const { line } of seeds) {
      const through = line.findIndex(([x]) => x > 203);
      const [before, after] = [line[through - 1]!, line[through]!];
      const share = (203 - before[0]) / (after[0] - before[0]);
      const [y, z] = [1, 2].map((k) => before[k]! + share * (after[k]! - before[k]!)) as [number, number];
      expect(y).toBeGreaterThan(100);
      expect(y).toBeLessThan(170);
      expect(z).toBeGreaterThan(40);
      expect(z).toBeLessThan(110);
      for (const at of line.slice(1, -1))
        for (const solid of wall) expect(solid.distance(...at)).toBeGreaterThan(OD_MM / 2 + 3 - 2 - 1);
    }
  });

  it('hand: nothing where a wall has no window', () => {
    const wall = [box([200, -700, -700], [206, 700, 700])];
    expect(searched(end([0, 0, 0], [1, 0, 0]), end([420, 60, 0], [-1, 0, 0]), wall)).toEqual([]);
  });
});

describe('slack read closely', () => {
  it('second: at random places it is the least of exact distances, with the slope of that solid', () => {
    const items = [
      { solid: box([0, 0, 0], [50, 60, 70]), keepOffMm: 5 },
      { solid: box([70, -20, 10], [90, 80, 30]), keepOffMm: 12 },
    ];
    const bricks = new SlackBricks(items);
    const out = new Float64Array(4);
    for (let n = 0; n < 500; n++) {
      const at: Vec = [((n * 37) % 140) - 20, ((n * 53) % 130) - 30, ((n * 71) % 110) - 20];
      const slacks = items.map(({ solid, keepOffMm }) => solid.distance(...at) - keepOffMm);
      const least = Math.min(...slacks);
      bricks.closely(...at, out);
      expect(out[0]).toBeCloseTo(least, 6);
      if (Math.abs(slacks[0]! - slacks[1]!) < 1 || Math.abs(least) > 30) continue;
      const step = 1e-4;
      const { solid } = items[slacks.indexOf(least)]!;
      const slope = solid.distance(at[0] + step, at[1], at[2]) - solid.distance(at[0] - step, at[1], at[2]);
      if (least < 0) continue;
      expect(out[1]).toBeCloseTo(slope / (2 * step), 3);
    }
  });
});
