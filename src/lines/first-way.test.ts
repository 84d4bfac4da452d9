import { describe, expect, it } from 'vitest';
import { firstWay } from './line-ways.ts';
import { plantedBay } from './planted/planted-bay.ts';
import { faultsInBay, worldOfBay } from './planted/solved-bay.ts';

describe('a first way, found fast, verified by code that shares nothing with the planner', () => {
  it('keeps every limit wherever there is one, and there is one in most easy bays (seeds 0 to 5)', () => {
    const found = Array.from({ length: 6 }, (_, seed) => {
      const bay = plantedBay('easy', seed);
      const world = worldOfBay(bay);
      const way = firstWay(world, world.car.lines[0]!, null);
      if (way === null) return 0;
      expect(way.feasible).toBe(true);
      expect(faultsInBay(bay, way)).toEqual([]);
      return 1;
    });
    expect(found.reduce<number>((sum, n) => sum + n, 0)).toBeGreaterThanOrEqual(5);
  });
});
