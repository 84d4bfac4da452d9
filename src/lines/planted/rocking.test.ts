import { describe, expect, it } from 'vitest';
import { lineWays } from '../line-ways.ts';
import { type ClampedWay, type MovedCar, extremeFaults } from './extreme-faults.ts';
import { rockingBay } from './rocking-bay.ts';
import { worldOfBay } from './solved-bay.ts';

const none = new Map<string, { positions: Float64Array; indices: Uint32Array }>();

function wayOf(seed: number, rockDeg: number): { car: MovedCar; way: ClampedWay } {
  const car = rockingBay(seed, rockDeg);
  const world = worldOfBay({ car: car as never, meshes: none });
  const way = lineWays(world, world.car.lines[0]!, null, 1)[0]!;
  return { car, way: JSON.parse(JSON.stringify(way)) as ClampedWay };
}

describe('a hose from the chassis to a rocking engine', () => {
  it.each([
    [2, 3],
    [4, 2],
    [7, 3],
  ])(
    'second: keeps slack, radius and gaps at both extremes, by a rod and a geometry that share nothing with the planner (seed %i, %i deg)',
    (seed, rockDeg) => {
      const { car, way } = wayOf(seed, rockDeg);
      expect(extremeFaults(car, none, way)).toEqual([]);
      expect(way.feasible).toBe(true);
      expect(way.clamps.length).toBeGreaterThan(0);
      expect(way.notes.map(({ code }) => code)).not.toContain('engine-slack');
      // The same way is found out where the engine rocks as far again and again, and where a clamp is said to be on the other side.
      const [mover] = car.movers;
      const wild = { ...car, movers: [{ ...mover!, turnDeg: [-12 * rockDeg, 12 * rockDeg] as const }] };
      expect(extremeFaults(wild, none, way).length).toBeGreaterThan(0);
    },
  );
});
