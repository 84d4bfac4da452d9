import type { Snag } from '#snags';

/** Those that nobody has put their name to, and those that have got worse since. */
export const openSnags = (snags: readonly Snag[]): readonly Snag[] =>
  snags.filter((snag) => snag.accepted === undefined || snag.accepted.isWorse);
