import { describe, expect, it } from 'vitest';
import { type FacingDraft, facing, facingDraft, facingOf } from './facing.ts';

const value = (draft: FacingDraft) => {
  const read = facing(draft);
  return read.ok ? read.value : read.fault;
};

describe('which way it faces', () => {
  it('plain ways are the axes of the car: X rearward, Y right, Z up', () => {
    expect(
      (['forward', 'rearward', 'left', 'right', 'up', 'down'] as const).map((way) => value(facingOf(way))),
    ).toEqual([
      [-1, 0, 0],
      [1, 0, 0],
      [0, -1, 0],
      [0, 1, 0],
      [0, 0, 1],
      [0, 0, -1],
    ]);
  });

  // hand: mostly rearward, tipped 30 deg up = (cos 30, 0, sin 30) = (0.86603, 0, 0.5).
  it('sloping', () => {
    expect(value({ ...facingOf('rearward'), way: 'sloping', tip: '30', towards: 'up' })).toEqual([0.86603, 0, 0.5]);
    expect(value({ ...facingOf('left'), way: 'sloping', tip: '0.5235988 rad', towards: 'down' })).toEqual([
      0, -0.86603, -0.5,
    ]);
  });

  it('what cannot be is said in words', () => {
    expect(value({ ...facingOf('up'), way: 'sloping', towards: 'down' })).toBe(
      'what faces up cannot be tipped towards down',
    );
    expect(value({ ...facingOf('up'), way: 'sloping', tip: '95' })).toMatch(/too far; 0 to 89/);
    expect(value({ ...facingOf('up'), way: 'sloping', tip: 'steep' })).toMatch(/does not begin with a number/);
    expect(value({ ...facingOf('up'), way: 'numbers', numbers: ['0', '', '1'] })).toMatch(/three numbers/);
  });

  it('comes back out of the form as it went in', () => {
    for (const faces of [
      [0, 0, 1],
      [0, -0.86603, -0.5],
      [0.5, 0.86603, 0],
      [0.48, -0.6, 0.64],
    ] as const) {
      const again = value(facingDraft(faces)) as number[];
      faces.forEach((x, i) => expect(again[i]).toBeCloseTo(x, 2));
    }
    expect(facingDraft([0, -0.86603, -0.5])).toMatchObject({
      way: 'sloping',
      mostly: 'left',
      towards: 'down',
      tip: '30',
    });
  });
});
