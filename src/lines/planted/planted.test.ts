import { describe, expect, it } from 'vitest';
import { closedBay } from './closed-bay.ts';
import { type Level, plantedBay } from './planted-bay.ts';
import { faultsInBay, waysInBay, worldOfBay } from './solved-bay.ts';
import { isCutOff } from '../ways/cut-off.ts';
import { portEnd } from '../ways/joints.ts';

/** Bays a level, all solved: in fives, for time; the long checks try 300. */
const FIVES = [0, 5, 10, 15];

describe('bays with a planted line', () => {
  it.each(
    (['easy', 'medium', 'hard'] as const).flatMap((level) => FIVES.map((first): [Level, number] => [level, first])),
  )(
    'second: %s ones from seed %i on are solved, and every answer stands to checks that share nothing with the planner',
    (level, first) => {
      const unsolved: number[] = [];
      const faults: string[] = [];
      for (let seed = first; seed < first + 5; seed++) {
        const bay = plantedBay(level, seed);
        const way = waysInBay(bay)[0]!;
        if (way.feasible) faults.push(...faultsInBay(bay, way).map((fault) => `${level} ${seed}: ${fault}`));
        else unsolved.push(seed);
      }
      expect(faults).toEqual([]);
      expect(unsolved).toEqual([]);
    },
  );
});

describe('bays with no way', () => {
  it.each([
    ['boxed in', 0],
    ['boxed in', 8],
    ['panel between', 0],
    ['panel between', 6],
  ] as const)('hand: a port %s is told from one for which nothing was found, seed %i', (shut, seed) => {
    const way = waysInBay(closedBay(shut, seed))[0]!;
    expect(way.feasible).toBe(false);
    expect(way.fails.map((fail) => fail.limit)).toEqual(['reach']);
    expect(way.fails[0]!.text).toContain('proved');
  });
});

describe('a proof of no way', () => {
  it('second: is never given for a bay in which a line was planted', () => {
    const proved: number[] = [];
    for (let seed = 40; seed < 46; seed++) {
      const bay = plantedBay('hard', seed);
      const world = worldOfBay(bay);
      const line = world.car.lines[0]!;
      const { hose } = bay.planted[0]!;
      const [a, b] = [line.from, line.to].map((ref) => portEnd(world, line, ref, hose));
      if ('missing' in a! || 'missing' in b!) throw new Error('planted ports have fittings');
      if (isCutOff(world, line, a!.end, b!.end, hose.odMm)) proved.push(seed);
    }
    expect(proved).toEqual([]);
  });
});
