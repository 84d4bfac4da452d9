import { describe, expect, it } from 'vitest';
import type { Car } from '#car';
import { CrewStopped, StandingCrew } from './standing-crew.ts';

const empty: Car = { fairlead: 1, parts: [], movers: [], lines: [] };
const input = { key: 'empty', car: empty, meshes: [] };

describe('threads that stay', () => {
  it('hand: once they end, what is at work, what waits and what is asked later are all stopped, and no thread begins', async () => {
    const crew = new StandingCrew();
    const before = [1, 2].flatMap(() => [crew.work('ready', { input }), crew.workBehind('ready', { input })]);
    const ending = crew.end();
    const jobs = [...before, crew.ask('ready', { input })];
    const ends = await Promise.allSettled(jobs.map(({ answer }) => answer));
    await ending;
    expect(ends.map((end) => end.status === 'rejected' && end.reason instanceof CrewStopped)).toEqual(
      jobs.map(() => true),
    );
  });
});
