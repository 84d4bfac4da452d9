import { afterAll, describe, expect, it } from 'vitest';
import { endKills, killRounds } from './kill-rounds.ts';

describe('a shelf whose server is killed', () => {
  afterAll(endKills);

  // The time allowed is for a machine on which much else runs; alone it takes some seconds.
  it('holds everything that was told as kept, ten kills at seeded moments', { timeout: 180_000 }, async () => {
    // Two shelves side by side: starting the program takes longer than anything it does here.
    const tallies = await Promise.all([killRounds(8101, 5), killRounds(8102, 5)]);
    expect(tallies.flatMap((tally) => tally.faults)).toEqual([]);
    expect(tallies.map((tally) => tally.kills)).toEqual([5, 5]);
    expect(tallies[0]!.told + tallies[1]!.told).toBeGreaterThan(20);
  });
});
