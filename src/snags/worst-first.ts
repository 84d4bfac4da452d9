import type { Snag } from './snag.ts';

const rank = { stop: 0, fix: 1, note: 2 } as const;

/** Below this a limit is taken as this when shares are compared: 2 mm of nothing is not infinitely broken. */
const LEAST_LIMIT = 10;

/** How far a limit is missed, as a share of it; 1 where there is no number, since then nothing can be built at all. */
export function brokenBy({ value, limit, level }: Snag): number {
  if (value === undefined || limit === undefined) return level === 'stop' ? 1 : 0;
  return Math.abs(value - limit) / Math.max(LEAST_LIMIT, Math.abs(limit));
}

/** Stops before fixes before notes; within a level what is broken most, then by line as the car lists them, then by id. */
export function worstFirst(snags: readonly Snag[], lineOrder: readonly string[]): Snag[] {
  const place = new Map(lineOrder.map((id, i) => [id, i]));
  const at = (snag: Snag): number =>
    snag.line === undefined ? lineOrder.length : (place.get(snag.line) ?? lineOrder.length);
  return [...snags].sort((a, b) => {
    if (a.level !== b.level) return rank[a.level] - rank[b.level];
    const apart = a.level === 'note' ? 0 : brokenBy(b) - brokenBy(a);
    return Math.abs(apart) > 1e-9 ? apart : at(a) - at(b) || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
  });
}
