import { type Vec, addScaled, distance, scale, sub, unit } from '#geometry';
import type { Chance } from './chance.ts';
import type { Ball } from './planted-line.ts';
import { type CarShape, type Distance, type Meshes, shapeDistance } from './solid-distance.ts';

/** A thing of a bay, as the car file has it. */
export interface BayThing {
  readonly id: string;
  readonly name: string;
  readonly class: 'hot' | 'moving' | 'fixed';
  readonly keepOffMm: number;
  readonly knownToMm: number;
  readonly shapes: readonly CarShape[];
  readonly ports: readonly {
    readonly id: string;
    readonly atMm: Vec;
    readonly faces: Vec;
    readonly facingKnownDeg: number;
    readonly end: unknown;
  }[];
}

/** Random bodies of every kind that a car file knows, about `sizeMm` large, standing round the origin. */
export function drawnShapes(
  draw: Chance,
  sizeMm: number,
  meshes: Map<string, { positions: Float64Array; indices: Uint32Array }>,
  id: string,
): CarShape[] {
  const s = (): number => sizeMm * draw.between(0.4, 1);
  switch (draw.whole(0, 3)) {
    case 0: {
      const half: Vec = [s() / 2, s() / 2, s() / 2];
      return [
        {
          box: { minMm: scale(half, -1), maxMm: half },
          turnDeg: [draw.between(-90, 90), draw.between(-90, 90), draw.between(-90, 90)],
        },
      ];
    }
    case 1: {
      const d = draw.direction();
      const half = s() / 2;
      return [{ cylinder: { fromMm: scale(d, -half), toMm: scale(d, half), radiusMm: s() / 3 } }];
    }
    case 2: {
      const first = draw.direction();
      const points: Vec[] = [scale(first, -s() / 2), [0, 0, 0]];
      points.push(addScaled([0, 0, 0], unit(addScaled(first, draw.direction(), 0.8)), s() / 2));
      return [{ tube: { pointsMm: points, radiusMm: s() / 5 } }];
    }
    default: {
      const file = `${id}.stl`;
      meshes.set(file, lump(draw, s() / 2));
      return [{ mesh: { file, unit: 'mm' } }];
    }
  }
}

/** A closed lump: an octahedron parted twice, its corners moved in and out. */
function lump(draw: Chance, radiusMm: number): { positions: Float64Array; indices: Uint32Array } {
  let corners: Vec[] = [
    [1, 0, 0],
    [-1, 0, 0],
    [0, 1, 0],
    [0, -1, 0],
    [0, 0, 1],
    [0, 0, -1],
  ];
  let faces = [
    [0, 2, 4],
    [2, 1, 4],
    [1, 3, 4],
    [3, 0, 4],
    [2, 0, 5],
    [1, 2, 5],
    [3, 1, 5],
    [0, 3, 5],
  ];
  for (let n = 0; n < 2; n++) {
    const middles = new Map<string, number>();
    const middle = (i: number, j: number): number => {
      const key = i < j ? `${i} ${j}` : `${j} ${i}`;
      const had = middles.get(key);
      if (had !== undefined) return had;
      corners = [
        ...corners,
        unit([corners[i]![0] + corners[j]![0], corners[i]![1] + corners[j]![1], corners[i]![2] + corners[j]![2]]),
      ];
      middles.set(key, corners.length - 1);
      return corners.length - 1;
    };
    faces = faces.flatMap(([a, b, c]) => {
      const [d, e, f] = [middle(a!, b!), middle(b!, c!), middle(c!, a!)];
      return [
        [a!, d, f],
        [d, b!, e],
        [f, e, c!],
        [d, e, f],
      ];
    });
  }
  const grow: Vec = [draw.between(0.6, 1.3), draw.between(0.6, 1.3), draw.between(0.6, 1.3)];
  const moved = corners.map((corner) =>
    scale([corner[0] * grow[0], corner[1] * grow[1], corner[2] * grow[2]], radiusMm * draw.between(0.85, 1.1)),
  );
  return { positions: Float64Array.from(moved.flat()), indices: Uint32Array.from(faces.flat()) };
}

