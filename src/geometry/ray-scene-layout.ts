import { fourChildren, type SplitTree } from './split-tree.kernel.ts';

/**
 * A tree of boxes over all that a ray may meet, four children a node, made for first hits. Plain typed arrays: posted to another thread
 * they are the same scene there.
 *
 * A node is two cache lines of 32 words: least x of its four children, greatest x, then y, z (float32, let out so that rounding loses
 * nothing), then four links (int32, in `links`) and padding. A link >= 0 is the word offset of a child node; a link < 0 is a leaf, see
 * `leafLink`. A child that is missing has a box that nothing enters.
 */
export interface RayScene {
  readonly nodes: Float32Array;
  /** The same memory as `nodes`. */
  readonly links: Int32Array;
  /** Nine float32 a triangle: its corners, anticlockwise seen from outside. */
  readonly triangles: Float32Array;
  /** Item * 2, + 1 where the triangle belongs to an open sheet. */
  readonly triangleItems: Int32Array;
  /** Balls, capsules and flat cylinders: ROUND_WORDS each: from x y z, unit axis x y z, length, radius; radius < 0: flat ends. */
  readonly rounds: Float64Array;
  readonly roundItems: Int32Array;
  /** BOX_WORDS each: middle x y z, three unit axes, three half sides. */
  readonly boxes: Float64Array;
  readonly boxItems: Int32Array;
}

/** What a leaf holds. */
export const TRIANGLE_LEAF = 0;
export const ROUND_LEAF = 1;
export const BOX_LEAF = 2;

export const RAY_NODE_WORDS = 32;
export const RAY_LINKS_AT = 24;
export const ROUND_WORDS = 8;
export const BOX_WORDS = 15;

/** The link to a leaf: which array, how many (1 to 4) and from which place on. */
export const leafLink = (kind: number, first: number, count: number): number =>
  ~((first << 4) | ((count - 1) << 2) | kind);

/** Room about boxes for what float32 rounds off a ray's origin and a corner, over the largest coordinate: sixteen units in the last place. */
const ROOM = 2 ** -20;

/** Puts child k into the node at word `at`: its box (six numbers from `from`: least x y z, greatest x y z) and its link. */
function putChild(
  { nodes, links }: Pick<RayScene, 'nodes' | 'links'>,
  at: number,
  k: number,
  bounds: ArrayLike<number>,
  from: number,
  link: number,
): void {
  for (let axis = 0; axis < 3; axis++) {
    const low = bounds[from + axis]!;
    const high = bounds[from + 3 + axis]!;
    const room = ROOM * Math.max(Math.abs(low), Math.abs(high));
    nodes[at + axis * 8 + k] = low - room;
    nodes[at + axis * 8 + 4 + k] = high + room;
  }
  links[at + RAY_LINKS_AT + k] = link;
}

/** Leaves child k of the node out. */
function putNoChild({ nodes, links }: Pick<RayScene, 'nodes' | 'links'>, at: number, k: number): void {
  for (let axis = 0; axis < 3; axis++) {
    nodes[at + axis * 8 + k] = Infinity;
    nodes[at + axis * 8 + 4 + k] = -Infinity;
  }
  links[at + RAY_LINKS_AT + k] = leafLink(TRIANGLE_LEAF, 0, 1);
}

/**
 * Folds a two-way tree into nodes of four children.
 *
 * @param from - word offset of the root
 * @param leaf - the link of a leaf of the tree
 * @returns the word after the last node
 */
export function foldTree(
  tree: SplitTree,
  out: Pick<RayScene, 'nodes' | 'links'>,
  from: number,
  leaf: (node: number) => number,
): number {
  let used = from + RAY_NODE_WORDS;
  const todo = [0, from];
  while (todo.length > 0) {
    const at = todo.pop()!;
    const children = fourChildren(tree, todo.pop()!);
    for (let k = 0; k < 4; k++) {
      const child = children[k];
      if (child === undefined) {
        putNoChild(out, at, k);
        continue;
      }
      const isLeaf = tree.left[child]! < 0;
      putChild(out, at, k, tree.bounds, child * 6, isLeaf ? leaf(child) : used);
      if (isLeaf) continue;
      todo.push(child, used);
      used += RAY_NODE_WORDS;
    }
  }
  return used;
}

/** A node that nothing enters. */
export function putEmptyNode(out: Pick<RayScene, 'nodes' | 'links'>, at: number): void {
  for (let k = 0; k < 4; k++) putNoChild(out, at, k);
}
