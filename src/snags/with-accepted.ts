import type { AcceptedSnag } from '#car';
import type { Snag } from './snag.ts';
import { brokenBy } from './worst-first.ts';

const rank = { stop: 0, fix: 1, note: 2 } as const;

/** A limit missed by this much more than when it was accepted is missed worse; less is the noise of working it out again [%]. */
const WORSE_PERCENT = 2;

/**
 * The list with what the builder accepted marked as that, behind all that is open. What has got worse since, in level or in how far
 * its limit is missed, stays where it was and says so. An accepted point keeps its level: nothing becomes less broken by being accepted.
 */
export function withAccepted(snags: readonly Snag[], accepted: readonly AcceptedSnag[]): Snag[] {
  if (accepted.length === 0) return [...snags];
  const byId = new Map(accepted.map((row) => [row.snag, row]));
  const marked = snags.map((snag): Snag => {
    const row = byId.get(snag.id);
    if (row === undefined) return snag;
    return { ...snag, accepted: { by: row.by, why: row.why, on: row.on, isWorse: isWorse(snag, row) } };
  });
  const isSettled = ({ accepted: row }: Snag): boolean => row !== undefined && !row.isWorse;
  return [...marked.filter((snag) => !isSettled(snag)), ...marked.filter(isSettled)];
}

function isWorse(snag: Snag, row: AcceptedSnag): boolean {
  if (rank[snag.level] < rank[row.level]) return true;
  return row.missedPercent !== undefined && 100 * brokenBy(snag) > row.missedPercent + WORSE_PERCENT;
}
