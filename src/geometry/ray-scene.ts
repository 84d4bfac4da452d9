import type { Bounds } from './bounds.ts';
import {
  BOX_LEAF,
  foldTree,
  leafLink,
  putEmptyNode,
  RAY_LINKS_AT,
  RAY_NODE_WORDS,
  type RayScene,
  ROUND_LEAF,
} from './ray-scene-layout.ts';
import { upperPieces, type RayMesh, rayMesh } from './ray-mesh.kernel.ts';
import { splitTree } from './split-tree.kernel.ts';
import type { Solid, SolidForm } from './solid.ts';
import { distance, scale, sub } from './vec.ts';

/** What a ray may meet, with its place in the list as its name. */
export interface RayItem {
  readonly solids: readonly Solid[];
}

/** One thing that the top of the tree is built over: a leaf, or a piece of a mesh's own tree. */
interface Entry {
  readonly bounds: Float32Array;
  /** Link of a leaf; for a piece of a mesh the word offset in the scene. */
  readonly link: number;
}

/**
 * One tree over all solids of a scene. Each mesh brings its own tree, built once for as long as its solid is held, so that a scene in
 * which one part has moved is made again in little time.
 */
export function rayScene(items: readonly RayItem[]): RayScene {
  const found = gathered(items);
  const meshWords = found.meshes.reduce((sum, { mesh }) => sum + mesh.nodes.length, 0);
  const entries = [...found.leaves];
  const buffer = new ArrayBuffer(
    (meshWords + (found.leaves.length + 16 * found.meshes.length + 1) * RAY_NODE_WORDS) * 4,
  );
  const nodes = new Float32Array(buffer);
  const links = new Int32Array(buffer);
  const triangleCount = found.meshes.reduce((sum, { mesh }) => sum + mesh.triangles.length / 9, 0);
  const triangles = new Float32Array(triangleCount * 9);
  const triangleItems = new Int32Array(triangleCount);
  // The root comes first, meshes last: the top's nodes lie together.
  let at = buffer.byteLength / 4 - meshWords;
  let triangle = 0;
  for (const { item, mesh } of found.meshes) {
    links.set(mesh.links, at);
    shiftLinks(links, at, mesh.nodes.length, at, triangle);
    triangles.set(mesh.triangles, triangle * 9);
    triangleItems.fill(item * 2 + (mesh.isSheet ? 1 : 0), triangle, triangle + mesh.triangles.length / 9);
    for (const { bounds, link } of upperPieces(mesh))
      entries.push({ bounds, link: link < 0 ? link - (triangle << 4) : link + at });
    at += mesh.nodes.length;
    triangle += mesh.triangles.length / 9;
  }
  layTop(entries, { nodes, links });
  const { rounds, boxes } = found;
  return {
    nodes,
    links,
    triangles,
    triangleItems,
    rounds: Float64Array.from(rounds.flatMap(({ words }) => words)),
    roundItems: Int32Array.from(rounds, ({ item }) => item),
    boxes: Float64Array.from(boxes.flatMap(({ words }) => words)),
    boxItems: Int32Array.from(boxes, ({ item }) => item),
  };
}

interface Placed {
  readonly item: number;
  readonly words: readonly number[];
}

/** All solids by kind, in the order of the items: where two are hit at once, the first of them is. */
function gathered(items: readonly RayItem[]) {
  const rounds: Placed[] = [];
  const boxes: Placed[] = [];
  const leaves: Entry[] = [];
  const meshes: { readonly item: number; readonly mesh: RayMesh }[] = [];
  items.forEach(({ solids }, item) => {
    for (const solid of solids) {
      const { form } = solid;
      if (form.kind === 'mesh') {
        meshes.push({ item, mesh: rayMesh(form) });
      } else if (form.kind === 'box') {
        leaves.push({ bounds: outward(solid.bounds), link: leafLink(BOX_LEAF, boxes.length, 1) });
        boxes.push({ item, words: [...form.centre, ...form.axes.flat(), ...form.half] });
      } else {
        leaves.push({ bounds: outward(solid.bounds), link: leafLink(ROUND_LEAF, rounds.length, 1) });
        rounds.push({ item, words: roundWords(form) });
      }
    }
  });
  return { rounds, boxes, leaves, meshes };
}

function roundWords({ kind, a, b, radiusMm }: Extract<SolidForm, { radiusMm: number }>): number[] {
  const length = distance(a, b);
  const axis = length > 0 ? scale(sub(b, a), 1 / length) : [0, 0, 1];
  return [...a, ...axis, length, kind === 'cylinder' ? -radiusMm : radiusMm];
}

/** Adds to what a mesh's own nodes link to: the words before them, the triangles before theirs. */
function shiftLinks(links: Int32Array, from: number, words: number, nodesAt: number, triangle: number): void {
  for (let node = from; node < from + words; node += RAY_NODE_WORDS) {
    for (let k = node + RAY_LINKS_AT; k < node + RAY_LINKS_AT + 4; k++) {
      const link = links[k]!;
      // A leaf's link is the complement of its code: the first triangle stands in bits 4 and up.
      links[k] = link < 0 ? link - (triangle << 4) : link + nodesAt;
    }
  }
}

const WORDS_OF_ROUNDING = 2 ** -23;

/** Bounds as float32, let out so that nothing is lost. */
function outward({ min, max }: Bounds): Float32Array {
  const out = new Float32Array(6);
  for (const axis of [0, 1, 2] as const) {
    const room = WORDS_OF_ROUNDING * Math.max(1, Math.abs(min[axis]), Math.abs(max[axis]));
    out[axis] = min[axis] - room;
    out[axis + 3] = max[axis] + room;
  }
  return out;
}

/** The scene's own tree, from the first word on. */
function layTop(entries: readonly Entry[], out: Pick<RayScene, 'nodes' | 'links'>): void {
  if (entries.length === 0) return putEmptyNode(out, 0);
  const boxes = new Float32Array(entries.length * 6);
  entries.forEach(({ bounds }, i) => boxes.set(bounds, i * 6));
  const order = Uint32Array.from(entries, (_, i) => i);
  const tree = splitTree(boxes, order, 1);
  foldTree(tree, out, 0, (node) => entries[order[tree.start[node]!]!]!.link);
}
