import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { readCar } from '#car';
import { linesWorld } from '#lines';
import { stripOf } from './strip-of.ts';

type V = readonly [number, number, number];
interface Box {
  readonly id: string;
  readonly min: V;
  readonly max: V;
}

/** A part among others thrown about it, none in another; seeded. */
function thrown(seed: number): readonly Box[] {
  const random = xoroshiro128plus(seed);
  const uniform = (low: number, high: number): number => low + ((random.next() >>> 0) / 4294967296) * (high - low);
  const boxes: Box[] = [{ id: 'part', min: [-60, -60, -60], max: [60, 60, 60] }];
  for (let tries = 0; tries < 3000 && boxes.length < 26; tries++) {
    const at = [0, 1, 2].map(() => uniform(-200, 200));
    const half = [0, 1, 2].map(() => uniform(15, 90));
    const min = at.map((c, k) => c - half[k]!) as unknown as V;
    const max = at.map((c, k) => c + half[k]!) as unknown as V;
    const isApart = (other: Box) => [0, 1, 2].some((k) => min[k]! > other.max[k]! + 1 || max[k]! < other.min[k]! - 1);
    if (boxes.every(isApart)) boxes.push({ id: `other-${boxes.length}`, min, max });
  }
  return boxes;
}

const STEP_MM = 3;

/** Whether the one box, carried along, runs into the other: looked at every 3 mm, faces against faces (boxes along the axes). */
function runsInto(mover: Box, by: V, lengthMm: number, other: Box): boolean {
  for (let s = 0; s <= lengthMm; s += STEP_MM)
    if (
      [0, 1, 2].every((k) => mover.min[k]! + by[k]! * s < other.max[k]! && mover.max[k]! + by[k]! * s > other.min[k]!)
    )
      return true;
  return false;
}

describe('the ways out of a strip-down, against dense sampling by code that shares nothing with it', () => {
  it('hold on 5 heaps of 26 boxes (seeds 1 to 5): nothing carried out runs into what is still on', () => {
    let found = 0;
    let straight = 0;
    for (let seed = 1; seed <= 5; seed++) {
      const boxes = thrown(seed);
      const read = readCar(
        JSON.stringify({
          fairlead: 1,
          parts: boxes.map(({ id, min, max }) => ({
            id,
            class: 'fixed',
            ports: [],
            shapes: [{ box: { minMm: min, maxMm: max } }],
          })),
          movers: [],
          lines: [],
        }),
      );
      if (!read.ok) throw new RangeError(JSON.stringify(read.faults));
      const answer = stripOf(linesWorld(read.car, new Map()), [], 'part', { aim: 'remove' });
      if (answer.found !== 'found') continue;
      found++;
      const on = new Map(boxes.map((box) => [box.id, box]));
      for (const { what, along, coming } of answer.steps) {
        const carried = [what, ...along].map((id) => on.get(id)!);
        for (const box of carried) on.delete(box.id);
        if (coming.how !== 'straight') continue;
        straight++;
        for (const box of carried)
          for (const other of on.values())
            expect([seed, box.id, other.id, runsInto(box, coming.direction, coming.lengthMm, other)]).toEqual([
              seed,
              box.id,
              other.id,
              false,
            ]);
      }
      expect(on.has('part')).toBe(false);
    }
    expect(found).toBe(5);
    expect(straight).toBeGreaterThan(7);
  });
});
