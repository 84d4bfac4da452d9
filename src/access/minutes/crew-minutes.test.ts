import { describe, expect, it } from 'vitest';
import { crewMinutes } from './crew-minutes.ts';

describe('crewMinutes', () => {
  it('adds up for one, and shares what can be shared (hand)', () => {
    const steps = [
      { each: [3, 2, 2], together: 1 },
      { each: [4], together: 2 },
    ];
    expect(crewMinutes(steps, 1)).toBe(14);
    // 3 beside 2 + 2, then 1; 4, then 2.
    expect(crewMinutes(steps, 2)).toBe(4 + 1 + 4 + 2);
  });
});
