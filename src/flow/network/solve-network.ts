import { lawWatch } from './law-watch.ts';
import { type Network, type RefusedNetwork, refusal, someNames } from './network.ts';
import { isLaidOutAs, type NetworkLayout, networkLayout } from './network-layout.ts';
import { type ContentState, LEAST_FLOW_M3S, LEAST_PA, settled } from './settle.kernel.ts';
import type { ConductanceSystem } from './sparse-factor.kernel.ts';
import { treeBalance } from './tree-balance.kernel.ts';

const GRAVITY_M_S2 = 9.80665;
const MOST_ITERATIONS = 400;
/** Inflows of a part without fixed pressure add up to nothing when they do to this share of their size. */
const SUM_ROUNDING = 1e-12;
/** Promised balance at every node, as a share of the largest flow. */
const BALANCE_SHARE = 1e-9;
/** Promised fit of losses and pressures, as a share of the largest pressure difference, beyond rounding of flows. */
const FIT_SHARE = 1e-6;
/** Laws are looked at over their own flow, and this share of the largest in the net either way. */
const LOOKED_AT_SHARE = 0.01;
const ROUNDING = 2 ** -52;

/** How to solve. */
export interface NetworkOptions {
  /** An answer to a like network: its flows are the start, and its layout is used again where names and ends are the same. */
  readonly warm?: SettledNetwork;
  /** The layout of a like network: used again where names and ends are the same, the start being plain. */
  readonly layout?: NetworkLayout;
  /** Counted effort; 400 unless told. */
  readonly mostIterations?: number;
  /** Solves the steps' equations another way than the layout's own sparse factor: a bench's rival. */
  readonly system?: (layout: NetworkLayout) => ConductanceSystem;
}

/** Flows and pressures of a network; arrays stand in the order of its branches and nodes. */
export interface SettledNetwork {
  readonly ok: true;
  /** Positive from a branch's `from` to its `to`. */
  readonly flowM3S: Float64Array;
  /** At each node; above the same zero as the fixed ones. */
  readonly pressurePa: Float64Array;
  /** What each branch's law loses at its flow; without head and height. */
  readonly dropPa: Float64Array;
  /** Largest of all nodes: what comes in less what goes out. */
  readonly imbalanceM3S: number;
  /** Largest of all branches: loss, head and height less the difference of the pressures at its ends. */
  readonly misfitPa: number;
  readonly iterations: number;
  /** Times that all laws were asked. */
  readonly evaluations: number;
  /** Nodes with one branch and no inflow: nothing flows there. */
  readonly deadEnds: readonly string[];
  /** Nodes that stand for 0 Pa in a part without any fixed pressure. */
  readonly zeroPa: readonly string[];
  readonly layout: NetworkLayout;
}

/** Flows and pressures, or why there are none. */
export type NetworkAnswer = SettledNetwork | RefusedNetwork;

function numberFault(network: Network): RefusedNetwork | undefined {
  const bad = (what: string, name: string, x: number, id: string): RefusedNetwork =>
    refusal('input', `${what} "${id}": ${name} is ${x}; allowed: a number`, [id]);
  const withHeight = network.nodes.filter((node) => node.heightM !== undefined);
  for (const node of network.nodes) {
    for (const name of ['fixedPa', 'inflowM3S', 'heightM'] as const) {
      const x = node[name];
      if (x !== undefined && !Number.isFinite(x)) return bad('node', name, x, node.id);
    }
    if (node.fixedPa !== undefined && node.inflowM3S !== undefined)
      return refusal('input', `node "${node.id}": fixedPa and inflowM3S; allowed: one of them`, [node.id]);
    if (withHeight.length > 0 && node.heightM === undefined)
      return refusal('input', `node "${node.id}": no heightM; allowed: a height at every node, or at none`, [node.id]);
  }
  for (const branch of network.branches) {
    const x = branch.headPa;
    if (x !== undefined && !Number.isFinite(x)) return bad('branch', 'headPa', x, branch.id);
  }
  const rho = network.densityKgM3;
  if (withHeight.length > 0 && !(rho !== undefined && rho >= 0 && rho < Infinity))
    return refusal('input', `heights are given and densityKgM3 is ${rho ?? 'not'}; allowed: 0 or more`, [
      withHeight[0]!.id,
    ]);
  return undefined;
}

function unbalancedPart(network: Network, layout: NetworkLayout): RefusedNetwork | undefined {
  for (const part of layout.adrift) {
    let sum = 0;
    let size = 0;
    for (const n of part) {
      sum += network.nodes[n]!.inflowM3S ?? 0;
      size += Math.abs(network.nodes[n]!.inflowM3S ?? 0);
    }
    if (Math.abs(sum) <= SUM_ROUNDING * size) continue;
    const names = part.map((n) => layout.nodeIds[n]!);
    return refusal(
      'unbalanced',
      `nodes ${someNames(names)} hang on no fixed pressure, and ${Number(sum.toPrecision(4))} m3/s more comes in than goes out; allowed: a fixed pressure, or inflows that add up to 0`,
      names,
    );
  }
  return undefined;
}

/** Column of fluid less head, by branch. */
function addedPressures(network: Network, layout: NetworkLayout): Float64Array {
  const weight = (network.densityKgM3 ?? 0) * GRAVITY_M_S2;
  return Float64Array.from(network.branches, (branch, b) => {
    const up = (network.nodes[layout.toNode[b]!]!.heightM ?? 0) - (network.nodes[layout.fromNode[b]!]!.heightM ?? 0);
    return weight * up - (branch.headPa ?? 0);
  });
}

