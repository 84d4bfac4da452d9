import type { Case } from '#car';
import type { Catalogue } from '#standards';
import { easierRuns, withRun } from '../circuit/changed-runs.ts';
import { type ReadyCircuit, redrawn } from '../circuit/circuit-state.ts';
import type { FlowFinding } from '../finding.ts';
import { guarded } from '../refused.ts';
import { type FuelState, fuelState } from './fuel-state.ts';

/** What cures of the fuel are worked out with. */
export interface FuelCureAsk {
  readonly ready: ReadyCircuit;
  readonly shelf: Catalogue;
}

/** A finding that is to be cured, in the case that it was found in. */
export interface FuelCureAsked extends FuelCureAsk {
  readonly finding: FlowFinding;
  readonly at: Case;
  readonly state: FuelState;
}

/** The case on a changed circuit; undefined where it is refused. */
export function fuelAfter(ready: ReadyCircuit, at: Case): FuelState | undefined {
  const solved = guarded(() => fuelState(ready, at));
  return 'why' in solved ? undefined : solved;
}

/** A line in the next sizes and with straighter ends. */
export function easierFuel(
  line: string | undefined,
  { ready, shelf }: FuelCureAsk,
): { words: string; changed: ReadyCircuit }[] {
  const run = ready.drawn.runs.find((row) => row.line === line);
  const row = line === undefined ? undefined : ready.drawn.lines.get(line);
  if (run === undefined || row === undefined) return [];
  const hose = row.hose ?? row.pieces.find((piece) => piece.hose !== undefined)?.hose;
  return easierRuns(run, shelf, hose, row.dash).map(({ words, run: easierRun }) => ({
    words,
    changed: redrawn(ready, withRun(ready.drawn, easierRun)),
  }));
}
