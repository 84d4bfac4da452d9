import { describe, expect, it } from 'vitest';
import { pictureLevel } from './picture-level.ts';

describe('how finely a scan is drawn', () => {
  // hand: a pixel covers 2 mm from afar, 0.1 mm from close by; a pixel and a half may be off.
  it.each([
    ['from afar the lightest that is off by no more than 3 mm', [2.9, 0.7, 0.1], 2, 0],
    ['nearer the next', [2.9, 0.7, 0.1], 0.6, 1],
    ['close by the finest, though it is off by more', [2.9, 0.7, 0.2], 0.1, 2],
    ['an exact picture does from anywhere', [0, 0, 0], 0.001, 0],
    ['what has not come yet is the next to be asked for', [2.9, undefined, undefined], 0.1, 1],
    ['nothing has come: the lightest first', [undefined, undefined, undefined], 0.001, 0],
  ])('hand: %s', (_, errorsMm, mmPerPx, level) => {
    expect(pictureLevel(errorsMm, mmPerPx)).toBe(level);
  });
});
