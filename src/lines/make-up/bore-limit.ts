import { type AdapterRow, type End, endKey } from '#standards';
import { type Link, exitOf, linksOn, mostAdapters } from './mating-chains.ts';

/** A fitting may take this share of the hose's bore away, no more (SAE J516:2019, bore after assembly). */
export const boreLossMost = 0.1;

/** Rows round their bores, and SAE J516 lets an end's bore be 0.2 mm under its table: bores are compared to this [mm]. */
export const boreGraceMm = 0.1;

/**
 * The widest least bore with which any chain of up to three of these adapters leads from `from` to an end that `isGoal`
 * [mm]: infinite where none is needed, 0 where none does.
 */
export function widestBore(
  from: End,
  rows: readonly AdapterRow[],
  isGoal: (end: End) => boolean,
  allowed: (link: Link) => boolean,
): number {
  let reached = new Map<string, { end: End; boreMm: number }>([
    [endKey(from), { end: from, boreMm: Number.POSITIVE_INFINITY }],
  ]);
  let widest = isGoal(from) ? Number.POSITIVE_INFINITY : 0;
  for (let count = 1; count <= mostAdapters && widest < Number.POSITIVE_INFINITY; count++) {
    const next = new Map<string, { end: End; boreMm: number }>();
    for (const { end, boreMm } of reached.values()) {
      for (const link of linksOn(end, rows)) {
        const bore = Math.min(boreMm, link.row.boreMm);
        const exit = exitOf(link);
        if (bore <= Math.max(widest, next.get(endKey(exit))?.boreMm ?? 0) || !allowed(link)) continue;
        next.set(endKey(exit), { end: exit, boreMm: bore });
      }
    }
    for (const { end, boreMm } of next.values()) if (boreMm > widest && isGoal(end)) widest = boreMm;
    reached = next;
  }
  return widest;
}
