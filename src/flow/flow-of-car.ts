import type { Car, Case, Circuit } from '#car';
import type { TriangleMesh } from '#geometry';
import type { Catalogue } from '#standards';
import { type ReadyCircuit, readyCircuit, vesselFlows } from './circuit/circuit-state.ts';
import { drawnCircuit, type WaysByLine } from './circuit/drawn-circuit.ts';
import type { CircuitFlow, CircuitState, FlowAnswer } from './circuit/flow-answer.ts';
import { NO_WAY_HOLDS } from './circuit/line-run.ts';
import { pullG } from './circuit/pull.ts';
import { unsettledTees } from './circuit/unsettled-tees.ts';
import { coolantCases } from './coolant/coolant-case.ts';
import { withCures } from './dry-sump/dry-sump-cures.ts';
import { drySumpFindings } from './dry-sump/dry-sump-findings.ts';
import { drySumpLayout } from './dry-sump/dry-sump-layout.ts';
import { allLines, drySumpState } from './dry-sump/dry-sump-state.ts';
import { tankLayoutFindings } from './dry-sump/tank-findings.ts';
import { tanksInCase, tanksUnderG } from './dry-sump/tank-in-g.ts';
import { type FlowFinding, toldPlainly } from './finding.ts';
import { fuelCase } from './fuel/fuel-case.ts';
import { guarded, type Refused } from './refused.ts';

/** What the flow of a car is worked out from. */
export interface FlowAsk {
  readonly car: Car;
  readonly shelf: Catalogue;
  readonly ways: WaysByLine;
  readonly meshes: ReadonlyMap<string, TriangleMesh>;
  /** Only this case; absent: all of the car. */
  readonly caseId?: string;
  /** Only what a case does, or only what holds whatever the case; absent: both. */
  readonly part?: 'cases' | 'circuits';
  /** Told what is done; false stops. */
  readonly watch?: (done: number, total: number) => boolean;
}

/** Where a car states no case: hot and at a fair speed, marked as assumed. */
const ASSUMED_CASE: Case = {
  id: 'assumed',
  name: 'Assumed: hot, 5000 rpm',
  engineRpm: 5000,
  oilC: 100,
  coolantC: 95,
  airC: 25,
};

/** The cases that are asked of a car. */
export function casesOf(car: Car, caseId?: string): readonly Case[] {
  const cases = car.cases === undefined || car.cases.length === 0 ? [ASSUMED_CASE] : car.cases;
  return caseId === undefined ? cases : cases.filter(({ id }) => id === caseId);
}

/** Every circuit that flows, in every case. */
export function flowOfCar(ask: FlowAsk): FlowAnswer {
  const cases = ask.part === 'circuits' ? [] : casesOf(ask.car, ask.caseId);
  const circuits = (ask.car.circuits ?? []).filter(({ kind }) => kind !== 'other');
  const total = circuits.length * cases.length;
  let done = 0;
  const goesOn = () => ask.watch?.(done++, total) ?? true;
  return { circuits: circuits.map((circuit) => plainly(circuitFlow(ask, circuit, cases, goesOn))) };
}

const plainly = (flow: CircuitFlow): CircuitFlow => ({
  ...flow,
  states: flow.states.map((state) => ({ ...state, findings: state.findings.map(toldPlainly) })),
  findings: flow.findings.map(toldPlainly),
});

function circuitFlow(ask: FlowAsk, circuit: Circuit, cases: readonly Case[], goesOn: () => boolean): CircuitFlow {
  const ready = readyCircuit(ask.car, drawnCircuit(ask.car, ask.shelf, circuit, ask.ways), ask.meshes);
  if (circuit.kind === 'coolant') return coolantFlow(ask, ready, cases, goesOn);
  if (circuit.kind === 'fuel') return fuelFlow(ask, ready, cases, goesOn);
  const states: CircuitState[] = [];
  for (const at of cases) {
    if (!goesOn()) break;
    const state = guarded(() => drySumpCase(ask, ready, at));
    states.push('why' in state ? refusedCase(ready, at, state) : state);
  }
  const isWhole = ask.part !== 'cases';
  const tanks = isWhole ? tanksUnderG(ready, casesOf(ask.car)) : [];
  return {
    circuit: circuit.id,
    name: circuit.name ?? circuit.id,
    kind: circuit.kind,
    states,
    ...(tanks.length === 0 ? {} : { tanks }),
    findings: [
      ...ready.findings,
      ...assumedFindings(ready),
      ...(isWhole ? [...drySumpLayout(ready), ...tankLayoutFindings(ready, tanks, casesOf(ask.car))] : []),
    ],
  };
}

