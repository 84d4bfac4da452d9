import type { Car, Case, Fluid } from '#car';
import { findPort } from '#car';
import type { TriangleMesh, Vec } from '#geometry';
import type { FluidState } from '../fluids/fluid-state.ts';
import type { FlowFinding } from '../finding.ts';
import type { SettledNetwork } from '../network/solve-network.ts';
import { fluidOf, statesOf, temperatureIn, unfitFluid } from './circuit-fluid.ts';
import { type DrawnCircuit, vesselFinder } from './drawn-circuit.ts';
import { type Element, elementsOf } from './elements.ts';
import type { LineFlow, PumpFlow, ThroughFlow, VesselFlow } from './flow-answer.ts';
import { lineFlow } from './line-flow.ts';
import { burnOf, type LiquidAsk, type LiquidNet, liquidNet } from './liquid-net.ts';
import { pullG } from './pull.ts';
import { settledTees, type TeeLossesBy } from './settled-tees.ts';
import { type SortedElements, sortedElements } from './sorted-elements.ts';
import { type TeesOf, teesOf } from './tees.ts';
import { fillIn, type VesselInside, vesselInside, type VesselState, vesselState } from './vessel-state.ts';

/** A circuit ready to be asked in any case: what does not change with the case is worked out once. */
export interface ReadyCircuit {
  readonly car: Car;
  readonly drawn: DrawnCircuit;
  readonly fluid: Fluid | undefined;
  readonly elements: readonly Element[];
  readonly sorted: SortedElements;
  readonly tees: TeesOf;
  readonly insides: readonly VesselInside[];
  readonly findings: readonly FlowFinding[];
}

/** Gets a drawn circuit ready; what cannot be worked with is in its findings. */
export function readyCircuit(car: Car, drawn: DrawnCircuit, meshes: ReadonlyMap<string, TriangleMesh>): ReadyCircuit {
  const findings: FlowFinding[] = [...drawn.findings];
  const refuse = (text: string, about: { line?: string; part?: string } = {}) => {
    findings.push({
      circuit: drawn.circuit.id,
      code: 'circuit',
      level: 'stop',
      text,
      source: 'the circuit as drawn up',
      cures: [],
      ...about,
    });
  };
  const named = fluidOf(car, drawn.circuit);
  const unfit = named === undefined ? null : unfitFluid(drawn.circuit, named);
  const fluid = unfit === null ? named : undefined;
  if (unfit !== null) refuse(unfit);
  else if (fluid === undefined && drawn.circuit.kind !== 'other')
    refuse(
      `circuit ${drawn.circuit.id} has no fluid: ${drawn.circuit.fluid ?? 'none named'}; one of ${(car.fluids ?? []).map(({ id }) => id).join(', ') || 'none on the car'}`,
    );
  const made =
    fluid === undefined || fluid.other !== undefined ? { elements: [], faults: [] } : elementsOf(drawn, fluid);
  for (const { text, ...about } of made.faults) refuse(text, about);
  const insides = drawn.vessels.map((vessel) => vesselInside(vessel, meshes));
  for (const { fault, drawn: vessel } of insides)
    if (fault !== null && vessel.vessel.fillL !== undefined) refuse(fault, { part: vessel.part.id });
  const tees = teesOf(car, drawn, made.elements);
  for (const { joint, ends } of tees.crowded)
    findings.push({
      circuit: drawn.circuit.id,
      code: 'joint-of-many',
      level: 'note',
      text: `${ends} lines and ways meet at ${joint}: what they lose there is not reckoned (of three it is)`,
      source: 'tp-410',
      value: ends,
      part: joint.split('.')[0]!,
      cures: [],
      advice: ['two tees one behind the other, drawn as such, are reckoned; or the measured curve of the piece'],
    });
  return {
    car,
    drawn,
    fluid,
    elements: made.elements,
    sorted: sortedElements(drawn, made.elements),
    tees,
    insides,
    findings,
  };
}

/** The circuit drawn otherwise: lines, passages or pumps changed; its vessels stay as they are. */
export function redrawn(ready: ReadyCircuit, drawn: DrawnCircuit): ReadyCircuit {
  if (ready.fluid === undefined) return { ...ready, drawn };
  const { elements } = elementsOf(drawn, ready.fluid);
  return {
    ...ready,
    drawn,
    elements,
    sorted: sortedElements(drawn, elements),
    tees: teesOf(ready.car, drawn, elements),
  };
}

/** A case put to a circuit: fluid, pull and vessels. */
export interface CaseOf {
  readonly at: Case;
  readonly temperatureC: number;
  readonly fluid: FluidState;
  /** The fluid at its thickest, where it is known as a band only. */
  readonly thickest: FluidState;
  readonly pull: Vec;
  readonly vessels: ReadonlyMap<string, VesselState>;
}

/** The case as the circuit sees it, or in one line why it cannot be asked. */
export function caseOf(ready: ReadyCircuit, at: Case): CaseOf | string {
  if (ready.fluid === undefined) return `circuit ${ready.drawn.circuit.id} has no fluid that it can be worked with`;
  const { temperatureC } = temperatureIn(ready.drawn.circuit, at);
  const states = statesOf(ready.fluid, temperatureC);
  if (typeof states === 'string') return states;
  const pull = pullG(at);
  const bores = new Map<string, number>();
  for (const run of ready.drawn.runs) {
    bores.set(run.from, run.stretches[0]!.boreMm);
    bores.set(run.to, run.stretches.at(-1)!.boreMm);
  }
  const vessels = new Map(
    ready.insides.map((inside) => [inside.drawn.vessel.part, vesselState(inside, fillIn(inside, at), pull, bores)]),
  );
  return { at, temperatureC, fluid: states.state, thickest: states.thickest, pull, vessels };
}

