import { type AdapterRow, type End, endKey, mates } from '#standards';
import { mostAdapters } from './mating-chains.ts';

/** A fitting may take this share of the hose's bore away, no more (SAE J516:2019, bore after assembly). */
export const boreLossMost = 0.1;

/**
 * The widest least bore with which any chain of up to three of these adapters leads from `from` to an end that `isGoal`
 * [mm]; 0 when none does. A fitting's bore counts as the hose's at most.
 */
export function widestBore(from: End, rows: readonly AdapterRow[], isGoal: (end: End) => boolean): number {
  let reached = new Map<string, { end: End; boreMm: number }>([[endKey(from), { end: from, boreMm: Number.POSITIVE_INFINITY }]]);
  let widest = isGoal(from) ? Number.POSITIVE_INFINITY : 0;
  for (let count = 1; count <= mostAdapters; count++) {
    const next = new Map<string, { end: End; boreMm: number }>();
    for (const { end, boreMm } of reached.values()) {
      for (const row of rows) {
        const bore = Math.min(boreMm, row.boreMm);
        if (bore <= widest) continue;
        for (const exit of exitsOn(row, end)) {
          if (bore > (next.get(endKey(exit))?.boreMm ?? 0)) next.set(endKey(exit), { end: exit, boreMm: bore });
        }
      }
    }
    for (const { end, boreMm } of next.values()) if (boreMm > widest && isGoal(end)) widest = boreMm;
    reached = next;
  }
  return widest;
}

function exitsOn(row: AdapterRow, end: End): End[] {
  return [...(mates(end, row.a).ok ? [row.b] : []), ...(mates(end, row.b).ok ? [row.a] : [])];
}
