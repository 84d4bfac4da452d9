import type { Case } from '#car';
import type { Catalogue } from '#standards';
import { easierRuns, withRun } from '../circuit/changed-runs.ts';
import { type ReadyCircuit, redrawn, vesselFlows } from '../circuit/circuit-state.ts';
import type { CircuitState } from '../circuit/flow-answer.ts';
import type { FlowFinding } from '../finding.ts';
import { guides } from '../limits.ts';
import { fuelFindings, supplyNotes, ventFindings } from './fuel-findings.ts';
import { type FuelState, fuelState } from './fuel-state.ts';
import { guarded, type Refused } from '../refused.ts';

/** What a cure is worked out with. */
export interface FuelCureAsk {
  readonly ready: ReadyCircuit;
  readonly shelf: Catalogue;
}

/** A fuel circuit in one case with its cures, or in a line why not; `layout` is what hangs on no case. */
export function fuelCase(
  ask: FuelCureAsk,
  at: Case,
): { readonly state: CircuitState; readonly layout: readonly FlowFinding[] } | Refused {
  const { ready } = ask;
  const solved = fuelState(ready, at);
  if ('why' in solved) return solved;
  const { asked, flow, gasPa, answer } = solved;
  return {
    state: {
      circuit: ready.drawn.circuit.id,
      case: at,
      temperatureC: asked.temperatureC,
      fluid: asked.fluid,
      pull: asked.pull,
      lines: flow.lines,
      passages: flow.passages,
      pumps: flow.pumps,
      vessels: vesselFlows(ready, asked, gasPa),
      fuel: answer,
      findings: fuelFindings(ready, solved).map((row) => withFuelCures(row, at, solved, ask)),
    },
    layout: [...supplyNotes(ready, solved), ...ventFindings(ready, solved)],
  };
}

function withFuelCures(finding: FlowFinding, at: Case, state: FuelState, ask: FuelCureAsk): FlowFinding {
  if (finding.code === 'return-loss') {
    const cures = easierOf(finding.line, ask).flatMap(({ words, ready }) => {
      const after = guarded(() => fuelState(ready, at));
      return 'why' in after ? [] : [{ words, gain: (state.answer.returnLossPa - after.answer.returnLossPa) / 1000 }];
    });
    return { ...finding, cures: [...told(cures, 'kPa off the rail'), ...finding.cures] };
  }
  if (finding.code !== 'vapour-lock') return finding;
  const cold = coldEnough(at, ask.ready);
  return cold === undefined ? finding : { ...finding, cures: [cold, ...finding.cures] };
}

const told = (rows: readonly { words: string; gain: number }[], unit: string): string[] =>
  rows
    .filter(({ gain }) => gain > 0.1)
    .toSorted((a, b) => b.gain - a.gain)
    .slice(0, 4)
    .map(({ words, gain }) => `${words}: ${gain.toFixed(1)} ${unit}`);

function easierOf(line: string | undefined, { ready, shelf }: FuelCureAsk) {
  const run = ready.drawn.runs.find((row) => row.line === line);
  const row = line === undefined ? undefined : ready.drawn.lines.get(line);
  if (run === undefined || row === undefined) return [];
  const hose = row.hose ?? row.pieces.find((piece) => piece.hose !== undefined)?.hose;
  return easierRuns(run, shelf, hose, row.dash).map(({ words, run: easier }) => ({
    words,
    ready: redrawn(ready, withRun(ready.drawn, easier)),
  }));
}

const COLDEST_C = 0;
const HALVINGS = 7;

/** The warmest fuel with which every inlet keeps off its vapour. */
function coldEnough(at: Case, ready: ReadyCircuit): string | undefined {
  const holds = (fuelC: number): boolean => {
    const state = guarded(() => fuelState(ready, { ...at, fuelC }));
    return (
      !('why' in state) && state.answer.pumps.every(({ overVapourKpa }) => overVapourKpa >= guides.fuelOverVapour.value)
    );
  };
  let [low, high] = [COLDEST_C, at.fuelC ?? at.airC ?? COLDEST_C];
  if (high <= low || !holds(low)) return undefined;
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return `the fuel kept at ${Math.floor(low)} °C or colder (shield, cooler in the return): enough`;
}
