import { describe, expect, it } from 'vitest';
import { fitsRow, spreadOut } from './spread-out.ts';

describe('labels spread out in a row', () => {
  const wide = (at: number) => ({ at, width: 10 });
  it('stay where they want to stand while they have room', () => {
    expect(spreadOut([wide(20), wide(50)], 0, 100, 2)).toEqual([20, 50]);
  });
  it('make room for each other and stay in the row: worked by hand', () => {
    // 20 pushes 21 to 20 + 12; at the end 99 goes back to 95 and 98, before it, to 83.
    expect(spreadOut([wide(20), wide(21)], 0, 100, 2)).toEqual([20, 32]);
    expect(spreadOut([wide(98), wide(99)], 0, 100, 2)).toEqual([83, 95]);
    expect(spreadOut([wide(1)], 0, 100, 2)).toEqual([5]);
  });
  it('are told not to fit where together they are too wide', () => {
    expect(fitsRow([wide(0), wide(0)], 22, 2)).toBe(true);
    expect(fitsRow([wide(0), wide(0)], 21, 2)).toBe(false);
  });
});
