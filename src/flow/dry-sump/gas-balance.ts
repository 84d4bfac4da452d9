import type { ReadyCircuit } from '../circuit/circuit-state.ts';
import { vesselFinder } from '../circuit/drawn-circuit.ts';
import type { Element } from '../circuit/elements.ts';
import type { LineFlow } from '../circuit/flow-answer.ts';
import { lineFlow } from '../circuit/line-flow.ts';
import type { FluidState } from '../fluids/fluid-state.ts';
import { fluidAt } from '../fluids/fluid-at.ts';
import type { FluidAnswer } from '../fluids/fluid-spec.ts';
import type { LossLaw } from '../network/loss-law.ts';
import type { NetworkLayout } from '../network/network-layout.ts';
import type { NetworkBranch, NetworkNode } from '../network/network.ts';
import { type SettledNetwork, solveNetwork } from '../network/solve-network.ts';
import { Joints } from '../circuit/joints.ts';

/** Gas over the oil: what comes into each vessel and where it goes. */
export interface GasBalance {
  /** Above the air outside [Pa], by vessel. */
  readonly gasPa: ReadonlyMap<string, number>;
  readonly lines: readonly LineFlow[];
  /** What leaves through the breather to the outside [m3/s]; below zero: the car draws air in there. */
  readonly outM3S: number;
  /** Vessels whose gas has no way to or from the outside, with what is pumped into them (below zero: out of them) [m3/s]. */
  readonly shut: readonly { readonly vessels: readonly string[]; readonly inflowM3S: number }[];
  readonly faults: readonly { readonly why: string; readonly where: readonly string[] }[];
  /** To begin a like one from; absent where it was refused. */
  readonly answer?: SettledNetwork;
}

/** Gas that is put into a vessel [m3/s]; taken out counts below zero. */
export type GasInflow = ReadonlyMap<string, number>;

const OUTSIDE = 'outside';
/** A vessel that stands open: its way out costs next to nothing at any flow met here [Pa per m3/s]. */
const OPEN_SLOPE = 1e3;

/** How the net of gas is laid out hangs on the circuit alone. */
const layouts = new WeakMap<ReadyCircuit, NetworkLayout>();

/** A case asks for the same air again and again; the same object lets laws made for it be kept. */
let last: { readonly temperatureC: number; readonly air: FluidAnswer } | undefined;

function airAt(temperatureC: number): FluidAnswer {
  if (last?.temperatureC !== temperatureC) last = { temperatureC, air: fluidAt({ kind: 'air' }, temperatureC) };
  return last.air;
}

/** Works out which way each vent flows, and the pressure over the oil. */
export function gasBalance(
  ready: ReadyCircuit,
  temperatureC: number,
  inflow: GasInflow,
  warm?: SettledNetwork,
): GasBalance {
  const { drawn, sorted } = ready;
  const air = airAt(temperatureC);
  if (!air.ok)
    return { gasPa: new Map(), lines: [], outM3S: 0, shut: [], faults: [{ why: air.faults.join('; '), where: [] }] };
  const vesselOf = vesselFinder(drawn);
  const groups = new Joints();
  for (const { from, to } of [...sorted.gas, ...sorted.drains]) groups.join(vesselOf(from) ?? from, vesselOf(to) ?? to);
  const ways = waysOut(ready);
  for (const { vessel } of ways) groups.join(OUTSIDE, vessel);
  const isOpen = (vessel: string): boolean => groups.of(vessel) === groups.of(OUTSIDE);
  const parts = drawn.vessels.map(({ vessel }) => vessel.part);
  const shut = shutGroups(
    parts.filter((part) => !isOpen(part)),
    groups,
    inflow,
  );
  const nodes = gasNodes(ready, isOpen, inflow);
  const carrying = sorted.gas.filter(
    ({ from, to }) => nodes.has(vesselOf(from) ?? '') && nodes.has(vesselOf(to) ?? ''),
  );
  const branches = gasBranches(ready, nodes, carrying, ways, air.state, temperatureC);
  const reached = new Set(branches.flatMap(({ from, to }) => [from, to]));
  const kept = [...nodes.values()].filter(({ id }) => reached.has(id));
  const layout = layouts.get(ready);
  const answer = solveNetwork(
    { nodes: kept, branches },
    { ...(warm === undefined ? {} : { warm }), ...(layout === undefined ? {} : { layout }) },
  );
  if (!answer.ok)
    return { gasPa: new Map(), lines: [], outM3S: 0, shut, faults: [{ why: answer.why, where: answer.where }] };
  layouts.set(ready, answer.layout);
  const gasPa = new Map(kept.map(({ id }, i) => [id, answer.pressurePa[i]!]));
  const lines = carrying.map((element, i) => {
    const ends = { fromPa: gasPa.get(branches[i]!.from) ?? 0, toPa: gasPa.get(branches[i]!.to) ?? 0 };
    return lineFlow(element, air.state, answer.flowM3S[i]!, ends, 'gas');
  });
  const outM3S = branches.reduce((sum, { to }, i) => sum + (to === OUTSIDE ? answer.flowM3S[i]! : 0), 0);
  return { gasPa, lines, outM3S, shut, faults: [], answer };
}

