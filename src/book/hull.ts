import type { Spot } from './drawing.ts';

/** The convex outline round spots, going round once; fewer than three corners where they lie in a line. */
export function hull(spots: readonly Spot[]): Spot[] {
  const sorted = [...spots].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  if (sorted.length < 3) return sorted;
  const half = (points: readonly Spot[]): Spot[] => {
    const chain: Spot[] = [];
    for (const spot of points) {
      while (chain.length > 1 && turn(chain.at(-2)!, chain.at(-1)!, spot) <= 0) chain.pop();
      chain.push(spot);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

/** Above 0 where a, b, c turn from +x towards +y. */
const turn = (a: Spot, b: Spot, c: Spot): number => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
