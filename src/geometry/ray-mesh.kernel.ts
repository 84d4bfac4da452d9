import { movedPoint, still } from './motion.ts';
import { foldTree, leafLink, RAY_LINKS_AT, RAY_NODE_WORDS, TRIANGLE_LEAF } from './ray-scene-layout.ts';
import type { SolidForm } from './solid.ts';
import { type SplitTree, splitTree } from './split-tree.kernel.ts';
import type { Vec } from './vec.ts';

/** A mesh where it stands, ready to be laid into a scene; links and triangles are counted from its own beginning. */
export interface RayMesh {
  readonly nodes: Float32Array;
  readonly links: Int32Array;
  /** Nine float32 a triangle, outwards. */
  readonly triangles: Float32Array;
  /** An open sheet has no inside: it is met from either side. */
  readonly isSheet: boolean;
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

function packed(tree: SplitTree): { nodes: Float32Array; links: Int32Array } {
  const buffer = new ArrayBuffer((tree.leaves + 1) * RAY_NODE_WORDS * 4);
  const out = { nodes: new Float32Array(buffer), links: new Int32Array(buffer) };
  const used = foldTree(tree, out, 0, (leaf) => leafLink(TRIANGLE_LEAF, tree.start[leaf]!, tree.count[leaf]!));
  return { nodes: out.nodes.subarray(0, used), links: out.links.subarray(0, used) };
}

/** The upper pieces of a mesh's tree with their boxes: what the scene's own tree is built over, so that what stands beside or in a large mesh is told apart high up. */
export function upperPieces({ nodes, links }: RayMesh): { readonly bounds: Float32Array; readonly link: number }[] {
  const children = (at: number) =>
    [0, 1, 2, 3].flatMap((k) => {
      const bounds = Float32Array.from([0, 8, 16, 4, 12, 20], (word) => nodes[at + word + k]!);
      return bounds[0]! < Infinity ? [{ bounds, link: links[at + RAY_LINKS_AT + k]! }] : [];
    });
  return children(0).flatMap((child) => (child.link < 0 ? [child] : children(child.link)));
}