function gasNodes(
  ready: ReadyCircuit,
  isOpen: (vessel: string) => boolean,
  inflow: GasInflow,
): ReadonlyMap<string, NetworkNode> {
  const nodes = new Map<string, NetworkNode>([[OUTSIDE, { id: OUTSIDE, fixedPa: 0 }]]);
  for (const { vessel } of ready.drawn.vessels) {
    if (!isOpen(vessel.part)) continue;
    const held =
      vessel.pressureBar === undefined
        ? { inflowM3S: inflow.get(vessel.part) ?? 0 }
        : { fixedPa: vessel.pressureBar * 1e5 };
    nodes.set(vessel.part, { id: vessel.part, ...held });
  }
  return nodes;
}

function gasBranches(
  ready: ReadyCircuit,
  nodes: ReadonlyMap<string, NetworkNode>,
  carrying: readonly Element[],
  ways: readonly { readonly vessel: string; readonly law: LossLaw }[],
  air: FluidState,
  temperatureC: number,
): NetworkBranch[] {
  const vesselOf = vesselFinder(ready.drawn);
  return [
    ...carrying.map(
      (element): NetworkBranch => ({
        id: element.id,
        from: vesselOf(element.from)!,
        to: vesselOf(element.to)!,
        law: element.law(air, { id: '', engineRpm: 0 }, temperatureC),
      }),
    ),
    ...ready.sorted.drains.flatMap((element): NetworkBranch[] => {
      const [from, to] = [vesselOf(element.from), vesselOf(element.to)];
      const both = from !== undefined && to !== undefined && nodes.has(from) && nodes.has(to);
      // A drain runs part full: gas passes over the oil almost freely.
      return both ? [{ id: `${element.id} above the oil`, from, to, law: openLaw }] : [];
    }),
    ...ways.map(
      ({ vessel, law }): NetworkBranch => ({ id: `${vessel} to the outside`, from: vessel, to: OUTSIDE, law }),
    ),
  ];
}

const openLaw: LossLaw = (flowM3S) => ({ dropPa: OPEN_SLOPE * flowM3S, slope: OPEN_SLOPE });

/** Catch tanks breathe through their filter, housings and what is named outside stand open. */
function waysOut(ready: ReadyCircuit): { readonly vessel: string; readonly law: LossLaw }[] {
  const { breatherBar, breatherLMin } = ready.drawn.circuit;
  return ready.drawn.vessels.flatMap(({ vessel }) => {
    if (vessel.kind !== 'catch-tank' && vessel.kind !== 'outside') return [];
    const isFiltered = vessel.kind === 'catch-tank' && breatherBar !== undefined && breatherLMin !== undefined;
    return [{ vessel: vessel.part, law: isFiltered ? filterLaw(breatherBar * 1e5, breatherLMin / 60_000) : openLaw }];
  });
}

/** A filter by one measured point: a tenth of its drop there goes with the flow, the rest with its square. */
function filterLaw(pa: number, flowM3S: number): LossLaw {
  return (q) => {
    const x = q / flowM3S;
    return { dropPa: pa * (0.1 * x + 0.9 * x * Math.abs(x)), slope: (pa * (0.1 + 1.8 * Math.abs(x))) / flowM3S };
  };
}

function shutGroups(
  shut: readonly string[],
  groups: Joints,
  inflow: GasInflow,
): { readonly vessels: readonly string[]; readonly inflowM3S: number }[] {
  const byGroup = new Map<string, string[]>();
  for (const part of shut) byGroup.set(groups.of(part), [...(byGroup.get(groups.of(part)) ?? []), part]);
  return [...byGroup.values()].map((vessels) => ({
    vessels,
    inflowM3S: vessels.reduce((sum, part) => sum + (inflow.get(part) ?? 0), 0),
  }));
}
