import { describe, expect, it } from 'vitest';
import { clockFace } from './clock-face.ts';
import { clockFrame } from './clock-frame.ts';
import { clockTime, clockWords, directionWords } from './clock-words.ts';

describe('clockTime', () => {
  // hand: the hour hand goes 30 degrees an hour, so half past nine stands at 285.
  it.each<[number, string]>([
    [0, "twelve o'clock"],
    [285, 'half past nine'],
    [330, "eleven o'clock"],
    [352, 'half past eleven'],
    [353, "twelve o'clock"],
    [360, "twelve o'clock"],
    [15, 'half past twelve'],
    [-90, "nine o'clock"],
    [213, "seven o'clock"],
  ])('%d degrees is %s', (deg, words) => expect(clockTime(deg)).toBe(words));
});

describe("clockWords says it in the car's own left and right, not the face's", () => {
  // hand: at a port that faces forward three o'clock is the car's left; at one that faces rearward, its right.
  it.each<[string, number, readonly [number, number, number], string]>([
    ['forward', 90, [-1, 0, 0], "tail points left (three o'clock)"],
    ['rearward', 90, [1, 0, 0], "tail points right (three o'clock)"],
    ['right', 90, [0, 1, 0], "tail points forward (three o'clock)"],
    ['left', 90, [0, -1, 0], "tail points rearward (three o'clock)"],
    ['up', 0, [0, 0, 1], "tail points forward (twelve o'clock)"],
    ['up', 90, [0, 0, 1], "tail points right (three o'clock)"],
    ['down', 90, [0, 0, -1], "tail points left (three o'clock)"],
    ['down', 180, [0, 0, -1], "tail points rearward (six o'clock)"],
    ['forward', 130, [-1, 0, 0], 'tail points left, down (half past four)'],
    ['rearward', 240, [1, 0, 0], "tail points left, down (eight o'clock)"],
  ])('facing %s at %d', (_, deg, faces, words) => expect(clockWords(deg, clockFrame(faces))).toBe(words));
});

it('names the strongest direction first and leaves out what is under 22.5 degrees', () => {
  expect(directionWords([-0.3, -0.5, 0.81])).toBe('up, left');
  expect(directionWords([Math.SQRT1_2, 0, -Math.SQRT1_2])).toBe('rearward, down');
});

it('draws twelve ticks and a hand that stands where the clock says', () => {
  const face = clockFace(90, 'up');
  expect(face.ticks.map((t) => t.hour)).toEqual([12, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
  expect(face.hand?.[0]).toBeCloseTo(1, 12);
  expect(face.hand?.[1]).toBeCloseTo(0, 12);
  expect(clockFace(null, 'forward').hand).toBeNull();
});
