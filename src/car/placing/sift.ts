export interface Fitted {
  /** Sum of squared residuals over their tolerances [-]. */
  readonly chi: number;
  /** Equations more than unknowns. */
  readonly spare: number;
}

export interface Sifted<Item, Fit> {
  readonly fit: Fit;
  readonly kept: readonly Item[];
  /** Items that miss where all the others put them by more than three times their tolerance; they take no part in the fit. */
  readonly apart: readonly Item[];
  /** True where what is left still does not agree, and too little is left to tell which one is wrong. */
  readonly quarrel: boolean;
}

/** Trying without each one in turn costs a fit each; with more items than this one blunder moves the fit too little to matter. */
const MOST_SIFTED = 60;
/** A fit whose residuals are beyond three tolerances, in the mean, is no fit. */
const QUARREL = 9;

/**
 * A fit to those items that agree. While some item, left out, lies more than three tolerances from where the rest put it,
 * the one whose absence helps most is set apart; never more than a third of them, and never so many that the rest cannot be
 * checked against each other.
 *
 * @param misses - how far an item lies from a fit it took no part in, in tolerances [-]
 */
export function sift<Item, Fit extends Fitted>(
  items: readonly Item[],
  fitOf: (items: readonly Item[]) => Fit | undefined,
  misses: (item: Item, fit: Fit) => number,
): Sifted<Item, Fit> | undefined {
  let fit = fitOf(items);
  if (fit === undefined) return undefined;
  let kept = items;
  const apart: Item[] = [];
  while (items.length <= MOST_SIFTED && (apart.length + 1) * 3 <= items.length) {
    const better = bestWithout(kept, fitOf, misses);
    if (better === undefined || fit.chi - better.fit.chi < QUARREL) break;
    apart.push(better.item);
    kept = kept.filter((item) => item !== better.item);
    fit = better.fit;
  }
  return { fit, kept, apart, quarrel: fit.spare > 0 && fit.chi > QUARREL * fit.spare };
}

function bestWithout<Item, Fit extends Fitted>(
  kept: readonly Item[],
  fitOf: (items: readonly Item[]) => Fit | undefined,
  misses: (item: Item, fit: Fit) => number,
): { readonly item: Item; readonly fit: Fit } | undefined {
  let best: { readonly item: Item; readonly fit: Fit } | undefined;
  for (const item of kept) {
    const fit = fitOf(kept.filter((other) => other !== item));
    if (fit === undefined || fit.spare < 1 || misses(item, fit) <= 3) continue;
    if (best === undefined || fit.chi < best.fit.chi) best = { item, fit };
  }
  return best;
}
