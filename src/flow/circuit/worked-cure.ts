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

/** Steps of a row, each larger than the one before, up to the first that is enough and no further. */
export function upToEnough<Step>(steps: readonly Step[], isEnough: (step: Step) => boolean): Step[] {
  const first = steps.findIndex(isEnough);
  return first < 0 ? [...steps] : steps.slice(0, first + 1);
}

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
