import { BALL } from './sphere-cover.kernel.ts';

/**
 * Balls under balls that hold them, as a forest in depth-first order: `nodes` holds x, y, z, radius of each [mm], `skips` the place of the
 * next node that lies under none of those below this one. A node whose skip is the next place is a ball of the cover itself.
 */
export interface BallTree {
  readonly nodes: Float64Array;
  readonly skips: Int32Array;
}

/** A tree over balls: each halved along its longest side until one is left. */
export function ballTree(balls: Float64Array): BallTree {
  const count = balls.length / BALL;
  if (count === 0) return { nodes: new Float64Array(0), skips: new Int32Array(0) };
  const nodes = new Float64Array((2 * count - 1) * BALL);
  const skips = new Int32Array(2 * count - 1);
  const order = Array.from({ length: count }, (_, i) => i);
  let made = 0;
  const grow = (from: number, to: number): void => {
    const at = made++;
    if (to - from === 1) for (let k = 0; k < BALL; k++) nodes[at * BALL + k] = balls[order[from]! * BALL + k]!;
    else {
      const axis = heldBy(balls, order, from, to, nodes, at);
      const half = order.slice(from, to).toSorted((a, b) => balls[a * BALL + axis]! - balls[b * BALL + axis]!);
      half.forEach((ball, i) => (order[from + i] = ball));
      const middle = (from + to) >> 1;
      grow(from, middle);
      grow(middle, to);
    }
    skips[at] = made;
  };
  grow(0, count);
  return { nodes, skips };
}

/** Writes a ball that holds these; tells along which axis they lie furthest apart. */
function heldBy(
  balls: Float64Array,
  order: readonly number[],
  from: number,
  to: number,
  nodes: Float64Array,
  at: number,
): number {
  let axis = 0;
  let widest = -1;
  for (let k = 0; k < 3; k++) {
    let [low, high] = [Infinity, -Infinity];
    let [first, last] = [Infinity, -Infinity];
    for (let i = from; i < to; i++) {
      const ball = order[i]! * BALL;
      const [c, r] = [balls[ball + k]!, balls[ball + 3]!];
      low = Math.min(low, c - r);
      high = Math.max(high, c + r);
      first = Math.min(first, c);
      last = Math.max(last, c);
    }
    nodes[at * BALL + k] = (low + high) / 2;
    if (last - first > widest) [widest, axis] = [last - first, k];
  }
  let radius = 0;
  for (let i = from; i < to; i++) {
    const ball = order[i]! * BALL;
    const dx = balls[ball]! - nodes[at * BALL]!;
    const dy = balls[ball + 1]! - nodes[at * BALL + 1]!;
    const dz = balls[ball + 2]! - nodes[at * BALL + 2]!;
    radius = Math.max(radius, Math.sqrt(dx * dx + dy * dy + dz * dz) + balls[ball + 3]!);
  }
  nodes[at * BALL + 3] = radius;
  return axis;
}

/** Several forests as one. */
export function joinedTrees(trees: readonly BallTree[]): BallTree {
  const nodes = new Float64Array(trees.reduce((sum, tree) => sum + tree.nodes.length, 0));
  const skips = new Int32Array(nodes.length / BALL);
  let at = 0;
  for (const tree of trees) {
    nodes.set(tree.nodes, at * BALL);
    for (let i = 0; i < tree.skips.length; i++) skips[at + i] = tree.skips[i]! + at;
    at += tree.skips.length;
  }
  return { nodes, skips };
}
