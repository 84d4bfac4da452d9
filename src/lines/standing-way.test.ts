import { describe, expect, it } from 'vitest';
import { bay } from '#bay';
import { applyEdit, carFrom } from '#car';
import { lineWays, linesWorld, standingWay } from './index.ts';

function twoTanks() {
  const tank = (id: string, minX: number, portX: number, faces: number) => ({
    id,
    class: 'fixed',
    shapes: [{ box: { minMm: [minX, 0, 0], maxMm: [minX + 100, 100, 100] } }],
    ports: [{ id: 'p', atMm: [portX, 50, 50], faces: [faces, 0, 0], end: { type: 'flare37-male', dash: 8 } }],
  });
  const read = carFrom({
    fairlead: 1,
    parts: [
      tank('a', 0, 100, 1),
      tank('b', 800, 800, -1),
      { id: 'wall', class: 'fixed', shapes: [{ box: { minMm: [400, 130, 0], maxMm: [410, 200, 100] } }] },
    ],
    lines: [{ id: 'W1', from: 'a.p', to: 'b.p', duty: 'water', dash: 8, hose: 'rubber-braid-8', state: 'planned' }],
  } as never);
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.car;
}

describe('a way taken, on the car as it stands', () => {
  const car = twoTanks();
  const world = linesWorld(car, new Map());
  const line = car.lines[0]!;
  const way = lineWays(world, line, null, 1)[0]!;

  it('hand: is the way it was where nothing moved', () => {
    const now = standingWay(world, line, way);
    expect(now.feasible).toBe(true);
    expect(now.gaps.map(({ part }) => part)).toContain('a');
  });

  it('hand: says of a part that left it that its port lies elsewhere, by how much, and nothing of gaps to that part', () => {
    const edited = applyEdit(car, { do: 'move-part', part: 'a', byMm: [0, 0, 30] }).car;
    const now = standingWay({ ...world, car: edited, bay: bay(edited, new Map()) }, line, way);
    expect(now.fails.map(({ limit, valueMm }) => [limit, valueMm])).toEqual([['reach', 30]]);
    expect(now.gaps.some(({ part }) => part === 'a')).toBe(false);
    // What has not moved is measured as before.
    const others = (gaps: typeof now.gaps) => gaps.filter(({ part }) => part !== 'a');
    expect(others(now.gaps)).toEqual(others(standingWay(world, line, way).gaps));
  });
});
