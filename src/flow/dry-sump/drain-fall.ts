import { heightMmG } from '../circuit/pull.ts';
import type { LineRun } from '../circuit/line-run.ts';

/** Foam that leaves a turbo is up to this many times its oil. From memory. */
export const FOAM = 3;

/** Least fall along a line, as the car is pulled [deg]; below zero where it rises. */
export function leastFallDeg(run: LineRun, pull: readonly [number, number, number]): number {
  const size = Math.hypot(pull[0], pull[1], pull[2]);
  let least = 90;
  for (const { pathMm } of run.stretches)
    for (let i = 1; i < pathMm.length; i++) {
      const [a, b] = [pathMm[i - 1]!, pathMm[i]!];
      const length = Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2]);
      if (length < 1 || size === 0) continue;
      const drop = (heightMmG(pull, a) - heightMmG(pull, b)) / size;
      least = Math.min(least, (Math.asin(Math.max(-1, Math.min(1, drop / length))) * 180) / Math.PI);
    }
  return least;
}
