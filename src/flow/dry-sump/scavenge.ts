import type { CaseOf, ReadyCircuit } from '../circuit/circuit-state.ts';
import type { Element } from '../circuit/elements.ts';
import type { LineFlow, StageFlow, ThroughFlow } from '../circuit/flow-answer.ts';
import { lineFlow } from '../circuit/line-flow.ts';
import { liquidNet } from '../circuit/liquid-net.ts';
import type { ScavengeReturn, ScavengeStage } from '../circuit/sorted-elements.ts';
import { findPort } from '#car';
import type { FluidState } from '../fluids/fluid-state.ts';
import { settledTees } from '../circuit/settled-tees.ts';
import type { NetworkLayout } from '../network/network-layout.ts';
import type { SettledNetwork } from '../network/solve-network.ts';
import { froth, type Froth, OUTSIDE_PA } from './froth.ts';
import { settledPoint } from './settled-point.ts';

/** The scavenge side in one case. */
export interface ScavengeFlow {
  readonly stages: readonly StageFlow[];
  readonly lines: readonly LineFlow[];
  readonly passages: readonly ThroughFlow[];
  /** Air carried into each vessel, at the pressure in it [m3/s]. */
  readonly airInto: ReadonlyMap<string, number>;
  readonly airOutOf: ReadonlyMap<string, number>;
  readonly oilInto: ReadonlyMap<string, number>;
  /** How far a tee of a suction or return is from its loss at the split found, at most [Pa]. */
  readonly teesOffPa: number;
  /** What could not be solved, in a line each. */
  readonly faults: readonly { readonly why: string; readonly where: readonly string[] }[];
}

/** A pump cannot pull the last tenth of an atmosphere: oil gives off air and vapour. From memory. */
const DEEPEST_PA = -0.9 * OUTSIDE_PA;
/** Pressures of froth are as well known as makes a difference [Pa]. */
const SETTLED_PA = 0.01;
/** Further off than this it is said [Pa]. */
const UNSETTLED_PA = 100;
/** No return backs up further [Pa]. */
const MOST_BACK_PA = 5e7;

const unsettled = (words: string, offPa: number): { why: string; where: readonly string[] } => ({
  why: `${words}: the pressure of its froth does not settle, it is known to ${(offPa / 1000).toFixed(1)} kPa only`,
  where: [],
});

/** Answers of the parts so far, to begin the next like one from; kept within one state, so that no state hangs on another. */
export interface Starts {
  readonly answers: Map<readonly Element[], SettledNetwork>;
  /** Pressure at a stage's inlet, and behind the stages of a return [Pa]. */
  readonly inlets: Map<ScavengeStage | ScavengeReturn, number>;
}

export const noStarts = (): Starts => ({ answers: new Map(), inlets: new Map() });

/** Works the scavenge side out: oil that comes into each pan and pot is shared by its stages, air fills what they sweep. */
export function scavengeFlow(
  ready: ReadyCircuit,
  asked: CaseOf,
  oilInto: (vessel: string) => number,
  gasPa: (vessel: string) => number,
  { starts, isLast }: { readonly starts: Starts; readonly isLast: boolean } = { starts: noStarts(), isLast: true },
): ScavengeFlow {
  const out = {
    stages: [] as StageFlow[],
    lines: [] as LineFlow[],
    passages: [] as ThroughFlow[],
    airInto: new Map<string, number>(),
    airOutOf: new Map<string, number>(),
    oilInto: new Map<string, number>(),
    faults: [] as { why: string; where: readonly string[] }[],
  };
  const teesOff = new Map<readonly Element[], number>();
  const sink: Sink = { ...out, starts: starts.answers, inlets: starts.inlets, teesOff, isLast };
  const all = ready.sorted.scavenge.flatMap(({ stages }) => stages);
  for (const back of ready.sorted.scavenge) {
    const stages = back.stages.map((stage) => {
      const sweptHere = all
        .filter(({ drains }) => drains === stage.drains)
        .reduce((sum, row) => sum + sweptBy(row, asked), 0);
      const share = sweptHere > 0 ? sweptBy(stage, asked) / sweptHere : 0;
      return suction(ready, asked, stage, share * Math.max(0, oilInto(stage.drains)), gasPa, sink);
    });
    returned(ready, asked, back, stages, gasPa, sink);
  }
  return { ...out, teesOffPa: Math.max(0, ...teesOff.values()) };
}