function coolantFlow(ask: FlowAsk, ready: ReadyCircuit, cases: readonly Case[], goesOn: () => boolean): CircuitFlow {
  const { circuit } = ready.drawn;
  const named = { circuit: circuit.id, name: circuit.name ?? circuit.id, kind: circuit.kind };
  const said = [...ready.findings, ...assumedFindings(ready)];
  const water = coolantCases(ready, cases, ask.shelf, goesOn, casesOf(ask.car));
  const states = water.states.map((state) =>
    'refused' in state ? refusedCase(ready, state.at, state.refused) : state,
  );
  const lacks = water.refused === undefined ? [] : faultFindings(ready, undefined, [water.refused]);
  return {
    ...named,
    states,
    ...(water.heights === null ? {} : { heights: water.heights }),
    findings: [...said, ...lacks, ...water.findings],
  };
}

function fuelFlow(ask: FlowAsk, ready: ReadyCircuit, cases: readonly Case[], goesOn: () => boolean): CircuitFlow {
  const { circuit } = ready.drawn;
  const states: CircuitState[] = [];
  let layout: readonly FlowFinding[] | undefined;
  for (const at of cases) {
    if (!goesOn()) break;
    const fuel = guarded(() => fuelCase({ ready, shelf: ask.shelf }, at));
    if ('why' in fuel) {
      states.push(refusedCase(ready, at, fuel));
      continue;
    }
    layout ??= fuel.layout;
    states.push(fuel.state);
  }
  return {
    circuit: circuit.id,
    name: circuit.name ?? circuit.id,
    kind: circuit.kind,
    states,
    findings: [...ready.findings, ...assumedFindings(ready), ...(layout ?? [])],
  };
}

/** What stands in for something not known yet is said once. */
function assumedFindings(ready: ReadyCircuit): FlowFinding[] {
  return ready.drawn.runs.flatMap(({ line, assumed }) =>
    assumed.map(
      (text): FlowFinding => ({
        circuit: ready.drawn.circuit.id,
        code: 'assumed-way',
        level: 'note',
        line,
        text,
        source: 'the car as it stands',
        cures: [],
        advice: [
          text.includes(NO_WAY_HOLDS)
            ? 'by which limits each of its ways fails stands with its ways: what cures those changes what it loses'
            : 'work its ways out and take one: its real bends and length then count',
        ],
      }),
    ),
  );
}

function drySumpCase(ask: FlowAsk, ready: ReadyCircuit, at: Case): CircuitState {
  const state = drySumpState(ready, at);
  if ('why' in state) return refusedCase(ready, at, state);
  const tanks = tanksInCase(ready, state);
  const findings = drySumpFindings(ready, state, tanks, ask.shelf).map((finding) =>
    withCures(finding, state, ready, ask.shelf),
  );
  const { temperatureC, fluid, pull } = state.asked;
  return {
    circuit: ready.drawn.circuit.id,
    case: at,
    temperatureC,
    fluid,
    pull,
    lines: allLines(state),
    passages: [...state.liquid.passages, ...state.scavenge.passages],
    pumps: state.liquid.pumps,
    vessels: vesselFlows(ready, state.asked, (vessel) => state.gas.gasPa.get(vessel) ?? 0),
    stages: state.scavenge.stages,
    tanks,
    findings: [
      ...faultFindings(ready, at, [...state.scavenge.faults, ...state.gas.faults]),
      ...unsettledTees(ready, at, Math.max(state.liquid.teesOffPa, state.scavenge.teesOffPa)),
      ...findings,
    ],
  };
}

function faultFindings(ready: ReadyCircuit, at: Case | undefined, faults: readonly Refused[]): FlowFinding[] {
  return faults.map(({ why, where }) => ({
    circuit: ready.drawn.circuit.id,
    ...(at === undefined ? {} : { case: at.id }),
    code: 'unsolved',
    level: 'stop',
    text: at === undefined ? why : `${at.name ?? at.id}: ${why}`,
    source: 'the circuit as drawn up',
    ...(where[0] === undefined || !ready.drawn.lines.has(where[0]) ? {} : { line: where[0] }),
    cures: [],
  }));
}

function refusedCase(ready: ReadyCircuit, at: Case, refused: Refused): CircuitState {
  return {
    circuit: ready.drawn.circuit.id,
    case: at,
    temperatureC: null,
    fluid: null,
    pull: pullG(at),
    lines: [],
    passages: [],
    pumps: [],
    vessels: [],
    findings: faultFindings(ready, at, [refused]),
  };
}
