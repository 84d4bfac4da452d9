import { type Network, type RefusedNetwork, refusal, someNames } from './network.ts';
import { type ConductanceSystem, sparseConductances } from './sparse-factor.kernel.ts';

/** What does not change while only laws, pressures and inflows do: numbering, parts, the shape of the factor. */
export interface NetworkLayout {
  readonly nodeIds: readonly string[];
  readonly branchIds: readonly string[];
  readonly isFixed: readonly boolean[];
  /** By branch: position of its ends in `nodeIds`. */
  readonly fromNode: Int32Array;
  readonly toNode: Int32Array;
  /** By node: its number among the free ones; -1 where the pressure is fixed, or chosen. */
  readonly freeNumber: Int32Array;
  readonly freeNodes: Int32Array;
  /** By branch: free number of its ends. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** Parts without any fixed pressure: their nodes; the first by name stands for 0 Pa. */
  readonly adrift: readonly (readonly number[])[];
  /** Nodes with one branch only: nothing can pass there unless it is let in or out. */
  readonly deadEnds: readonly number[];
  readonly system: ConductanceSystem;
}

function positions(ids: readonly string[], what: string): Map<string, number> | RefusedNetwork {
  const byId = new Map<string, number>();
  for (const [n, id] of ids.entries()) {
    if (byId.has(id)) return refusal('input', `${what} "${id}": stands twice; allowed: once`, [id]);
    byId.set(id, n);
  }
  return byId;
}

function ends(network: Network): { fromNode: Int32Array; toNode: Int32Array } | RefusedNetwork {
  const byId = positions(
    network.nodes.map((node) => node.id),
    'node',
  );
  if (!(byId instanceof Map)) return byId;
  const fromNode = new Int32Array(network.branches.length);
  const toNode = new Int32Array(network.branches.length);
  for (const [b, branch] of network.branches.entries()) {
    for (const end of [branch.from, branch.to]) {
      if (!byId.has(end))
        return refusal('input', `branch "${branch.id}": ends at "${end}"; allowed: a node of the net`, [branch.id]);
    }
    if (branch.from === branch.to)
      return refusal('input', `branch "${branch.id}": both ends at "${branch.to}"; allowed: two nodes`, [branch.id]);
    fromNode[b] = byId.get(branch.from)!;
    toNode[b] = byId.get(branch.to)!;
  }
  const twice = positions(
    network.branches.map((branch) => branch.id),
    'branch',
  );
  return twice instanceof Map ? { fromNode, toNode } : twice;
}

/** By node, the part of the net that it belongs to, named by the part's first node. */
function partsOf(count: number, fromNode: Int32Array, toNode: Int32Array): Int32Array {
  const part = Int32Array.from({ length: count }, (_, n) => n);
  const root = (n: number): number => {
    let r = n;
    while (part[r] !== r) {
      part[r] = part[part[r]!]!;
      r = part[r]!;
    }
    return r;
  };
  for (let b = 0; b < fromNode.length; b++) {
    const i = root(fromNode[b]!);
    const j = root(toNode[b]!);
    part[Math.max(i, j)] = Math.min(i, j);
  }
  for (let n = 0; n < count; n++) part[n] = root(n);
  return part;
}

function partsAdrift(part: Int32Array, isFixed: readonly boolean[]): number[][] {
  const held = new Set<number>();
  for (const [n, fixed] of isFixed.entries()) if (fixed) held.add(part[n]!);
  const adrift = new Map<number, number[]>();
  for (let n = 0; n < part.length; n++) {
    if (held.has(part[n]!)) continue;
    const nodes = adrift.get(part[n]!);
    if (nodes === undefined) adrift.set(part[n]!, [n]);
    else nodes.push(n);
  }
  return [...adrift.values()];
}

function branchesAt(count: number, fromNode: Int32Array, toNode: Int32Array): Int32Array {
  const at = new Int32Array(count);
  for (const n of fromNode) at[n]!++;
  for (const n of toNode) at[n]!++;
  return at;
}

/** Checks how the network hangs together and lays it out; refuses names that clash, loose ends and lone nodes. */
export function networkLayout(network: Network): NetworkLayout | RefusedNetwork {
  const found = ends(network);
  if ('ok' in found) return found;
  const { fromNode, toNode } = found;
  const nodeIds = network.nodes.map((node) => node.id);
  const isFixed = network.nodes.map((node) => node.fixedPa !== undefined);
  const count = branchesAt(nodeIds.length, fromNode, toNode);
  const alone = nodeIds.filter((_, n) => count[n] === 0);
  if (alone.length > 0)
    return refusal('alone', `no branch reaches ${someNames(alone)}; allowed: one or more at each node`, alone);

  const adrift = partsAdrift(partsOf(nodeIds.length, fromNode, toNode), isFixed);
  const hasPressure = [...isFixed];
  for (const nodes of adrift) {
    nodes.sort((a, b) => (nodeIds[a]! < nodeIds[b]! ? -1 : 1));
    hasPressure[nodes[0]!] = true;
  }
  const freeNumber = new Int32Array(nodeIds.length).fill(-1);
  const freeNodes: number[] = [];
  for (const [n, known] of hasPressure.entries()) if (!known) freeNumber[n] = freeNodes.push(n) - 1;
  const from = fromNode.map((n) => freeNumber[n]!);
  const to = toNode.map((n) => freeNumber[n]!);
  return {
    nodeIds,
    branchIds: network.branches.map((branch) => branch.id),
    isFixed,
    fromNode,
    toNode,
    freeNumber,
    freeNodes: Int32Array.from(freeNodes),
    from,
    to,
    adrift,
    deadEnds: network.nodes.flatMap((_, n) => (count[n] === 1 && !isFixed[n] ? [n] : [])),
    system: sparseConductances(freeNodes.length, from, to),
  };
}

/** Whether the layout of one network serves another: the same names, ends and fixed nodes in the same order. */
export function isLaidOutAs(layout: NetworkLayout, network: Network): boolean {
  const { nodeIds, branchIds, isFixed, fromNode, toNode } = layout;
  return (
    nodeIds.length === network.nodes.length &&
    branchIds.length === network.branches.length &&
    network.nodes.every((node, n) => node.id === nodeIds[n] && (node.fixedPa !== undefined) === isFixed[n]) &&
    network.branches.every(
      (branch, b) =>
        branch.id === branchIds[b] && branch.from === nodeIds[fromNode[b]!] && branch.to === nodeIds[toNode[b]!],
    )
  );
}
