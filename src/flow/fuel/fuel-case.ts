import type { Case } from '#car';
import { vesselFlows } from '../circuit/circuit-state.ts';
import type { CircuitState } from '../circuit/flow-answer.ts';
import { unsettledTees } from '../circuit/unsettled-tees.ts';
import type { FlowFinding } from '../finding.ts';
import { fuelFindings, supplyNotes, ventFindings } from './fuel-findings.ts';
import type { FuelCureAsk } from './fuel-cure-ask.ts';
import { withFuelCures } from './fuel-cures.ts';
import { fuelState } from './fuel-state.ts';
import type { Refused } from '../refused.ts';

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
      findings: [
        ...unsettledTees(ready, at, flow.teesOffPa),
        ...fuelFindings(ready, solved).map((row) => withFuelCures(row, at, solved, ask)),
      ],
    },
    layout: [
      ...supplyNotes(ready, solved),
      ...ventFindings(ready, solved).map((row) => withFuelCures(row, at, solved, ask)),
    ],
  };
}