/** The shapes moved by a step: what they were drawn in stays. */
export const movedShapes = (shapes: readonly CarShape[], by: Vec): CarShape[] =>
  shapes.map((shape) => ({ ...shape, atMm: by }));

/** Least gap of a thing to the balls [mm], given up below `enoughMm`. */
export function gapToBalls(distanceTo: Distance, balls: readonly Ball[], enoughMm = Number.NEGATIVE_INFINITY): number {
  let least = Number.POSITIVE_INFINITY;
  for (const ball of balls) {
    const gap = distanceTo(ball.at) - ball.radiusMm;
    if (gap < least) least = gap;
    if (least < enoughMm) break;
  }
  return least;
}

const NEAR_MM = 0.3;
const MOVES = 40;

/** Where the shapes stand when pushed out from `at` along `away` until they are `gapMm` off every ball; null if they never are. */
export function pushedOut(
  shapes: readonly CarShape[],
  meshes: Meshes,
  balls: readonly Ball[],
  at: Vec,
  away: Vec,
  gapMm: number,
): Vec | null {
  const still = shapes.map((shape) => shapeDistance(shape, meshes));
  const reach = reachOf(balls, at);
  let out = 0;
  for (let n = 0; n < MOVES; n++) {
    const by = addScaled(at, away, out);
    const gap = gapToBalls((p) => Math.min(...still.map((d) => d(sub(p, by)))), balls);
    if (gap >= gapMm && gap < gapMm + NEAR_MM) return by;
    out += Math.max(0.05, gapMm + NEAR_MM / 2 - gap) * (gap < gapMm ? 1 : -0.5);
    if (out > reach) return null;
  }
  return null;
}

const reachOf = (balls: readonly Ball[], at: Vec): number =>
  Math.max(...balls.map((ball) => distance(ball.at, at))) + 300;

/** A wall square to `along` round a place of the line, with a window that leaves `gapMm` all round the balls. */
export function wallWithWindow(
  draw: Chance,
  balls: readonly Ball[],
  at: Vec,
  axis: 0 | 1 | 2,
  gapMm: number,
): CarShape[] {
  const thick = draw.between(2, 8);
  const [u, v] = ([0, 1, 2] as const).filter((k) => k !== axis) as [0 | 1 | 2, 0 | 1 | 2];
  const through = balls.filter((ball) => Math.abs(ball.at[axis] - at[axis]) < thick / 2 + ball.radiusMm + gapMm);
  const side = (k: 0 | 1 | 2, sign: 1 | -1): number =>
    sign * Math.max(...through.map((ball) => sign * ball.at[k] + ball.radiusMm)) + sign * (gapMm + draw.between(0, 20));
  const [u0, u1, v0, v1] = [side(u, -1), side(u, 1), side(v, -1), side(v, 1)];
  const far = draw.between(250, 600);
  const slab = (lowU: number, highU: number, lowV: number, highV: number): CarShape => {
    const min: [number, number, number] = [0, 0, 0];
    const max: [number, number, number] = [0, 0, 0];
    [min[axis], max[axis]] = [at[axis] - thick / 2, at[axis] + thick / 2];
    [min[u], max[u]] = [lowU, highU];
    [min[v], max[v]] = [lowV, highV];
    return { box: { minMm: min, maxMm: max } };
  };
  return [
    slab(u0 - far, u0, v0 - far, v1 + far),
    slab(u1, u1 + far, v0 - far, v1 + far),
    slab(u0, u1, v0 - far, v0),
    slab(u0, u1, v1, v1 + far),
  ];
}

/** A block behind a port that it stands square on. */
export function portBlock(draw: Chance, at: Vec, faces: Vec): CarShape[] {
  return [
    { cylinder: { fromMm: addScaled(at, faces, -draw.between(40, 110)), toMm: at, radiusMm: draw.between(22, 55) } },
  ];
}
