import { expect, it } from 'vitest';
import { spannerSize } from './spanner-size.ts';

// hand: sixteenths of 25.4 mm are 1.5875 mm; 22.225 = 14 of them, 19.05 = 12, 31.75 = 20, written 31.8 too.
it.each([
  [22.225, '7/8 in'],
  [22.2, '7/8 in'],
  [19.05, '3/4 in'],
  [19, '19 mm'],
  [31.8, '1 1/4 in'],
  [25.4, '1 in'],
  [10, '10 mm'],
  [13, '13 mm'],
  [12.3, '12.3 mm'],
] as const)('a spanner of %s mm across the flats is called %s', (mm, words) => {
  expect(spannerSize(mm)).toBe(words);
});
