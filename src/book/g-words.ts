import type { CarG, Covering } from '#flow';
import { formatNumber } from '#units';

/** Below this no g is worth a word [g]. */
const LEAST_G = 0.005;
const two = (value: number): string => formatNumber(Math.abs(value), 2);

/** "braking 1.20 g, right-hand corner 0.80 g"; standing still where neither acts; the vertical g where it is not 1. */
export function gWords({ longitudinalG, lateralG, verticalG }: CarG): string {
  const words = [
    ...(Math.abs(longitudinalG) < LEAST_G
      ? []
      : [`${longitudinalG > 0 ? 'speeding up' : 'braking'} ${two(longitudinalG)} g`]),
    ...(Math.abs(lateralG) < LEAST_G ? [] : [`${lateralG > 0 ? 'right' : 'left'}-hand corner ${two(lateralG)} g`]),
  ];
  if (Math.abs(verticalG) < LEAST_G) return [...words, 'no g downward'].join(', ');
  if (Math.abs(verticalG - 1) >= LEAST_G) words.push(`${two(verticalG)} g ${verticalG < 0 ? 'upward' : 'downward'}`);
  return words.length === 0 ? 'standing still' : words.join(', ');
}

const ways = [
  'speeding up',
  'speeding up in a right-hand corner',
  'in a right-hand corner',
  'braking in a right-hand corner',
  'braking',
  'braking in a left-hand corner',
  'in a left-hand corner',
  'speeding up in a left-hand corner',
] as const;

/** The way a car accelerates in words, from the angle clockwise seen from above, 0 speeding up. */
export const wayWords = (directionDeg: number): string => ways[((Math.round(directionDeg / 45) % 8) + 8) % 8]!;

/** What a covering means for the outlet. */
export const coveringWords = {
  covered: 'covered',
  partly: 'partly covered',
  uncovered: 'uncovered',
} as const satisfies Record<Covering, string>;

/** The mark beside it. */
export const coveringLevel = { covered: 'note', partly: 'fix', uncovered: 'stop' } as const satisfies Record<
  Covering,
  'stop' | 'fix' | 'note'
>;
