import type { CaseOf, ReadyCircuit } from '../circuit/circuit-state.ts';
import type { Element } from '../circuit/elements.ts';
import type { LineFlow, StageFlow, ThroughFlow } from '../circuit/flow-answer.ts';
import { lineFlow } from '../circuit/line-flow.ts';
import { liquidNet } from '../circuit/liquid-net.ts';
import type { ScavengeReturn, ScavengeStage } from '../circuit/sorted-elements.ts';
import { findPort } from '#car';
import type { FluidState } from '../fluids/fluid-state.ts';
import { settledTees } from '../circuit/settled-tees.ts';
import type { SettledNetwork } from '../network/solve-network.ts';
import { froth, type Froth, OUTSIDE_PA } from './froth.ts';

/** The scavenge side in one case. */
export interface ScavengeFlow {
  readonly stages: readonly StageFlow[];
  readonly lines: readonly LineFlow[];
  readonly passages: readonly ThroughFlow[];
  /** Air carried into each vessel, at the pressure in it [m3/s]. */
  readonly airInto: ReadonlyMap<string, number>;
  readonly airOutOf: ReadonlyMap<string, number>;
  readonly oilInto: ReadonlyMap<string, number>;
  /** What could not be solved, in a line each. */
  readonly faults: readonly { readonly why: string; readonly where: readonly string[] }[];
}

/** A pump cannot pull the last tenth of an atmosphere: oil gives off air and vapour. From memory. */
const DEEPEST_PA = -0.9 * OUTSIDE_PA;
const ROUNDS = 6;
/** A round that moves the pressure by less settles it [Pa]. */
const SETTLED_PA = 0.01;

/** Answers of the parts so far, to begin the next like one from; kept within one state, so that no state hangs on another. */
export type Starts = Map<readonly Element[], SettledNetwork>;

/** Works the scavenge side out: oil that comes into each pan and pot is shared by its stages, air fills what they sweep. */
export function scavengeFlow(
  ready: ReadyCircuit,
  asked: CaseOf,
  oilInto: (vessel: string) => number,
  gasPa: (vessel: string) => number,
  { starts, isLast }: { readonly starts: Starts; readonly isLast: boolean } = { starts: new Map(), isLast: true },
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
  const sink: Sink = { ...out, starts, isLast };
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
  return out;
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
  readonly starts: Starts;
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
  let inletPa = gas;
  let mix: Froth = froth(asked.fluid, asked.temperatureC, carried, airM3S, OUTSIDE_PA + gas);
  let solved: Solved | null = null;
  if (sweptM3S > 0 && stage.suction.length > 0) {
    for (let round = 0; round < ROUNDS; round++) {
      solved = pull(mix.fluid);
      const was = inletPa;
      inletPa = Math.max(DEEPEST_PA, solved?.pressureAt(stage.pump.from) ?? gas);
      mix = froth(asked.fluid, asked.temperatureC, carried, airM3S, OUTSIDE_PA + (inletPa + gas) / 2);
      if (round > 0 && Math.abs(inletPa - was) < SETTLED_PA) break;
    }
  }
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
  let meanPa = gas;
  let outletPa = gas;
  let solved: Solved | null = null;
  let voidShare = 0;
  if (oilM3S + freeM3S > 0 && back.elements.length > 0) {
    for (let round = 0; round < ROUNDS; round++) {
      const absPa = OUTSIDE_PA + meanPa;
      const airM3S = (freeM3S * OUTSIDE_PA) / absPa;
      const mix = froth(asked.fluid, asked.temperatureC, oilM3S, airM3S, absPa);
      voidShare = mix.voidShare;
      const inflow = new Map([[joint, oilM3S + airM3S]]);
      solved = solvedPart(ready, { ...asked, fluid: mix.fluid }, back.elements, gasPa, inflow, out);
      const was = outletPa;
      outletPa = solved?.pressureAt(joint) ?? gas;
      meanPa = (outletPa + gas) / 2;
      if (round > 0 && Math.abs(outletPa - was) < SETTLED_PA) break;
    }
  }
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
  const { answer, losses } = settledTees(net.network, ready.tees.tees, asked.fluid, warm);
  if (!answer.ok) {
    if (!out.faults.some(({ why }) => why === answer.why)) out.faults.push({ why: answer.why, where: answer.where });
    return null;
  }
  out.starts.set(elements, answer);
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
