import type { RadiantPair } from '../balance/thermal-net.ts';
import { type HeatModel, SECTORS } from './heat-model.ts';

/** Nodes of one line: a node before it, per segment the fluid and its sectors, a node after it. */
export interface LineNodes {
  readonly head: number;
  readonly tail: number;
  /** Of segment s: its fluid; sectors follow. */
  readonly first: number;
  readonly segments: number;
}

export const NODES_PER_SEGMENT = SECTORS + 1;
export const fluidNode = ({ first }: LineNodes, segment: number): number => first + segment * NODES_PER_SEGMENT;

/** Which node is what, and what radiates to what: the same in every case. */
export interface NetLayout {
  readonly nodes: number;
  /** Outside of each part; under its cover (-1: bare). */
  readonly partNode: Int32Array;
  readonly underNode: Int32Array;
  /** First cell of each panel. */
  readonly panelNode: Int32Array;
  readonly lines: readonly LineNodes[];
  /** Where parts and panels end and lines begin. */
  readonly bodies: number;
  readonly pairs: readonly RadiantPair[];
  /** The two surfaces of each pair. */
  readonly pairOf: readonly (readonly [number, number])[];
  /** Of each surface the pairs that it is one of. */
  readonly pairsOfSurface: readonly (readonly number[])[];
  /** [m2]. */
  readonly outsideK: Float64Array;
  readonly nodeOfPatch: Int32Array;
}

export function netLayout(model: HeatModel): NetLayout {
  const { parts, panels } = model;
  const partNode = Int32Array.from(parts, (_, i) => i);
  let nodes = parts.length;
  const underNode = Int32Array.from(parts, ({ cover }) => (cover === null ? -1 : nodes++));
  const panelNode = Int32Array.from(panels, ({ patches }) => {
    const first = nodes;
    nodes += patches.length / 2;
    return first;
  });
  const bodies = nodes;
  const lines = model.lines.map(({ segments }): LineNodes => {
    const head = nodes;
    nodes += 2 + segments * NODES_PER_SEGMENT;
    return { head, first: head + 1, tail: nodes - 1, segments };
  });
  const nodeOfPatch = new Int32Array(model.patches.length);
  parts.forEach(({ patch }, i) => {
    nodeOfPatch[patch] = partNode[i]!;
  });
  panels.forEach(({ firstPatch, patches }, i) =>
    patches.forEach((_, k) => {
      nodeOfPatch[firstPatch + k] = panelNode[i]! + Math.floor(k / 2);
    }),
  );
  model.lines.forEach(({ firstPatch, patches }, i) =>
    patches.forEach(({ segment, sector }, k) => {
      nodeOfPatch[firstPatch + k] = fluidNode(lines[i]!, segment) + 1 + sector;
    }),
  );
  return { nodes, partNode, underNode, panelNode, lines, bodies, nodeOfPatch, ...radiant(model, nodeOfPatch, nodes) };
}

/** What one surface's own rays say of another: weight by node, their sum and its error [m2]. */
interface Seen {
  readonly byNode: Map<number, number>;
  sum: number;
  variance: number;
}

/** Less than this is left out: a square millimetre radiates 0.07 W at 800 degC [m2]. */
const LEAST_K = 1e-7;

/** For each pair of surfaces one number from the rays of both, the better known one counting more; shared out as each sees it. */
function radiant(model: HeatModel, nodeOfPatch: Int32Array, nodes: number) {
  const outside = model.surfaces.length;
  const outsideK = new Float64Array(nodes);
  const seen = new Map<number, Seen>();
  model.patches.forEach((patch, p) => {
    const { to, share, error95 } = model.rows[p]!;
    const node = nodeOfPatch[p]!;
    const radiates = patch.areaM2 * patch.emissivity;
    for (let k = 0; k < to.length; k++) {
      const other = to[k]!;
      const value = radiates * share[k]!;
      if (other === outside) outsideK[node] = outsideK[node]! + value;
      else if (other !== patch.surface) see(seen, patch.surface * outside + other, node, value, radiates * error95[k]!);
    }
  });
  const pairs: RadiantPair[] = [];
  const pairOf: (readonly [number, number])[] = [];
  const areas = surfaceNodes(model, nodeOfPatch);
  for (let a = 0; a < outside; a++)
    for (let b = a + 1; b < outside; b++) {
      const [ab, ba] = [seen.get(a * outside + b), seen.get(b * outside + a)];
      const k = combined(ab, ba);
      if (k < LEAST_K) continue;
      const [nodesA, weightsA] = weighted(ab?.byNode ?? areas[a]!);
      const [nodesB, weightsB] = weighted(ba?.byNode ?? areas[b]!);
      pairs.push({ k, nodesA, weightsA, nodesB, weightsB });
      pairOf.push([a, b]);
    }
  const pairsOfSurface = model.surfaces.map((): number[] => []);
  pairOf.forEach(([a, b], p) => {
    pairsOfSurface[a]!.push(p);
    pairsOfSurface[b]!.push(p);
  });
  return { pairs, pairOf, pairsOfSurface, outsideK };
}

function see(seen: Map<number, Seen>, key: number, node: number, value: number, error: number): void {
  const row = seen.get(key) ?? { byNode: new Map<number, number>(), sum: 0, variance: 0 };
  row.byNode.set(node, (row.byNode.get(node) ?? 0) + value);
  row.sum += value;
  row.variance += error * error;
  seen.set(key, row);
}

/** A stated error of nought, where all replicates agree by chance, must not decide alone [share of the value]. */
const LEAST_ERROR = 0.01;

function combined(ab: Seen | undefined, ba: Seen | undefined): number {
  if (ab === undefined || ba === undefined) return (ab ?? ba)?.sum ?? 0;
  const weight = ({ sum, variance }: Seen): number => 1 / (variance + (LEAST_ERROR * sum) ** 2 + 1e-24);
  const [wa, wb] = [weight(ab), weight(ba)];
  return (ab.sum * wa + ba.sum * wb) / (wa + wb);
}

function weighted(byNode: ReadonlyMap<number, number>): readonly [Int32Array, Float64Array] {
  const sum = [...byNode.values()].reduce((total, value) => total + value, 0);
  return [Int32Array.from(byNode.keys()), Float64Array.from(byNode.values(), (value) => value / sum)];
}

/** Of each surface its nodes with their area: where its own rays do not meet the other. */
function surfaceNodes(model: HeatModel, nodeOfPatch: Int32Array): Map<number, number>[] {
  const areas = model.surfaces.map(() => new Map<number, number>());
  model.patches.forEach(({ surface, areaM2 }, p) => {
    const node = nodeOfPatch[p]!;
    areas[surface]!.set(node, (areas[surface]!.get(node) ?? 0) + areaM2);
  });
  return areas;
}