const sweptBy = ({ pump }: ScavengeStage, { at }: CaseOf): number =>
  ((pump.pump?.displacementCcRev ?? 0) * 1e-6 * (pump.pump?.driveRatio ?? 0) * at.engineRpm) / 60;

interface Sink {
  readonly lines: LineFlow[];
  readonly passages: ThroughFlow[];
  readonly stages: StageFlow[];
  readonly airInto: Map<string, number>;
  readonly airOutOf: Map<string, number>;
  readonly oilInto: Map<string, number>;
  readonly faults: { why: string; where: readonly string[] }[];
  readonly starts: Starts['answers'];
  readonly inlets: Starts['inlets'];
  /** By part, at its last solving [Pa]. */
  readonly teesOff: Map<readonly Element[], number>;
  /** Of the rounds with the gas: only what the last one says is told, with its spread. */
  readonly isLast: boolean;
}

/** A stage before its return is known. */
type HalfStage = Omit<StageFlow, 'outletPa'>;

function suction(
  ready: ReadyCircuit,
  asked: CaseOf,
  stage: ScavengeStage,
  oilM3S: number,
  gasPa: (vessel: string) => number,
  out: Sink,
): HalfStage {
  const sweptM3S = sweptBy(stage, asked);
  const carried = Math.min(oilM3S, sweptM3S);
  const airM3S = sweptM3S - carried;
  const gas = gasPa(stage.drains);
  const pull = (fluid: FluidState): Solved | null => {
    const inflow = new Map([[ready.drawn.joints.of(stage.pump.from), -sweptM3S]]);
    return solvedPart(ready, { ...asked, fluid }, stage.suction, gasPa, inflow, out);
  };
  const mixAt = (pa: number): Froth =>
    froth(asked.fluid, asked.temperatureC, carried, airM3S, OUTSIDE_PA + (pa + gas) / 2);
  const draws = sweptM3S > 0 && stage.suction.length > 0;
  const point = draws
    ? settledPoint(out.inlets.get(stage) ?? gas, [DEEPEST_PA, gas + OUTSIDE_PA], SETTLED_PA, (pa) => {
        const solved = pull(mixAt(pa).fluid);
        return { gives: Math.max(DEEPEST_PA, solved?.pressureAt(stage.pump.from) ?? gas), with: solved };
      })
    : { at: gas, with: null, off: 0 };
  const { at: inletPa, with: solved } = point;
  out.inlets.set(stage, inletPa);
  if (out.isLast && point.off > UNSETTLED_PA) out.faults.push(unsettled(stage.pump.words, point.off));
  const mix = mixAt(inletPa);
  const edge = (fluid: FluidState): number =>
    solved === null || !out.isLast
      ? inletPa
      : Math.max(DEEPEST_PA, pull(fluid)?.pressureAt(stage.pump.from) ?? inletPa);
  if (out.isLast) solved?.report(out, 'oil and air', mix.voidShare);
  out.airOutOf.set(
    stage.drains,
    (out.airOutOf.get(stage.drains) ?? 0) + (airM3S * (OUTSIDE_PA + inletPa)) / (OUTSIDE_PA + gas),
  );
  const edges = [edge(mix.thickest), edge(mix.thinnest)].toSorted((a, b) => a - b);
  return {
    id: stage.pump.id,
    words: stage.pump.words,
    drains: stage.drains,
    sweptM3S,
    oilM3S: carried,
    airM3S,
    voidShare: mix.voidShare,
    inletPa,
    inletSpreadPa: [Math.min(edges[0]!, inletPa), Math.max(edges[1]!, inletPa)],
    leftM3S: oilM3S - carried,
    starved: inletPa <= DEEPEST_PA,
  };
}

