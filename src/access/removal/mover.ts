import { type Bounds, joined, type RigidMotion, type Solid, type Vec } from '#geometry';
import { ballTree, type BallTree, joinedTrees } from './ball-tree.kernel.ts';
import { BALL, sphereCover } from './sphere-cover.kernel.ts';

/** A cover stands out by this share of the part's size, within these [mm]: a large part needs no fine one. */
const OVER_SHARE = 1 / 25;
const OVER_LEAST_MM = 3;
const OVER_MOST_MM = 25;

/** Something rigid that is to come out, as balls that hold it, and balls about those. */
export interface Mover extends BallTree {
  /** How far a ball stands out of it at most [mm]. */
  readonly overMm: number;
  readonly bounds: Bounds;
  readonly middle: Vec;
  /** From its middle to the far side of any ball [mm]. */
  readonly reachMm: number;
}

const covers = new WeakMap<Solid, Map<number, BallTree>>();

/** The cover of one solid; worked out once. An open mesh is covered as the skin that it is. */
function coverOf(solid: Solid, overMm: number): BallTree {
  let ofSolid = covers.get(solid);
  if (ofSolid === undefined) covers.set(solid, (ofSolid = new Map()));
  let cover = ofSolid.get(overMm);
  if (cover === undefined) ofSolid.set(overMm, (cover = ballTree(sphereCover(solid, overMm))));
  return cover;
}

/** How far the balls of something of this size stand out of it [mm]. */
export function overOf(bounds: Bounds): number {
  const size = Math.max(...[0, 1, 2].map((i) => bounds.max[i]! - bounds.min[i]!));
  return Math.min(OVER_MOST_MM, Math.max(OVER_LEAST_MM, size * OVER_SHARE));
}

/** Solids that come out as one; undefined where there is nothing solid. */
export function moverOf(solids: readonly Solid[]): Mover | undefined {
  if (solids.length === 0) return undefined;
  const over = solids.map((solid) => overOf(solid.bounds));
  return ofTree(
    joinedTrees(solids.map((solid, i) => coverOf(solid, over[i]!))),
    solids.map(({ bounds }) => bounds).reduce(joined),
    Math.max(...over),
  );
}

/** A thin sheet, as balls about places of it that lie no further apart than `pitchMm`. */
export function sheetMover(places: readonly Vec[], pitchMm: number, bounds: Bounds): Mover | undefined {
  const radius = pitchMm / Math.SQRT2;
  return places.length === 0
    ? undefined
    : ofTree(ballTree(Float64Array.from(places.flatMap((at) => [...at, radius]))), bounds, radius);
}

/** A ball alone, such as a hand. */
export const ballMover = (at: Vec, radiusMm: number): Mover =>
  ofTree(
    ballTree(Float64Array.from([...at, radiusMm])),
    {
      min: [at[0] - radiusMm, at[1] - radiusMm, at[2] - radiusMm],
      max: [at[0] + radiusMm, at[1] + radiusMm, at[2] + radiusMm],
    },
    0,
  );

/** Several movers as one. */
export const joinedMover = (movers: readonly Mover[]): Mover | undefined =>
  movers.length === 0
    ? undefined
    : movers.length === 1
      ? movers[0]
      : ofTree(
          joinedTrees(movers),
          movers.map(({ bounds }) => bounds).reduce(joined),
          Math.max(...movers.map(({ overMm }) => overMm)),
        );

function ofTree({ nodes, skips }: BallTree, bounds: Bounds, overMm: number): Mover {
  const middle: Vec = [
    (bounds.min[0] + bounds.max[0]) / 2,
    (bounds.min[1] + bounds.max[1]) / 2,
    (bounds.min[2] + bounds.max[2]) / 2,
  ];
  let reachMm = 0;
  for (let i = 0; i < skips.length; i++) {
    if (skips[i] !== i + 1) continue;
    const at = i * BALL;
    reachMm = Math.max(
      reachMm,
      Math.hypot(nodes[at]! - middle[0], nodes[at + 1]! - middle[1], nodes[at + 2]! - middle[2]) + nodes[at + 3]!,
    );
  }
  return { nodes, skips, overMm, bounds, middle, reachMm };
}

/** The mover carried off. */
export function movedMover(mover: Mover, { rows, shift }: RigidMotion): Mover {
  const { nodes, skips } = mover;
  const moved = new Float64Array(nodes.length);
  for (let i = 0; i < nodes.length; i += BALL) {
    const [x, y, z] = [nodes[i]!, nodes[i + 1]!, nodes[i + 2]!];
    for (let k = 0; k < 3; k++) {
      const row = rows[k as 0 | 1 | 2];
      moved[i + k] = row[0] * x + row[1] * y + row[2] * z + shift[k as 0 | 1 | 2];
    }
    moved[i + 3] = nodes[i + 3]!;
  }
  const [a, b, c] = mover.middle;
  const middle = [0, 1, 2].map((k) => {
    const row = rows[k as 0 | 1 | 2];
    return row[0] * a + row[1] * b + row[2] * c + shift[k as 0 | 1 | 2];
  }) as unknown as Vec;
  const r = mover.reachMm;
  return {
    nodes: moved,
    skips,
    overMm: mover.overMm,
    middle,
    reachMm: r,
    bounds: {
      min: [middle[0] - r, middle[1] - r, middle[2] - r],
      max: [middle[0] + r, middle[1] + r, middle[2] + r],
    },
  };
}
