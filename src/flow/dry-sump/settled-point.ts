/** Where a figure that brings itself forth stands still, and how far off it still is. */
export interface SettledPoint<T> {
  readonly at: number;
  /** What was worked out there. */
  readonly with: T;
  readonly off: number;
}

const MOST_ROUNDS = 40;

/**
 * The figure at which `next` gives it back: by secants, held between the bounds and what has been found too low or too high.
 *
 * @param near - close enough
 */
export function settledPoint<T>(
  start: number,
  bounds: readonly [least: number, most: number],
  near: number,
  next: (figure: number) => { readonly gives: number; readonly with: T },
): SettledPoint<T> {
  let [low, high] = bounds;
  let at = Math.min(high, Math.max(low, start));
  let before: { readonly at: number; readonly gap: number } | undefined;
  for (let round = 1; ; round++) {
    const { gives, with: found } = next(at);
    const gap = gives - at;
    if (Math.abs(gap) <= near || round >= MOST_ROUNDS || high - low <= near)
      return { at: gives, with: found, off: Math.abs(gap) };
    if (gap > 0) low = Math.max(low, at);
    else high = Math.min(high, at);
    const along =
      before === undefined || before.gap === gap ? gives : at - (gap * (at - before.at)) / (gap - before.gap);
    before = { at, gap };
    const isWithin = along > low && along < high;
    at = isWithin ? along : gives > low && gives < high ? gives : (low + high) / 2;
  }
}
