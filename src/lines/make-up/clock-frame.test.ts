import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Vec, cross, dot, norm, unit } from '#geometry';
import { clockDeg, clockDirection, clockFrame } from './clock-frame.ts';

const three = (faces: Vec): Vec => clockFrame(faces).right;
const noMinusZero = (v: Vec): number[] => v.map((x) => x + 0);

// hand: X rearward, Y to the car's right, Z up. Stand before the port and look into it: whoever looks at a port that faces forward
// looks rearward, so the car's left (-Y) is on their right hand: three o'clock. And so on round the car.
describe("three o'clock of a port that faces", () => {
  it.each<[string, Vec, string, Vec]>([
    ['forward', [-1, 0, 0], "the car's left", [0, -1, 0]],
    ['rearward', [1, 0, 0], "the car's right", [0, 1, 0]],
    ['right', [0, 1, 0], 'forward', [-1, 0, 0]],
    ['left', [0, -1, 0], 'rearward', [1, 0, 0]],
    ['up', [0, 0, 1], "the car's right", [0, 1, 0]],
    ['down', [0, 0, -1], "the car's left", [0, -1, 0]],
  ])('%s is %s', (_, faces, __, expected) => {
    expect(noMinusZero(three(faces))).toEqual(expected);
  });
});

describe("twelve o'clock", () => {
  it('is up on the four upright ports and forward on the two level ones', () => {
    for (const faces of [
      [-1, 0, 0],
      [1, 0, 0],
      [0, 1, 0],
      [0, -1, 0],
    ] as Vec[]) {
      expect(clockFrame(faces)).toMatchObject({ from: 'up' });
      expect(noMinusZero(clockFrame(faces).up)).toEqual([0, 0, 1]);
    }
    for (const faces of [
      [0, 0, 1],
      [0, 0, -1],
    ] as Vec[]) {
      expect(clockFrame(faces)).toMatchObject({ from: 'forward' });
      expect(noMinusZero(clockFrame(faces).up)).toEqual([-1, 0, 0]);
    }
  });

  it('lies on the slope of a port that leans', () => {
    // hand: faces forward and 45 degrees down; +Z laid on its plane leans as far rearward... up the slope: (-1,0,1)/sqrt2.
    const h = Math.SQRT1_2;
    const { up, right } = clockFrame([-h, 0, -h]);
    expect(up[0]).toBeCloseTo(-h, 12);
    expect(up[2]).toBeCloseTo(h, 12);
    expect(right[1]).toBeCloseTo(-1, 12);
  });

  it('changes from up to forward 30 degrees from plumb, with that angle itself counted as upright', () => {
    const leaning = (deg: number): Vec => [Math.sin((deg * Math.PI) / 180), 0, Math.cos((deg * Math.PI) / 180)];
    expect(clockFrame(leaning(29.9)).from).toBe('forward');
    expect(clockFrame(leaning(30)).from).toBe('forward');
    expect(clockFrame(leaning(30.1)).from).toBe('up');
    expect(clockFrame(leaning(150)).from).toBe('forward');
    expect(clockFrame(leaning(149.9)).from).toBe('up');
  });

  it('is forward along the slope of a port that leans a little from straight up', () => {
    // hand: faces 20 degrees rearward of up; -X laid on its plane: (-cos20, 0, sin20).
    const a = (20 * Math.PI) / 180;
    const { up } = clockFrame([Math.sin(a), 0, Math.cos(a)]);
    expect(up[0]).toBeCloseTo(-Math.cos(a), 12);
    expect(up[2]).toBeCloseTo(Math.sin(a), 12);
  });
});

it('makes a square frame on every facing, and reads back every clock (seed 7)', () => {
  const axis = fc.tuple(
    fc.double({ min: -1, max: 1, noNaN: true }),
    fc.double({ min: -1, max: 1, noNaN: true }),
    fc.double({ min: -1, max: 1, noNaN: true }),
  );
  fc.assert(
    fc.property(
      axis.filter((v) => norm(v) > 1e-3),
      fc.double({ min: 0, max: 359.999, noNaN: true }),
      (v, deg) => {
        const faces = unit(v);
        const frame = clockFrame(faces);
        expect(Math.abs(dot(frame.up, faces))).toBeLessThan(1e-12);
        expect(dot(cross(frame.up, faces), frame.right)).toBeCloseTo(1, 12);
        const read = clockDeg(frame, clockDirection(frame, (deg * Math.PI) / 180));
        expect(read).not.toBeNull();
        const off = Math.abs((read ?? 0) - deg);
        expect(Math.min(off, 360 - off)).toBeLessThan(1e-9);
      },
    ),
    { seed: 7, numRuns: 300 },
  );
});

it('has no clock for a straight end, and never says 360 or minus zero', () => {
  const frame = clockFrame([-1, 0, 0]);
  expect(clockDeg(frame, [0, 0, 0])).toBeNull();
  expect(Object.is(clockDeg(frame, [0, 0, 5]), 0)).toBe(true);
  expect(Object.is(clockDeg(frame, [0, 1e-18, 5]), 0)).toBe(true);
});

it("reads a tail that leans to the car's right out of a port that faces forward as nine o'clock", () => {
  // hand: three o'clock is the car's left, so the right is nine.
  expect(clockDeg(clockFrame([-1, 0, 0]), [0, 30, 0])).toBeCloseTo(270, 12);
});
