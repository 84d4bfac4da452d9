import type { Case } from '#car';
import type { Catalogue } from '#standards';
import { type ReadyCircuit, vesselFlows } from '../circuit/circuit-state.ts';
import type { CoolantHeights } from '../circuit/coolant-answer.ts';
import { unsettledTees } from '../circuit/unsettled-tees.ts';
import type { CircuitState } from '../circuit/flow-answer.ts';
import type { FlowFinding } from '../finding.ts';
import { coolantFindings } from './coolant-findings.ts';
import { withWaterCures } from './coolant-cures.ts';
import { type CoolantState, coolantState } from './coolant-state.ts';
import { coolantHeights } from './heights.ts';
import { heightsFindings } from './heights-findings.ts';
import { guarded, type Refused } from '../refused.ts';

/** Findings told once, of the case in which they are worst: they name what is laid out, not what is done. */
const WORST_ONLY: ReadonlySet<string> = new Set(['bleed-flow', 'water-speed', 'pump-pulls']);

/** A water circuit in all cases. */
export interface CoolantCases {
  readonly states: readonly (CircuitState | { readonly at: Case; readonly refused: Refused })[];
  /** Null where they could not be worked out; `refused` says why. */
  readonly heights: CoolantHeights | null;
  readonly findings: readonly FlowFinding[];
  readonly refused?: Refused;
}

/** Works a water circuit out in every case, its heights once, with cures for what is worst. */
export function coolantCases(
  ready: ReadyCircuit,
  cases: readonly Case[],
  shelf: Catalogue,
  goesOn: () => boolean,
  every: readonly Case[] = cases,
): CoolantCases {
  const solved: (CoolantState | { readonly at: Case; readonly refused: Refused })[] = [];
  for (const at of cases) {
    if (!goesOn()) break;
    const state = guarded(() => coolantState(ready, at));
    solved.push('why' in state ? { at, refused: state } : state);
  }
  const found = solved.map((state) => ('refused' in state ? [] : coolantFindings(ready, state)));
  const kept = worstOnly(found);
  const states = solved.map((state, i) => {
    if ('refused' in state) return state;
    const findings = kept[i]!.map((row) => withWaterCures(row, state.asked.at, state, { ready, shelf }));
    return circuitState(ready, state, [...unsettledTees(ready, state.asked.at, state.flow.teesOffPa), ...findings]);
  });
  const hot = hotAtRest(every);
  const heights = guarded(() => coolantHeights(ready, hot));
  return 'why' in heights
    ? { states, heights: null, findings: [], refused: heights }
    : {
        states,
        heights,
        findings: heightsFindings(heights, { ready, shelf, hot, idle: idleOf(every), fastest: fastestOf(every) }),
      };
}

function circuitState(ready: ReadyCircuit, state: CoolantState, findings: readonly FlowFinding[]): CircuitState {
  const { asked, flow, gasPa, answer } = state;
  return {
    circuit: ready.drawn.circuit.id,
    case: asked.at,
    temperatureC: asked.temperatureC,
    fluid: asked.fluid,
    pull: asked.pull,
    lines: flow.lines,
    passages: flow.passages,
    pumps: flow.pumps,
    vessels: vesselFlows(ready, asked, gasPa),
    coolant: answer,
    findings,
  };
}

/** Of like findings about one line, that which lies furthest past its limit. */
function worstOnly(found: readonly (readonly FlowFinding[])[]): FlowFinding[][] {
  const past = ({ value = 0, limit = 0 }: FlowFinding): number => Math.abs(value - limit);
  const worst = new Map<string, FlowFinding>();
  const keyOf = ({ code, line, part }: FlowFinding): string => `${code} ${line ?? part ?? ''}`;
  for (const row of found.flat()) {
    const seen = worst.get(keyOf(row));
    if (WORST_ONLY.has(row.code) && (seen === undefined || past(row) > past(seen))) worst.set(keyOf(row), row);
  }
  return found.map((rows) => rows.filter((row) => !WORST_ONLY.has(row.code) || worst.get(keyOf(row)) === row));
}

/** Where the pump turns fastest with the water warm. */
function fastestOf(cases: readonly Case[]): Case | undefined {
  return cases.filter(({ engineRpm }) => engineRpm > 0).toSorted((a, b) => b.engineRpm - a.engineRpm)[0];
}

const HOT_C = 70;

/** The engine just switched off, hot: as a case says, or as the hottest leaves it. */
function hotAtRest(cases: readonly Case[]): Case | undefined {
  const hot = cases.filter(({ coolantC }) => coolantC !== undefined && coolantC >= HOT_C);
  const hottest = hot.toSorted((a, b) => b.coolantC! - a.coolantC!)[0];
  const rest = hot.find(({ engineRpm }) => engineRpm === 0);
  if (rest !== undefined) return rest;
  if (hottest === undefined) return undefined;
  const { g: _, heatToWaterKw: __, ...still } = hottest;
  return { ...still, id: 'just-off', name: 'Just switched off', engineRpm: 0 };
}

/** Colder than this an engine is not idled out [C]. */
const WARM_C = 60;

/** The slowest that the engine runs, warm. */
const idleOf = (cases: readonly Case[]): Case | undefined =>
  cases
    .filter(({ engineRpm, coolantC = 0 }) => engineRpm > 0 && coolantC >= WARM_C)
    .toSorted((a, b) => a.engineRpm - b.engineRpm)[0];
