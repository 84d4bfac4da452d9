/**
 * A tree of boxes over all that a ray may meet, two children a node, made for first hits. Plain typed arrays: posted to another thread
 * they are the same scene there.
 *
 * A node is one cache line of sixteen words: box of its first child (min x y z, max x y z, float32, rounded outwards), box of the
 * second, then two links (int32, in `links`). A link >= 0 is the word offset of a child node; a link < 0 is a leaf, see `leafLink`. A
 * child that is missing has a box that nothing enters.
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

export const RAY_NODE_WORDS = 16;
export const RAY_LINKS_AT = 12;
export const ROUND_WORDS = 8;
export const BOX_WORDS = 15;

/** The link to a leaf: which array, how many (1 to 4) and from which place on. */
export const leafLink = (kind: number, first: number, count: number): number =>
  ~((first << 4) | ((count - 1) << 2) | kind);
