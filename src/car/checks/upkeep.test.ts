import { describe, expect, it } from 'vitest';
import { faultLine } from '../fault.ts';
import { readCar } from '../read-car.ts';

const told = ({ part: own = {}, ...rest }: { part?: object; [key: string]: unknown }): string[] => {
  const tank = { id: 'tank', class: 'fixed', shapes: [], ports: [], ...own };
  const reading = readCar(JSON.stringify({ fairlead: 1, parts: [tank], movers: [], lines: [], ...rest }));
  return reading.ok ? [] : reading.faults.map(faultLine);
};

const state = (is: string) => ({
  rulePacks: [
    {
      id: 'a',
      name: 'A',
      year: 2026,
      clauses: [{ clause: '1', text: 'Made up', about: 'line', measure: 'state', is }],
    },
  ],
});

describe('what would be passed over in silence is told where it stands', () => {
  it.each([
    [
      'work that is none',
      { workshop: { minutes: [{ work: 'nuts', minutes: 1 }] } },
      /work: stands "nuts"; allowed: one of .*\(nearest: nut\)$/u,
    ],
    [
      'work twice',
      { workshop: { minutes: [1, 2].map((minutes) => ({ work: 'nut', minutes })) } },
      /^workshop\.minutes\[1\]\.work: stands "nut" a second time/u,
    ],
    [
      'a head no larger than its nut',
      { workshop: { tools: [{ kind: 'ring', acrossFlatsMm: 13, headMm: 13 }] } },
      /^workshop\.tools\[0\]\.headMm: stands 13; allowed: more than its acrossFlatsMm, 13$/u,
    ],
    ['a state that is none', state('maid'), /clauses\[0\]\.is: stands "maid"; allowed: one of .*\(nearest: made\)$/u],
    // By the calendar: 2024 is a leap year, 2025 and 2100 are none.
    ['no day of the calendar', { part: { life: { madeOn: '2025-02-29' } } }, /madeOn: stands "2025-02-29"/u],
    ['no day of the calendar', { part: { life: { madeOn: '2100-02-29' } } }, /madeOn: stands "2100-02-29"/u],
    ['no day of the calendar', { runDays: [{ on: '2025-04-31', runs: 1 }] }, /runDays\[0\]\.on: stands "2025-04-31"/u],
    [
      'fitted before it was made',
      { part: { life: { madeOn: '2025-02-01', fittedOn: '2025-01-31' } } },
      /fittedOn: stands "2025-01-31"; allowed: no earlier than madeOn, 2025-02-01$/u,
    ],
  ])('%s', (_, more, words) => {
    expect(told(more)).toEqual([expect.stringMatching(words)]);
  });

  it.each([
    {
      workshop: {
        minutes: [{ work: 'joint-large', minutes: 1 }],
        tools: [{ kind: 'hex-key', acrossFlatsMm: 5, headMm: 4 }],
      },
    },
    state('made'),
    { part: { life: { madeOn: '2024-02-29', fittedOn: '2024-02-29' } }, runDays: [{ on: '2000-02-29', runs: 1 }] },
  ])('nothing of %j', (more) => {
    expect(told(more)).toEqual([]);
  });
});
