import { describe, expect, it } from 'vitest';
import { applyEdit, splitPortRef } from '#car';
import { followingWay, lineWays } from './line-ways.ts';
import { type PlantedBay, plantedBay } from './planted/planted-bay.ts';
import { faultsInBay, worldOfBay } from './planted/solved-bay.ts';
import type { Way } from './way.ts';

/** The bay with the part moved that the line's other end sits on, and the way that the line had before: not its cheapest. */
function moved(seed: number): { bay: PlantedBay; before: Way } {
  const bay = plantedBay('easy', seed);
  const { car, ...world } = worldOfBay(bay);
  const line = car.lines[0]!;
  const before = lineWays({ car, ...world }, line, null, 3).findLast((way) => way.feasible);
  const part = splitPortRef(line.to).part!;
  const { car: edited } = applyEdit(car, { do: 'move-part', part, byMm: [12, -8, 6] });
  return { bay: { ...bay, car: edited as unknown as PlantedBay['car'] }, before: before! };
}

describe('a way after a move, found fast near the one before, verified by code that shares nothing with the planner', () => {
  it('keeps every limit, made up as it was, in easy bays (seeds 0 to 5)', () => {
    let found = 0;
    let alike = 0;
    for (let seed = 0; seed < 6; seed++) {
      const { bay, before } = moved(seed);
      const world = worldOfBay(bay);
      const way = followingWay(world, world.car.lines[0]!, null, before);
      if (way === null) continue;
      found++;
      expect(way.feasible).toBe(true);
      expect(faultsInBay(bay, way)).toEqual([]);
      if (way.ends.every((end, n) => end.makeUp.join(' ') === before.ends[n]!.makeUp.join(' '))) alike++;
    }
    expect(found).toBeGreaterThanOrEqual(5);
    expect(alike).toBeGreaterThanOrEqual(4);
  });

  it('is not made of a way that does not say what it is made of: then it is a first way, or none', () => {
    const { bay, before } = moved(0);
    const world = worldOfBay(bay);
    const bare = { ...before, ends: before.ends.map((end) => ({ ...end, makeUp: null })) } as unknown as Way;
    const way = followingWay(world, world.car.lines[0]!, null, bare);
    if (way !== null) expect(faultsInBay(bay, way)).toEqual([]);
    expect(followingWay(world, world.car.lines[0]!, null, before)).not.toBeNull();
  });
});
