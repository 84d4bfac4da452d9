import { carFrom } from '#car';
import type { Vec } from '#geometry';
import { describe, expect, it } from 'vitest';
import { lineWays } from './line-ways.ts';
import { linesWorld } from './world.ts';

/** Two blocks 800 mm apart, their ports facing each other, and a sheet 400 by 400 square between them. */
const carWith = (panel: object, through: readonly object[] = []) => {
  const block = (id: string, x: number, faces: number) => ({
    id,
    class: 'fixed',
    knownToMm: 2,
    shapes: [{ box: { minMm: [x - 40, -40, 160], maxMm: [x + 40, 40, 240] } }],
    ports: [{ id: 'p', atMm: [x + 40 * faces, 0, 200], faces: [faces, 0, 0], end: { type: 'orb', dash: 8 } }],
  });
  const corner = (id: string, y: number, z: number) => ({ id, atMm: [500, y, z] });
  const reading = carFrom({
    fairlead: 1,
    parts: [block('a', 100, 1), block('b', 900, -1)],
    movers: [],
    lines: [
      {
        id: 'L',
        from: 'a.p',
        to: 'b.p',
        duty: 'oil-pressure',
        dash: 8,
        state: 'planned',
        pieces: [{ hose: 'h8' }],
        through,
      },
    ],
    catalogue: { hoses: [{ id: 'h8', dash: 8, boreMm: 11, odMm: 17, minBendRadiusMm: 80 }] },
    panels: [
      {
        id: 'wall',
        thicknessMm: 1.2,
        knownToMm: 1,
        outside: [1, 0, 0],
        corners: [corner('A', -200, 0), corner('B', 200, 0), corner('C', 200, 400), corner('D', -200, 400)],
        ...panel,
      },
    ],
  } as never);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.car;
};

/** Where the bodies of the best way meet the plane X 500, by their own coordinates. */
function meets(car: ReturnType<typeof carWith>): { readonly feasible: boolean; readonly at: readonly Vec[] } {
  const world = linesWorld(car, new Map());
  const way = lineWays(world, car.lines[0]!, null, 1)[0]!;
  const path = way.bodies.flatMap(({ pathMm }) => pathMm);
  const at = path.slice(1).flatMap((to, i): Vec[] => {
    const from = path[i]!;
    if (from[0] < 500 === to[0] < 500) return [];
    const s = (500 - from[0]) / (to[0] - from[0]);
    return [[500, from[1] + s * (to[1] - from[1]), from[2] + s * (to[2] - from[2])]];
  });
  return { feasible: way.feasible, at };
}

const isOverSheet = ([, y, z]: Vec, byMm: number): boolean =>
  Math.abs(y) < 200 + byMm && Math.abs(z - 200) < 200 + byMm;

describe('a line and a sheet in its way (hand: a square of 400 between two ports)', () => {
  it('goes round it, half its hose and 6 mm clear of the edge', () => {
    const { feasible, at } = meets(carWith({}));
    expect(feasible).toBe(true);
    expect(at.length).toBeGreaterThan(0);
    for (const place of at) expect(isOverSheet(place, 17 / 2 + 6 - 0.1)).toBe(false);
  });

  it('goes through where it says so, with metal left round the hole', () => {
    const { feasible, at } = meets(carWith({}, [{ part: 'wall', kind: 'grommet' }]));
    expect(feasible).toBe(true);
    expect(at).toHaveLength(1);
    expect(isOverSheet(at[0]!, -20)).toBe(true);
  });

  it('runs straight on through one that gives way', () => {
    const { feasible, at } = meets(carWith({ givesWay: true }));
    expect(feasible).toBe(true);
    expect(at.every((place) => isOverSheet(place, -100))).toBe(true);
  });
});
