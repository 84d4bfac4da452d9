import { describe, expect, it } from 'vitest';
import { closedBay } from './closed-bay.ts';
import { type Level, plantedBay } from './planted-bay.ts';
import { faultsInBay, waysInBay } from './solved-bay.ts';

/** Bays a level, and how many of them must be solved; few, for time: the long checks try many and hold the aim, 95 %. */
const BAYS = 5;
const LEAST_SOLVED: Readonly<Record<Level, number>> = { easy: 5, medium: 5, hard: 4 };

describe('bays with a planted line', () => {
  it.each<Level>(['easy', 'medium', 'hard'])(
    'second: %s ones are solved, and every answer stands to checks that share nothing with the planner',
    (level) => {
      const unsolved: number[] = [];
      const faults: string[] = [];
      for (let seed = 0; seed < BAYS; seed++) {
        const bay = plantedBay(level, seed);
        const way = waysInBay(bay)[0]!;
        if (way.feasible) faults.push(...faultsInBay(bay, way).map((fault) => `${level} ${seed}: ${fault}`));
        else unsolved.push(seed);
      }
      expect(faults).toEqual([]);
      expect(unsolved.length, `unsolved seeds: ${unsolved.join(' ')}`).toBeLessThanOrEqual(BAYS - LEAST_SOLVED[level]);
    },
  );
});

describe('bays with no way', () => {
  it.each([
    ['boxed in', 0],
    ['boxed in', 1],
    ['panel between', 0],
    ['panel between', 1],
  ] as const)('hand: a port %s is told from one for which nothing was found, seed %i', (shut, seed) => {
    const way = waysInBay(closedBay(shut, seed))[0]!;
    expect(way.feasible).toBe(false);
    expect(way.fails.map((fail) => fail.limit)).toEqual(['reach']);
    expect(way.fails[0]!.text).toContain('proved');
  });
});
