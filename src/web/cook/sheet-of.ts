import type { Sheet } from '#book';

const SIZE = 14;
const LEAST_WIDTH = 300;
const MOST_WIDTH = 620;

/** A sheet as wide as the paper has room. */
export const sheetOf = (width: number): Sheet => ({
  width: Math.min(MOST_WIDTH, Math.max(LEAST_WIDTH, Math.round(width))),
  size: SIZE,
  unit: 'px',
});
