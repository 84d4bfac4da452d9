import type { NetworkLayout } from './network-layout.ts';

/** Steepness is told apart by its exponent of two, from 2^-LOWEST to 2^LOWEST. */
const LOWEST = 512;

/** What comes in at each free node less what goes out. */
export function imbalances(
  layout: NetworkLayout,
  inflow: Float64Array,
  flow: Float64Array,
  into: Float64Array,
): Float64Array {
  const { from, to } = layout;
  into.set(inflow);
  for (let b = 0; b < flow.length; b++) {
    if (from[b]! >= 0) into[from[b]!]! -= flow[b]!;
    if (to[b]! >= 0) into[to[b]!]! += flow[b]!;
  }
  return into;
}

function steepness(slope: number): number {
  return slope > 0 ? Math.max(0, Math.min(2 * LOWEST, LOWEST + Math.floor(Math.log2(slope)))) : 0;
}

function root(of: Int32Array, n: number): number {
  let r = n;
  while (of[r] !== r) {
    of[r] = of[of[r]!]!;
    r = of[r]!;
  }
  return r;
}

/** What one layout's balancing is done in. */
interface Room {
  readonly bucket: Int32Array;
  readonly steep: Int32Array;
  readonly bySteepness: Int32Array;
  readonly tree: Int32Array;
  readonly of: Int32Array;
  readonly start: Int32Array;
  readonly fill: Int32Array;
  readonly at: Int32Array;
  readonly order: Int32Array;
  readonly parent: Int32Array;
  readonly over: Float64Array;
}

/** As few branches as this are put in order one by one: a bucket for each exponent costs more than that. */
const FEW = 64;

/** Branches by steepness, those that are alike in their own order: the same as by buckets. */
function inserted(steep: Int32Array, bySteepness: Int32Array, branches: number): void {
  for (let b = 0; b < branches; b++) {
    let k = b;
    while (k > 0 && steep[bySteepness[k - 1]!]! > steep[b]!) {
      bySteepness[k] = bySteepness[k - 1]!;
      k--;
    }
    bySteepness[k] = b;
  }
}

/** Branches that reach every free node once from the fixed ones, which together are the root `ground`; how many. */
function flatTree(room: Room, from: Int32Array, to: Int32Array, ground: number, slope: Float64Array): number {
  const { bucket, steep, bySteepness, of, tree } = room;
  const branches = slope.length;
  for (let b = 0; b < branches; b++) steep[b] = steepness(slope[b]!);
  if (branches <= FEW) inserted(steep, bySteepness, branches);
  else {
    bucket.fill(0);
    for (let b = 0; b < branches; b++) bucket[steep[b]! + 1]!++;
    for (let s = 0; s <= 2 * LOWEST; s++) bucket[s + 1]! += bucket[s]!;
    for (let b = 0; b < branches; b++) bySteepness[bucket[steep[b]!]!++] = b;
  }
  for (let n = 0; n <= ground; n++) of[n] = n;
  let count = 0;
  for (let k = 0; k < branches && count < ground; k++) {
    const b = bySteepness[k]!;
    const i = root(of, from[b]! < 0 ? ground : from[b]!);
    const j = root(of, to[b]! < 0 ? ground : to[b]!);
    if (i === j) continue;
    of[Math.max(i, j)] = Math.min(i, j);
    tree[count++] = b;
  }
  return count;
}

/** The tree's nodes from the root on, each with the branch that leads to it; how many, the root included. */
function walkTree(room: Room, from: Int32Array, to: Int32Array, ground: number, count: number): number {
  const { tree, start, fill, at, order, parent } = room;
  start.fill(0);
  for (let k = 0; k < count; k++) {
    const b = tree[k]!;
    start[(from[b]! < 0 ? ground : from[b]!) + 1]!++;
    start[(to[b]! < 0 ? ground : to[b]!) + 1]!++;
  }
  for (let n = 0; n <= ground; n++) start[n + 1]! += start[n]!;
  fill.set(start);
  for (let k = 0; k < count; k++) {
    const b = tree[k]!;
    at[fill[from[b]! < 0 ? ground : from[b]!]!++] = b;
    at[fill[to[b]! < 0 ? ground : to[b]!]!++] = b;
  }
  order[0] = ground;
  parent[ground] = -1;
  let met = 1;
  for (let k = 0; k < met; k++) {
    const n = order[k]!;
    for (let p = start[n]!; p < start[n + 1]!; p++) {
      const b = at[p]!;
      if (b === parent[n]) continue;
      const i = from[b]! < 0 ? ground : from[b]!;
      const other = i === n ? to[b]! : i;
      parent[other] = b;
      order[met++] = other;
    }
  }
  return met;
}

/**
 * A function that balances every free node by changing only flows along a tree: whatever the other branches carry is
 * kept, and from the tree's ends towards the fixed nodes each branch takes what its node has over. The tree takes flat
 * laws before steep ones, since a hair's change of flow means nothing to those and much to a shut valve.
 *
 * It takes the inflow by free node [m3/s], the slope of each branch's law where it stands [Pa per m3/s], and the flow by
 * branch [m3/s], which it changes in place.
 */
export function treeBalance(layout: NetworkLayout): Balance {
  const had = balances.get(layout);
  if (had !== undefined) return had;
  const made = balanceIn(layout);
  balances.set(layout, made);
  return made;
}

type Balance = (inflow: Float64Array, slope: Float64Array, flow: Float64Array) => void;

/** A layout is solved on again and again, a net at a time: its room is kept. */
const balances = new WeakMap<NetworkLayout, Balance>();

function balanceIn(layout: NetworkLayout): Balance {
  const { from, to } = layout;
  const ground = layout.freeNodes.length;
  const room: Room = {
    bucket: new Int32Array(from.length <= FEW ? 0 : 2 * LOWEST + 2),
    steep: new Int32Array(from.length),
    bySteepness: new Int32Array(from.length),
    tree: new Int32Array(ground),
    of: new Int32Array(ground + 1),
    start: new Int32Array(ground + 2),
    fill: new Int32Array(ground + 2),
    at: new Int32Array(2 * ground),
    order: new Int32Array(ground + 1),
    parent: new Int32Array(ground + 1),
    over: new Float64Array(ground),
  };
  return (inflow, slope, flow) => {
    const count = flatTree(room, from, to, ground, slope);
    const met = walkTree(room, from, to, ground, count);
    const { tree, order, parent, over } = room;
    for (let k = 0; k < count; k++) flow[tree[k]!] = 0;
    imbalances(layout, inflow, flow, over);
    for (let k = met - 1; k > 0; k--) {
      const n = order[k]!;
      const b = parent[n]!;
      const leaves = from[b] === n;
      const other = leaves ? to[b]! : from[b]!;
      flow[b] = leaves ? over[n]! : 0 - over[n]!;
      if (other >= 0) over[other]! += over[n]!;
    }
  };
}
