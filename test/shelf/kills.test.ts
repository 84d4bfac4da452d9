import { describe, expect, it } from 'vitest';
import { killRounds } from './kill-rounds.ts';

describe('a shelf whose server is killed', () => {
  // The time allowed is for a machine on which much else runs; alone it takes some seconds.
  it('holds everything that was told as kept, six kills at seeded moments', { timeout: 180_000 }, async () => {
    // Two shelves side by side: starting the program takes longer than anything it does here.
    const tallies = await Promise.all([killRounds(8101, 3), killRounds(8102, 3)]);
    expect(tallies.flatMap((tally) => tally.faults)).toEqual([]);
    expect(tallies.map((tally) => tally.kills)).toEqual([3, 3]);
    expect(tallies[0]!.told + tallies[1]!.told).toBeGreaterThan(20);
  });
});