function largestImbalance(network: Network, layout: NetworkLayout, flow: Float64Array): number {
  const over = Float64Array.from(network.nodes, (node) => node.inflowM3S ?? 0);
  for (let b = 0; b < flow.length; b++) {
    over[layout.fromNode[b]!]! -= flow[b]!;
    over[layout.toNode[b]!]! += flow[b]!;
  }
  return over.reduce((most, x, n) => (layout.isFixed[n] ? most : Math.max(most, Math.abs(x))), 0);
}

/** Largest misfit of losses and pressures, and the branch where it is more than flows can be told apart. */
function misfits(layout: NetworkLayout, added: Float64Array, state: ContentState): { most: number; worst: number } {
  const { flow, drop, slope, pressure } = state;
  let most = 0;
  let worst = -1;
  let largestPa = LEAST_PA;
  const largestFlow = flow.reduce((a, q) => Math.max(a, Math.abs(q)), 0);
  const off = flow.map((_, b) => {
    const across = pressure[layout.fromNode[b]!]! - pressure[layout.toNode[b]!]!;
    largestPa = Math.max(largestPa, Math.abs(across), Math.abs(added[b]!));
    return Math.abs(drop[b]! + added[b]! - across);
  });
  for (let b = 0; b < off.length; b++) {
    most = Math.max(most, off[b]!);
    const levels = Math.abs(pressure[layout.fromNode[b]!]!) + Math.abs(pressure[layout.toNode[b]!]!);
    const rounding = 64 * ROUNDING * (slope[b]! * largestFlow + Math.abs(drop[b]!) + levels);
    if (off[b]! > FIT_SHARE * largestPa + rounding) worst = b;
  }
  return { most, worst };
}

function startOf(network: Network, layout: NetworkLayout, warm: SettledNetwork | undefined): ContentState {
  const count = network.branches.length;
  const isWarm = warm !== undefined && layout === warm.layout;
  return {
    flow: isWarm ? warm.flowM3S.slice() : new Float64Array(count),
    pressure: Float64Array.from(network.nodes, (node, n) => node.fixedPa ?? (isWarm ? warm.pressurePa[n]! : 0)),
    drop: new Float64Array(count),
    slope: new Float64Array(count),
  };
}

/**
 * Flows and pressures of a network of any shape: the balanced flows with the least content (the sum over all branches of
 * the loss integrated over flow, less what heads, heights and fixed pressures put in). The content is convex where every
 * loss rises with flow; then there is one answer, the same from every start. It settles or says why not.
 *
 * After millar-1951-content, todini-1988-gradient in the bibliography.
 */
export function solveNetwork(network: Network, options: NetworkOptions = {}): NetworkAnswer {
  const fault = numberFault(network);
  if (fault !== undefined) return fault;
  const { warm } = options;
  const layout =
    [warm?.layout, options.layout].find((row) => row !== undefined && isLaidOutAs(row, network)) ??
    networkLayout(network);
  if ('ok' in layout) return layout;
  const unbalanced = unbalancedPart(network, layout);
  if (unbalanced !== undefined) return unbalanced;

  const watch = lawWatch(
    layout.branchIds,
    network.branches.map((branch) => branch.law),
  );
  const addedPa = addedPressures(network, layout);
  const inflowM3S = Float64Array.from(layout.freeNodes, (n) => network.nodes[n]!.inflowM3S ?? 0);
  const state = startOf(network, layout, warm);
  // Slopes where the start stands: they choose the tree that balances it.
  if (!watch.lossesAt(state.flow, state.drop, state.slope, false)) return watch.refused!;
  const search = settled(
    {
      layout,
      system: options.system?.(layout) ?? layout.system,
      watch,
      addedPa,
      inflowM3S,
      mostIterations: options.mostIterations ?? MOST_ITERATIONS,
    },
    state,
  );
  if (!search.ok) return search;
  treeBalance(layout)(inflowM3S, state.slope, state.flow);
  const largestFlow = state.flow.reduce((most, q) => Math.max(most, Math.abs(q)), 0);
  const leastFlow = Math.max(LEAST_FLOW_M3S, LOOKED_AT_SHARE * largestFlow);
  if (!watch.lossesAt(state.flow, state.drop, state.slope, false) || !watch.risesTo(state.flow, leastFlow))
    return watch.refused!;

  const imbalanceM3S = largestImbalance(network, layout, state.flow);
  const misfit = misfits(layout, addedPa, state);
  if (misfit.worst >= 0 || !(imbalanceM3S <= BALANCE_SHARE * largestFlow)) {
    const id = layout.branchIds[Math.max(0, misfit.worst)]!;
    return refusal('unsettled', `the losses are known too coarsely for an answer, at "${id}" the most`, [id]);
  }
  return {
    ok: true,
    flowM3S: state.flow,
    pressurePa: state.pressure,
    dropPa: state.drop,
    imbalanceM3S,
    misfitPa: misfit.most,
    iterations: search.iterations,
    evaluations: search.trials + 3,
    deadEnds: layout.deadEnds.filter((n) => !network.nodes[n]!.inflowM3S).map((n) => layout.nodeIds[n]!),
    zeroPa: layout.adrift.map((part) => layout.nodeIds[part[0]!]!),
    layout,
  };
}
