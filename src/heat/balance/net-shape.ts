import type { ThermalNet } from './thermal-net.ts';

/** Numbers of things by the node or block that they touch: those of `i` stand in `items` from `starts[i]` to `starts[i + 1]`. */
export interface Touching {
  readonly starts: Int32Array;
  readonly items: Int32Array;
}

/** Radiant pairs laid out one after the other: of pair p, group g (0 or 1) its nodes and weights from `starts[2 p + g]` on. */
interface FlatPairs {
  readonly k: Float64Array;
  readonly starts: Int32Array;
  readonly nodes: Int32Array;
  readonly weights: Float64Array;
}

/** What hangs on how a network is drawn, not on its temperatures: worked out once, shared by all moments of a run. */
export interface NetShape {
  readonly net: ThermalNet;
  readonly pairs: FlatPairs;
  /** What the radiation of each node leaves by [m2]. */
  readonly leaves: Float64Array;
  readonly blockOf: Int32Array;
  readonly linksOfNode: Touching;
  readonly filmsOfNode: Touching;
  readonly linksOf: readonly Int32Array[];
  readonly flowsOf: readonly Int32Array[];
  readonly filmsOf: readonly Int32Array[];
  /** Pairs whose two groups lie in one block that is solved whole. */
  readonly inside: readonly (readonly number[])[];
  /** Links from a block to the first one, and the nodes there that they end at. */
  readonly bridges: readonly Int32Array[];
  readonly borders: readonly (readonly number[])[];
}

/** The shape of a network; that of one drawn alike serves again. */
export function netShape(net: ThermalNet, like?: NetShape): NetShape {
  if (like !== undefined && isDrawnAlike(like.net, net)) return like;
  const blockOf = new Int32Array(net.nodes);
  net.blocks.forEach(({ from, to }, b) => blockOf.fill(b, from, to));
  const inBlocks = (a: Int32Array, b: Int32Array): readonly Int32Array[] => {
    const { starts, items } = touching(net.blocks.length, (put) => {
      for (let l = 0; l < a.length; l++) {
        const [p, q] = [blockOf[a[l]!]!, blockOf[b[l]!]!];
        put(p, l);
        if (q !== p) put(q, l);
      }
    });
    return net.blocks.map((_, b2) => items.subarray(starts[b2]!, starts[b2 + 1]!));
  };
  const linksOf = inBlocks(net.linkA, net.linkB);
  const isBridge = (l: number): boolean => (blockOf[net.linkA[l]!] === 0) !== (blockOf[net.linkB[l]!] === 0);
  const bridges = net.blocks.map((_, b) => (b === 0 ? new Int32Array(0) : linksOf[b]!.filter(isBridge)));
  return {
    net,
    pairs: flatPairs(net),
    leaves: leavesOf(net),
    blockOf,
    linksOfNode: touching(net.nodes, (put) => {
      for (let l = 0; l < net.linkA.length; l++) {
        put(net.linkA[l]!, l);
        put(net.linkB[l]!, l);
      }
    }),
    filmsOfNode: touching(net.nodes, (put) => {
      for (let l = 0; l < net.filmNode.length; l++) put(net.filmNode[l]!, l);
    }),
    linksOf,
    filmsOf: inBlocks(net.filmNode, net.filmNode),
    flowsOf: inBlocks(net.flowTo, net.flowTo),
    inside: pairsInside(net),
    bridges,
    borders: net.blocks.map((_, b) => [
      ...new Set(Array.from(bridges[b]!, (l) => (blockOf[net.linkA[l]!] === 0 ? net.linkA[l]! : net.linkB[l]!))),
    ]),
  };
}

const isDrawnAlike = (a: ThermalNet, b: ThermalNet): boolean =>
  a.linkA === b.linkA && a.flowTo === b.flowTo && a.filmNode === b.filmNode && a.pairs === b.pairs;

function touching(count: number, each: (put: (at: number, item: number) => void) => void): Touching {
  const starts = new Int32Array(count + 1);
  each((at) => starts[at + 1]!++);
  for (let i = 0; i < count; i++) starts[i + 1]! += starts[i]!;
  const next = starts.slice();
  const items = new Int32Array(starts[count]!);
  each((at, item) => {
    items[next[at]!++] = item;
  });
  return { starts, items };
}

function flatPairs({ pairs }: ThermalNet): FlatPairs {
  const starts = new Int32Array(2 * pairs.length + 1);
  pairs.forEach(({ nodesA, nodesB }, p) => {
    starts[2 * p + 1] = starts[2 * p]! + nodesA.length;
    starts[2 * p + 2] = starts[2 * p + 1]! + nodesB.length;
  });
  const nodes = new Int32Array(starts[2 * pairs.length]!);
  const weights = new Float64Array(nodes.length);
  pairs.forEach(({ nodesA, nodesB, weightsA, weightsB }, p) => {
    nodes.set(nodesA, starts[2 * p]!);
    nodes.set(nodesB, starts[2 * p + 1]!);
    weights.set(weightsA, starts[2 * p]!);
    weights.set(weightsB, starts[2 * p + 1]!);
  });
  return { k: Float64Array.from(pairs, ({ k }) => k), starts, nodes, weights };
}

function leavesOf({ outsideK, pairs }: ThermalNet): Float64Array {
  const leaves = Float64Array.from(outsideK);
  for (const { k, nodesA, weightsA, nodesB, weightsB } of pairs) {
    for (let i = 0; i < nodesA.length; i++) leaves[nodesA[i]!]! += k * weightsA[i]!;
    for (let i = 0; i < nodesB.length; i++) leaves[nodesB[i]!]! += k * weightsB[i]!;
  }
  return leaves;
}

function pairsInside({ blocks, pairs }: ThermalNet): readonly (readonly number[])[] {
  return blocks.map(({ from, to, half }) => {
    const isIn = (i: number): boolean => i >= from && i < to;
    if (half < to - from - 1) return [];
    return pairs.flatMap(({ nodesA, nodesB }, p) => (nodesA.every(isIn) && nodesB.every(isIn) ? [p] : []));
  });
}
