import type { Margins } from './curves.ts';
import type { HoseRun } from './run.ts';

/**
 * Margins planned with, in turn: a little room, then wider bends, which leave a longer hose with more to give, then none. What
 * hangs strays from what was planned, and a hose planned at its limits has nothing spare. Detours are planned roomier: they
 * are there to give.
 */
export const CLOSE: readonly Margins[] = [
  { marginMm: 4, radiusFactor: 1.08 },
  { marginMm: 6, radiusFactor: 1.3 },
  { marginMm: 0.5, radiusFactor: 1.015 },
];
export const GENTLE: readonly Margins[] = [
  { marginMm: 2, radiusFactor: 1.4 },
  { marginMm: 2, radiusFactor: 1.8 },
];
export const DETOURS: readonly Margins[] = [
  { marginMm: 6, radiusFactor: 1.2 },
  { marginMm: 12, radiusFactor: 1.4 },
];
/** Runs looked at for how they hang at each margin. */
export const LOOKED_AT = 64;

/** Runs that have not been hung yet: wide ones often come to the same curve as the direct ones. */
export function notSeen(runs: readonly HoseRun[], seen: Set<string>): HoseRun[] {
  return runs.filter((run) => {
    const turn = (phi: number): number => Math.round((phi * 180) / Math.PI / SAME_DEG);
    const key = [
      run.a.makeUp.key,
      run.a.adapterClockRad,
      turn(run.phiA),
      run.b.makeUp.key,
      run.b.adapterClockRad,
      turn(run.phiB),
      Math.round(run.lengthMm / SAME_MM),
    ].join(' ');
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

const SAME_DEG = 4;
const SAME_MM = 4;