function returned(
  ready: ReadyCircuit,
  asked: CaseOf,
  back: ScavengeReturn,
  stages: readonly HalfStage[],
  gasPa: (vessel: string) => number,
  out: Sink,
): void {
  const gas = back.to === undefined ? 0 : gasPa(back.to);
  const oilM3S = stages.reduce((sum, row) => sum + row.oilM3S, 0);
  /** Air at the outside's pressure, by mass the same all the way. */
  const freeM3S = stages.reduce((sum, row) => sum + (row.airM3S * (OUTSIDE_PA + row.inletPa)) / OUTSIDE_PA, 0);
  const joint = back.stages[0] === undefined ? '' : ready.drawn.joints.of(back.stages[0].pump.to);
  const flows = oilM3S + freeM3S > 0 && back.elements.length > 0;
  const point = flows
    ? settledPoint(out.inlets.get(back) ?? gas, [gas - OUTSIDE_PA, gas + MOST_BACK_PA], SETTLED_PA, (pa) => {
        const absPa = OUTSIDE_PA + (pa + gas) / 2;
        const airM3S = (freeM3S * OUTSIDE_PA) / absPa;
        const mix = froth(asked.fluid, asked.temperatureC, oilM3S, airM3S, absPa);
        const inflow = new Map([[joint, oilM3S + airM3S]]);
        const found = solvedPart(ready, { ...asked, fluid: mix.fluid }, back.elements, gasPa, inflow, out);
        return { gives: found?.pressureAt(joint) ?? gas, with: { found, voidShare: mix.voidShare } };
      })
    : { at: gas, with: { found: null, voidShare: 0 }, off: 0 };
  const outletPa = point.at;
  const { found: solved, voidShare } = point.with;
  out.inlets.set(back, outletPa);
  if (out.isLast && point.off > UNSETTLED_PA)
    out.faults.push(unsettled(`the return of ${back.stages[0]!.pump.words}`, point.off));
  if (out.isLast) solved?.report(out, 'oil and air', voidShare);
  for (const row of stages) out.stages.push({ ...row, outletPa });
  if (back.to !== undefined) {
    out.airInto.set(back.to, (out.airInto.get(back.to) ?? 0) + (freeM3S * OUTSIDE_PA) / (OUTSIDE_PA + gas));
    out.oilInto.set(back.to, (out.oilInto.get(back.to) ?? 0) + oilM3S);
  }
}

interface Solved {
  readonly pressureAt: (spot: string) => number;
  readonly report: (out: Sink, carries: LineFlow['carries'], voidShare: number) => void;
}

/** How a part's network is laid out hangs on its elements alone. */
const layouts = new WeakMap<readonly Element[], NetworkLayout>();

/** A suction or return side alone, by the same network of pressures as the liquid. */
function solvedPart(
  ready: ReadyCircuit,
  asked: CaseOf,
  elements: readonly Element[],
  gasPa: (vessel: string) => number,
  inflowM3S: ReadonlyMap<string, number>,
  out: Sink,
): Solved | null {
  const { car, drawn } = ready;
  const net = liquidNet({ car, drawn, elements, gasPa, inflowM3S, ...asked });
  const warm = out.starts.get(elements);
  const { answer, losses, offPa } = settledTees(net.network, ready.tees.tees, asked.fluid, warm, layouts.get(elements));
  if (!answer.ok) {
    if (!out.faults.some(({ why }) => why === answer.why)) out.faults.push({ why: answer.why, where: answer.where });
    return null;
  }
  out.starts.set(elements, answer);
  layouts.set(elements, answer.layout);
  out.teesOff.set(elements, offPa);
  const at = new Map(net.network.nodes.map(({ id }, i) => [id, answer.pressurePa[i]!]));
  const head = (spot: string): number => {
    const place = findPort(car, spot)?.port.atMm;
    return place === undefined ? 0 : net.headPa(place);
  };
  const pressureAt = (spot: string): number => (at.get(drawn.joints.of(spot)) ?? 0) - head(spot);
  return {
    pressureAt,
    report: (sink, carries, voidShare) =>
      elements.forEach((element, i) => {
        const branch = net.network.branches[i]!;
        const ends = {
          fromPa: at.get(branch.from)! - head(element.from),
          toPa: at.get(branch.to)! - head(element.to),
        };
        const flowM3S = answer.flowM3S[i]!;
        if (element.kind === 'line')
          sink.lines.push({
            ...lineFlow(element, asked.fluid, flowM3S, ends, carries, losses.get(element.id)),
            voidShare,
          });
        else sink.passages.push({ id: element.id, words: element.words, flowM3S, dropPa: answer.dropPa[i]!, ...ends });
      }),
  };
}
