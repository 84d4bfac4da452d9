import { withRun } from '../circuit/changed-runs.ts';
import type { DrawnCircuit } from '../circuit/drawn-circuit.ts';
import type { LineRun } from '../circuit/line-run.ts';

/** Bores that a restrictor is drilled to in a shop, widest first [mm]. */
export const DRILLS_MM = [5, 4, 3.5, 3, 2.5, 2, 1.5, 1] as const;

/** A line with a drilled plate at its beginning. */
export function chokedRun(run: LineRun, restrictorMm: number): LineRun {
  const first = run.stretches[0]!;
  const at = first.pathMm[0]!;
  return {
    ...run,
    stretches: [{ what: 'joint', boreMm: first.boreMm, lengthMm: 0, pathMm: [at, at], restrictorMm }, ...run.stretches],
  };
}

/** The circuit with a drilled plate in each of some lines. */
export const withDrill = (drawn: DrawnCircuit, lines: readonly string[], restrictorMm: number): DrawnCircuit =>
  drawn.runs
    .filter(({ line }) => lines.includes(line))
    .reduce((out, run) => withRun(out, chokedRun(run, restrictorMm)), drawn);
