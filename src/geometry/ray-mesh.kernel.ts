import { movedPoint, still } from './motion.ts';
import { leafLink, RAY_LINKS_AT, RAY_NODE_WORDS, TRIANGLE_LEAF } from './ray-scene-layout.ts';
import type { SolidForm } from './solid.ts';
import { halfArea, type SplitTree, splitTree } from './split-tree.kernel.ts';
import type { Vec } from './vec.ts';

/** A mesh where it stands, ready to be laid into a scene; links and triangles are counted from its own beginning. */
export interface RayMesh {
  readonly nodes: Float32Array;
  readonly links: Int32Array;
  /** Nine float32 a triangle, outwards. */
  readonly triangles: Float32Array;
  /** An open sheet has no inside: it is met from either side. */
  readonly isSheet: boolean;
  readonly bounds: Float32Array;
}

type MeshForm = Extract<SolidForm, { kind: 'mesh' }>;

const made = new WeakMap<MeshForm, RayMesh>();

/** The tree over one placed mesh; worked out once for as long as its solid is held. */
export function rayMesh(form: MeshForm): RayMesh {
  const had = made.get(form);
  if (had !== undefined) return had;
  const placed = corners(form);
  const count = placed.length / 9;
  const boxes = new Float32Array(count * 6);
  for (let t = 0; t < count; t++) {
    for (let axis = 0; axis < 3; axis++) {
      const [a, b, c] = [placed[t * 9 + axis]!, placed[t * 9 + 3 + axis]!, placed[t * 9 + 6 + axis]!];
      boxes[t * 6 + axis] = Math.min(a, b, c);
      boxes[t * 6 + 3 + axis] = Math.max(a, b, c);
    }
  }
  const order = Uint32Array.from({ length: count }, (_, i) => i);
  const tree = splitTree(boxes, order);
  const triangles = new Float32Array(count * 9);
  for (let slot = 0; slot < count; slot++) {
    for (let i = 0; i < 9; i++) triangles[slot * 9 + i] = placed[order[slot]! * 9 + i]!;
  }
  const mesh = { ...packed(tree), triangles, isSheet: form.prepared.sign.by === 'none' };
  made.set(form, mesh);
  return mesh;
}

/** Corners where the mesh stands, turned outwards where it is inside out. */
function corners({ prepared, motion }: MeshForm): Float32Array {
  const { bvh, sign } = prepared;
  const out = new Float32Array(bvh.corners.length);
  const flips = sign.by !== 'none' && sign.way < 0;
  for (let slot = 0; slot < out.length / 9; slot++) {
    for (let k = 0; k < 3; k++) {
      const from = slot * 9 + k * 3;
      let p: Vec = [bvh.corners[from]!, bvh.corners[from + 1]!, bvh.corners[from + 2]!];
      if (bvh.cornersLow.length > 0)
        p = [p[0] + bvh.cornersLow[from]!, p[1] + bvh.cornersLow[from + 1]!, p[2] + bvh.cornersLow[from + 2]!];
      out.set(motion === still ? p : movedPoint(motion, p), slot * 9 + (flips ? 2 - k : k) * 3);
    }
  }
  return out;
}

function packed(tree: SplitTree): { nodes: Float32Array; links: Int32Array; bounds: Float32Array } {
  const buffer = new ArrayBuffer(Math.max(1, tree.leaves - 1) * RAY_NODE_WORDS * 4);
  const nodes = new Float32Array(buffer);
  const links = new Int32Array(buffer);
  const bounds = tree.bounds.slice(0, 6);
  if (tree.left[0]! < 0) {
    nodes.fill(Infinity, 0, 12);
    nodes.set(bounds);
    links[RAY_LINKS_AT] = links[RAY_LINKS_AT + 1] = leafLink(TRIANGLE_LEAF, 0, tree.count[0]!);
    return { nodes, links, bounds };
  }
  let used = RAY_NODE_WORDS;
  const todo = [0, 0];
  while (todo.length > 0) {
    const at = todo.pop()!;
    const node = todo.pop()!;
    for (let k = 0; k < 2; k++) {
      const child = tree.left[node]! + k;
      for (let i = 0; i < 6; i++) nodes[at + k * 6 + i] = tree.bounds[child * 6 + i]!;
      if (tree.left[child]! < 0) {
        links[at + RAY_LINKS_AT + k] = leafLink(TRIANGLE_LEAF, tree.start[child]!, tree.count[child]!);
      } else {
        links[at + RAY_LINKS_AT + k] = used;
        todo.push(child, used);
        used += RAY_NODE_WORDS;
      }
    }
  }
  return { nodes, links, bounds };
}

/** A large mesh is opened into this many pieces, so that what stands beside or in it is told apart high up in the scene's tree. */
const OPENED = 16;

/** The upper pieces of a mesh's tree with their boxes. */
export function openedRoots(mesh: RayMesh): { readonly bounds: Float32Array; readonly link: number }[] {
  const open = [{ bounds: mesh.bounds, link: 0 }];
  while (open.length < OPENED) {
    let largest = -1;
    open.forEach(({ bounds, link }, i) => {
      if (link >= 0 && (largest < 0 || halfArea(bounds, 0) > halfArea(open[largest]!.bounds, 0))) largest = i;
    });
    if (largest < 0) break;
    const at = open[largest]!.link;
    const children = [0, 1].map((k) => ({
      bounds: mesh.nodes.slice(at + k * 6, at + k * 6 + 6),
      link: mesh.links[at + RAY_LINKS_AT + k]!,
    }));
    open.splice(largest, 1, ...children.filter(({ bounds }) => bounds[0]! < Infinity));
  }
  return open;
}