/** Liquid flow of a circuit in a case, as far as it is liquid. */
export interface LiquidFlow {
  readonly lines: readonly LineFlow[];
  readonly passages: readonly ThroughFlow[];
  readonly pumps: readonly PumpFlow[];
  readonly answer: SettledNetwork;
  readonly net: LiquidNet;
  /** How far a leg of a tee is from its loss at the split found [Pa]. */
  readonly teesOffPa: number;
  /** Flow of each element [m3/s]. */
  readonly flowOf: ReadonlyMap<string, number>;
}

/** Solves the liquid part; a refusal comes back in one line with what it is about. */
export function liquidFlow(
  ready: ReadyCircuit,
  asked: CaseOf,
  gasPa: (vessel: string) => number,
  warm?: SettledNetwork,
): LiquidFlow | { readonly why: string; readonly where: readonly string[] } {
  const { drawn, sorted } = ready;
  const ask: LiquidAsk = {
    car: ready.car,
    drawn,
    elements: sorted.liquid,
    gasPa,
    inflowM3S: burnOf(drawn.circuit, drawn),
    ...asked,
  };
  const net = liquidNet(ask);
  const { answer, losses, offPa } = settledTees(net.network, ready.tees.tees, asked.fluid, warm);
  if (!answer.ok) return { why: answer.why, where: answer.where };
  const flows = flowsOf(ready, ask, net, answer, losses);
  // A line taken apart into its pieces is asked for by few: a case is solved some times over before it is told.
  let lines: LineFlow[] | undefined;
  return {
    ...flows,
    get lines() {
      return (lines ??= flows.lines());
    },
    answer,
    net,
    teesOffPa: offPa,
  };
}

function flowsOf(
  ready: ReadyCircuit,
  ask: LiquidAsk,
  net: LiquidNet,
  answer: SettledNetwork,
  tees: TeeLossesBy,
): Pick<LiquidFlow, 'passages' | 'pumps' | 'flowOf'> & { readonly lines: () => LineFlow[] } {
  const pressureAt = new Map(net.network.nodes.map(({ id }, i) => [id, answer.pressurePa[i]!]));
  const passages: ThroughFlow[] = [];
  const pumps: PumpFlow[] = [];
  const flowOf = new Map(ask.elements.map(({ id }, i) => [id, answer.flowM3S[i]!]));
  const endsOf = (element: Element, i: number): { readonly fromPa: number; readonly toPa: number } => {
    const branch = net.network.branches[i]!;
    return {
      fromPa: pressureAt.get(branch.from)! - placeHead(ready.car, net, element.from),
      toPa: pressureAt.get(branch.to)! - placeHead(ready.car, net, element.to),
    };
  };
  ask.elements.forEach((element, i) => {
    if (element.kind === 'line') return;
    const flowM3S = answer.flowM3S[i]!;
    const ends = endsOf(element, i);
    if (element.kind === 'passage')
      passages.push({ id: element.id, words: element.words, flowM3S, dropPa: answer.dropPa[i]!, ...ends });
    else if (element.kind === 'pump')
      pumps.push({
        id: element.id,
        words: element.words,
        flowM3S,
        dropPa: answer.dropPa[i]!,
        ...ends,
        ...sweptOf(element, ask.at),
        reliefM3S: flowOf.get(`${element.id} relief`) ?? 0,
      });
  });
  const lines = (): LineFlow[] =>
    ask.elements.flatMap((element, i) =>
      element.kind === 'line'
        ? [lineFlow(element, ask.fluid, answer.flowM3S[i]!, endsOf(element, i), 'liquid', tees.get(element.id))]
        : [],
    );
  return { lines, passages, pumps, flowOf };
}

const sweptOf = ({ pump }: Element, at: Case): { sweptM3S?: number } =>
  pump?.displacementCcRev === undefined || pump.driveRatio === undefined
    ? {}
    : { sweptM3S: (pump.displacementCcRev * 1e-6 * pump.driveRatio * at.engineRpm) / 60 };

const placeHead = (car: Car, net: LiquidNet, spot: string): number => {
  const place = findPort(car, spot)?.port.atMm;
  return place === undefined ? 0 : net.headPa(place);
};

/** How the vessels stand, for the answer. */
export function vesselFlows(ready: ReadyCircuit, asked: CaseOf, gasPa: (vessel: string) => number): VesselFlow[] {
  return ready.insides.map((inside): VesselFlow => {
    const { part, kind } = inside.drawn.vessel;
    const state = asked.vessels.get(part)!;
    return {
      part,
      kind,
      fillM3: state.fillM3,
      volumeM3: inside.tank?.volumeM3 ?? null,
      gasPa: gasPa(part),
      mouths: [...state.mouths].map(([port, { share, headMm }]) => ({ port, share, headMm })),
    };
  });
}

/** Liquid that comes into a vessel from the liquid part [m3/s]; what leaves it counts below zero. */
export function netInto(ready: ReadyCircuit, flow: LiquidFlow, vessel: string): number {
  const vesselOf = vesselFinder(ready.drawn);
  return ready.sorted.liquid.reduce((sum, { id, from, to }) => {
    const here = flow.flowOf.get(id) ?? 0;
    return sum + (vesselOf(to) === vessel ? here : 0) - (vesselOf(from) === vessel ? here : 0);
  }, 0);
}
