/** A cure that has been worked out on the changed circuit. */
export interface WorkedCure {
  /** What is changed, and what comes of it. */
  readonly words: string;
  /** In the unit of what is cured; greater is better. */
  readonly gain: number;
}

const MOST_CURES = 5;

/** Those that gain anything worth a line, the one that gains most first. */
export const toldCures = (tried: readonly WorkedCure[], least = 0): string[] =>
  tried
    .filter(({ gain }) => gain > least)
    .toSorted((a, b) => (a.gain === b.gain ? 0 : b.gain > a.gain ? 1 : -1))
    .slice(0, MOST_CURES)
    .map(({ words }) => words);

/**
 * The least figure in steps of the trade at which something holds, above the one there is now; undefined where it does not hold at the
 * most tried. What holds from some figure on is looked for by halving.
 */
export function leastThatHolds(
  now: number,
  most: number,
  step: number,
  holds: (figure: number) => boolean,
): number | undefined {
  let low = Math.floor(now / step + 1e-9);
  let high = Math.ceil(most / step - 1e-9);
  if (high <= low || !holds(high * step)) return undefined;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle * step)) high = middle;
    else low = middle;
  }
  return high * step;
}
