import type { Spot } from './drawing.ts';

/** A tag that points at a spot. */
export interface Led {
  readonly id: string;
  readonly anchor: Spot;
}

export interface Placed extends Led {
  /** The middle of the tag. */
  readonly tag: Spot;
}

/** Swaps tried before the leaders are left as they are; each makes them shorter altogether, so few are needed. */
const MOST_SWAPS = 2000;

/**
 * Tags on a row at `y` from x to x, in equal places, their leaders uncrossed: two that cross change places until none do.
 */
export function onRow(leds: readonly Led[], y: number, from: number, to: number, width: number): Placed[] {
  const sorted = [...leds].sort((a, b) => a.anchor[0] - b.anchor[0] || (a.id < b.id ? -1 : 1));
  const xs = spread(
    sorted.map((led) => led.anchor[0]),
    from + width / 2,
    to - width / 2,
    width,
  );
  const tags: Spot[] = xs.map((x) => [x, y]);
  for (let swaps = 0; swaps < MOST_SWAPS; swaps++) {
    const pair = crossing(sorted, tags);
    if (pair === null) break;
    const [i, j] = pair;
    [tags[i], tags[j]] = [tags[j]!, tags[i]!];
  }
  return sorted.map((led, i) => ({ ...led, tag: tags[i]! }));
}

/** Places at least `gap` apart, as near as may be to those wanted (in order). */
function spread(wanted: readonly number[], from: number, to: number, gap: number): number[] {
  const xs = [...wanted];
  for (let i = 0; i < xs.length; i++) xs[i] = Math.max(xs[i]!, i === 0 ? from : xs[i - 1]! + gap);
  for (let i = xs.length - 1; i >= 0; i--) xs[i] = Math.min(xs[i]!, i === xs.length - 1 ? to : xs[i + 1]! - gap);
  return xs;
}

function crossing(leds: readonly Led[], tags: readonly Spot[]): [number, number] | null {
  for (let i = 0; i < leds.length; i++)
    for (let j = i + 1; j < leds.length; j++)
      if (doCross(leds[i]!.anchor, tags[i]!, leds[j]!.anchor, tags[j]!)) return [i, j];
  return null;
}

/** Whether two stretches cross in their insides. */
export function doCross(a: Spot, b: Spot, c: Spot, d: Spot): boolean {
  const side = (p: Spot, q: Spot, r: Spot): number => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}
