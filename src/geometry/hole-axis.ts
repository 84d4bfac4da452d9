import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import { meshTopology } from './mesh-topology.kernel.ts';
import { circleFit, cylinderFit, type RoundFit, roundMiss } from './round-fit.ts';
import type { TriangleMesh } from './triangle-mesh.ts';
import { add, addScaled, cross, distance, dot, norm, perpendicular, scale, sub, unit, type Vec } from './vec.ts';

/** A round hole or spigot found at a place of a surface. */
export interface HoleAxis {
  /** Found by its wall, or by the rim of the flat round it. */
  readonly by: 'wall' | 'rim';
  /** On the axis, at the mouth: the end towards whoever looks [mm]. */
  readonly centreMm: Vec;
  /** Out of the mouth, unit. */
  readonly axis: Vec;
  readonly radiusMm: number;
  /** Scatter of the surface about it [mm]. */
  readonly rmsMm: number;
  /** How much of the round was seen [deg]. */
  readonly arcDeg: number;
}

/** What is looked at round the place that was pointed at [mm]. */
const WITHIN_MM = 70;
/** Scatter that is still round: so much [mm], but within these shares of the radius [-]. Our own measure, from hand scans. */
const SCATTER_MM = 0.8;
const SCATTER_SHARE = [0.06, 0.1] as const;
/** Less of the round than this does not tell a hole from a bent plate [deg]. */
const LEAST_ARC_DEG = 100;
const LEAST_RADIUS_MM = 1.5;
/** Neighbours that meet at less than this are one wall: a round of twelve facets meets at 30, small scattered ones at more [deg]. */
const SMOOTH_DEG = [40, 58] as const;
/** Looked at wider and wider round the place [mm]. */
const WIDER_MM = [12, 25, 45, WITHIN_MM] as const;
/** A flat: its corners lie this near to one plane [mm], and no triangle of it is tilted more than this [cosine of 50 deg]. */
const FLAT_MM = 1.2;
const FLAT_COS = Math.cos((50 * Math.PI) / 180);
/** Triangles that tell how a flat lies before it is grown. */
const FIRST_PATCH = 40;
/** Normals of a wall spread at least so much in the plane of the round (60 deg of it), and at most so much along the axis [-]. */
const LEAST_SPREAD = 0.08;
const MOST_ALONG = 0.35;
/** A wall shorter than this share of its radius leaves the axis to the flat round it [-]. */
const LEAST_WALL = 0.5;

/** The neighbourhood of a place of a mesh, triangle by triangle. */
interface Near {
  readonly mesh: TriangleMesh;
  readonly corner: Uint32Array;
  readonly across: Int32Array;
  readonly at: Vec;
  /** Triangles that hang together round the place. */
  readonly triangles: readonly number[];
  readonly normals: ReadonlyMap<number, Vec>;
  /** Each with its neighbours' mixed in: what scatter does to one small triangle is no bend of the wall. */
  readonly evened: ReadonlyMap<number, Vec>;
}

/**
 * The axis of the round hole, or spigot, that was pointed at: on its wall or on the flat beside it. Undefined where there is none.
 *
 * @param triangle - the one that was pointed at
 * @param pickedMm - where on it [mm]
 * @param towards - from there to whoever looks; says which end of the axis is the mouth
 */
export function holeAxis(mesh: TriangleMesh, triangle: number, pickedMm: Vec, towards: Vec): HoleAxis | undefined {
  const near = neighbourhood(mesh, triangle, pickedMm);
  return wallHole(near, triangle, towards) ?? rimHole(near, triangle, towards);
}

const pointOf = (mesh: TriangleMesh, index: number): Vec => {
  const p = mesh.positions;
  return [p[3 * index]!, p[3 * index + 1]!, p[3 * index + 2]!];
};
const cornersOf = (mesh: TriangleMesh, t: number): readonly [Vec, Vec, Vec] => [
  pointOf(mesh, mesh.indices[3 * t]!),
  pointOf(mesh, mesh.indices[3 * t + 1]!),
  pointOf(mesh, mesh.indices[3 * t + 2]!),
];
function normalOf([a, b, c]: readonly [Vec, Vec, Vec]): Vec {
  const n = cross(sub(b, a), sub(c, a));
  return norm(n) > 0 ? unit(n) : [0, 0, 1];
}

function neighbourhood(mesh: TriangleMesh, triangle: number, at: Vec): Near {
  const { corner, across } = meshTopology(mesh);
  const normals = new Map<number, Vec>();
  const triangles = grown(across, triangle, (t) => {
    const corners = cornersOf(mesh, t);
    if (t !== triangle && !corners.some((point) => distance(point, at) <= WITHIN_MM)) return false;
    normals.set(t, normalOf(corners));
    return true;
  });
  const evened = new Map(triangles.map((t) => [t, evenedNormal(across, normals, t)] as const));
  return { mesh, corner, across, at, triangles, normals, evened };
}

function evenedNormal(across: Int32Array, normals: ReadonlyMap<number, Vec>, t: number): Vec {
  const own = normals.get(t)!;
  let sum = own;
  for (let k = 0; k < 3; k++) {
    const other = normals.get(across[3 * t + k]!);
    // A neighbour round a corner is another face.
    if (other !== undefined && dot(other, own) > FLAT_COS) sum = add(sum, other);
  }
  return unit(sum);
}

/** Triangles that hang together with one, as far as each is taken. */
function grown(across: Int32Array, from: number, takes: (t: number, before: number) => boolean): readonly number[] {
  const seen = new Set<number>();
  if (!takes(from, from)) return [];
  const list = [from];
  seen.add(from);
  for (let i = 0; i < list.length; i++) {
    const t = list[i]!;
    for (let k = 0; k < 3; k++) {
      const other = across[3 * t + k]!;
      if (other < 0 || seen.has(other) || !takes(other, t)) continue;
      seen.add(other);
      list.push(other);
    }
  }
  return list;
}

/** The corners of triangles, each once. */
function pointsOf(near: Near, triangles: readonly number[]): readonly Vec[] {
  const points = new Map<number, Vec>();
  for (const t of triangles)
    for (let k = 0; k < 3; k++) {
      const index = near.mesh.indices[3 * t + k]!;
      points.set(near.corner[3 * t + k]!, pointOf(near.mesh, index));
    }
  return [...points.values()];
}

/** The picked place lies on the wall itself: tried wider and wider, the widest that is round counts. */
function wallHole(near: Near, triangle: number, towards: Vec): HoleAxis | undefined {
  let best: HoleAxis | undefined;
  for (const smoothDeg of SMOOTH_DEG) {
    for (const withinMm of WIDER_MM) {
      const smooth = smoothRound(near, triangle, Math.cos((smoothDeg * Math.PI) / 180), withinMm);
      const axis = spreadAxis(near, smooth);
      const fit = axis === undefined ? undefined : cylinderFit(pointsOf(near, smooth), axis);
      const found = fit === undefined ? undefined : wholeWall(near, fit, towards);
      if (found !== undefined && Math.abs(roundMiss(found, near.at)) <= scatterOf(found.radiusMm) * 3) best = found;
    }
    if (best !== undefined) return best;
  }
  return best;
}

/** What hangs together with a triangle without a sharp bend. */
function smoothRound(near: Near, triangle: number, cosine: number, withinMm: number): readonly number[] {
  return grown(near.across, triangle, (t, before) => {
    const [n, m] = [near.evened.get(t), near.evened.get(before)];
    if (n === undefined || m === undefined || dot(n, m) < cosine) return false;
    return t === triangle || cornersOf(near.mesh, t).every((point) => distance(point, near.at) <= withinMm);
  });
}

const scatterOf = (radiusMm: number): number =>
  Math.min(Math.max(SCATTER_MM, SCATTER_SHARE[0] * radiusMm), SCATTER_SHARE[1] * radiusMm);

/** The direction that the normals of a round wall are all square to; undefined where they do not go round. */
function spreadAxis(near: Near, triangles: readonly number[]): Vec | undefined {
  const { values, vectors } = eigen(triangles.map((t) => near.evened.get(t)!));
  return values[1] < LEAST_SPREAD || values[0] > values[1] * MOST_ALONG ? undefined : vectors[0];
}

/** From a first fit: every triangle near by that belongs to that wall, fitted again, and again. */
function wholeWall(near: Near, first: RoundFit, towards: Vec): HoleAxis | undefined {
  let fit: RoundFit | undefined = first;
  let wall: readonly number[] = [];
  for (let round = 0; round < 3 && fit !== undefined; round++) {
    const now: RoundFit = fit;
    if (now.radiusMm < LEAST_RADIUS_MM || now.radiusMm > WITHIN_MM) return undefined;
    wall = near.triangles.filter(
      (t) =>
        Math.abs(dot(near.normals.get(t)!, now.axis)) < 0.4 &&
        cornersOf(near.mesh, t).every((point) => Math.abs(roundMiss(now, point)) < scatterOf(now.radiusMm) * 2.5),
    );
    if (wall.length < 6) return undefined;
    fit = cylinderFit(pointsOf(near, wall), now.axis);
  }
  if (fit === undefined || fit.rmsMm > scatterOf(fit.radiusMm)) return undefined;
  if (fit.radiusMm < LEAST_RADIUS_MM || fit.radiusMm > WITHIN_MM) return undefined;
  const points = pointsOf(near, wall);
  const axis = dot(fit.axis, towards) < 0 ? scale(fit.axis, -1) : fit.axis;
  const heights = points.map((point) => dot(sub(point, fit.centreMm), axis)).sort((a, b) => a - b);
  const long = heights.at(-1)! - heights[0]!;
  const arcDeg = arcOf(points, fit.centreMm, axis);
  if (arcDeg < LEAST_ARC_DEG || long < LEAST_WALL * fit.radiusMm) return undefined;
  // The mouth of a scan is ragged: the outermost points but one in fifty.
  const mouth = heights[Math.floor((heights.length - 1) * 0.98)]!;
  const { radiusMm, rmsMm } = fit;
  return { by: 'wall', centreMm: addScaled(fit.centreMm, axis, mouth), axis, radiusMm, rmsMm, arcDeg };
}

/** How much of the round points stand on: all but the widest stretch without one [deg]. */
function arcOf(points: readonly Vec[], centre: Vec, axis: Vec): number {
  const u = perpendicular(axis);
  const v = cross(axis, u);
  const angles = points
    .map((point) => Math.atan2(dot(sub(point, centre), v), dot(sub(point, centre), u)))
    .sort((a, b) => a - b);
  let widest = 2 * Math.PI - (angles.at(-1)! - angles[0]!);
  for (let i = 1; i < angles.length; i++) widest = Math.max(widest, angles[i]! - angles[i - 1]!);
  // Points in steps stand for the step on either side of them.
  const step = (2 * Math.PI) / Math.max(6, points.length);
  return ((2 * Math.PI - Math.max(0, widest - step)) * 180) / Math.PI;
}

/** The picked place lies on the flat round a hole: the rim nearest to it, and the wall behind it where there is one. */
function rimHole(near: Near, triangle: number, towards: Vec): HoleAxis | undefined {
  const flat = flatRound(near, triangle);
  if (flat === undefined) return undefined;
  const axis = dot(flat.normal, towards) < 0 ? scale(flat.normal, -1) : flat.normal;
  let best: { readonly hole: HoleAxis; readonly offMm: number } | undefined;
  for (const rim of rims(near, flat.triangles)) {
    const fit = circleFit(rim, axis);
    if (fit === undefined || fit.radiusMm < LEAST_RADIUS_MM || fit.radiusMm > WITHIN_MM) continue;
    const arcDeg = arcOf(rim, fit.centreMm, axis);
    if (fit.rmsMm > scatterOf(fit.radiusMm) || arcDeg < LEAST_ARC_DEG) continue;
    const lift = dot(sub(flat.middle, fit.centreMm), axis);
    const centreMm = addScaled(fit.centreMm, axis, lift);
    const wall = wholeWall(near, { ...fit, axis }, axis);
    const isSame = wall !== undefined && Math.abs(wall.radiusMm - fit.radiusMm) < scatterOf(fit.radiusMm) * 2;
    const hole: HoleAxis = isSame
      ? { ...wall, centreMm: mouthOf(wall, centreMm) }
      : { by: 'rim', centreMm, axis, radiusMm: fit.radiusMm, rmsMm: fit.rmsMm, arcDeg };
    const offMm = Math.abs(distance(near.at, fit.centreMm) - fit.radiusMm);
    if (best === undefined || offMm < best.offMm) best = { hole, offMm };
  }
  return best?.hole;
}

/** A mouth this near to the flat is where the flat has it; a spigot's, or that of a blind hole seen from its floor, is at the wall's end [mm]. */
const AT_FLAT_MM = 1.5;

function mouthOf(wall: HoleAxis, onFlat: Vec): Vec {
  const lift = dot(sub(onFlat, wall.centreMm), wall.axis);
  return Math.abs(lift) < AT_FLAT_MM ? addScaled(wall.centreMm, wall.axis, lift) : wall.centreMm;
}

interface Flat {
  readonly triangles: ReadonlySet<number>;
  readonly normal: Vec;
  readonly middle: Vec;
}

/** The flat that a triangle is on: a patch round it gives a plane, what lies near that plane gives a better one, and again. */
function flatRound(near: Near, triangle: number): Flat | undefined {
  const first = near.normals.get(triangle)!;
  const alike = grown(near.across, triangle, (t) => dot(near.normals.get(t) ?? [0, 0, 0], first) > FLAT_COS);
  let plane = planeOf(near, alike.slice(0, FIRST_PATCH));
  let flat: readonly number[] = [];
  for (let round = 0; round < 3; round++) {
    const { normal, middle } = plane;
    flat = grown(near.across, triangle, (t) => {
      if (dot(near.normals.get(t) ?? [0, 0, 0], normal) < FLAT_COS) return false;
      return cornersOf(near.mesh, t).every((point) => Math.abs(dot(sub(point, middle), normal)) < FLAT_MM);
    });
    if (flat.length < 4) return undefined;
    plane = planeOf(near, flat);
  }
  return { triangles: new Set(flat), ...plane };
}

/** The plane of least squares through corners, facing as their triangles do. */
function planeOf(near: Near, triangles: readonly number[]): { readonly normal: Vec; readonly middle: Vec } {
  const points = pointsOf(near, triangles);
  const middle = scale(
    points.reduce((sum, point) => add(sum, point), [0, 0, 0] as Vec),
    1 / points.length,
  );
  const facing = triangles.reduce(
    (sum, t) => {
      const [a, b, c] = cornersOf(near.mesh, t);
      return add(sum, cross(sub(b, a), sub(c, a)));
    },
    [0, 0, 0] as Vec,
  );
  const spread = eigen(points.map((point) => sub(point, middle)));
  const normal = spread.vectors[0];
  return { middle, normal: dot(normal, facing) < 0 ? scale(normal, -1) : normal };
}

/** Mean square along three square directions, the least first. */
function eigen(rows: readonly Vec[]): { readonly values: Vec; readonly vectors: readonly [Vec, Vec, Vec] } {
  const spread = Matrix.zeros(3, 3);
  for (const row of rows)
    for (let i = 0; i < 3; i++)
      for (let j = 0; j < 3; j++) spread.set(i, j, spread.get(i, j) + (row[i]! * row[j]!) / rows.length);
  const found = new EigenvalueDecomposition(spread, { assumeSymmetric: true });
  const order = [0, 1, 2].sort((a, b) => found.realEigenvalues[a]! - found.realEigenvalues[b]!) as [
    number,
    number,
    number,
  ];
  const v = found.eigenvectorMatrix;
  const vector = (i: number): Vec => unit([v.get(0, i), v.get(1, i), v.get(2, i)]);
  const value = (i: number): number => found.realEigenvalues[i]!;
  return {
    values: [value(order[0]), value(order[1]), value(order[2])],
    vectors: [vector(order[0]), vector(order[1]), vector(order[2])],
  };
}

/** The edges of a flat, loop by loop, as points; where only the look ends is no edge. */
function rims(near: Near, flat: ReadonlySet<number>): readonly (readonly Vec[])[] {
  const next = new Map<number, Set<number>>();
  const places = new Map<number, Vec>();
  const link = (a: number, b: number): void => void (next.get(a) ?? next.set(a, new Set()).get(a)!).add(b);
  for (const t of flat)
    for (let k = 0; k < 3; k++) {
      const other = near.across[3 * t + k]!;
      if (other >= 0 && (flat.has(other) || !near.normals.has(other))) continue;
      const [i, j] = [3 * t + k, 3 * t + ((k + 1) % 3)];
      const [a, b] = [near.corner[i]!, near.corner[j]!];
      places.set(a, pointOf(near.mesh, near.mesh.indices[i]!));
      places.set(b, pointOf(near.mesh, near.mesh.indices[j]!));
      link(a, b);
      link(b, a);
    }
  const seen = new Set<number>();
  const loops: Vec[][] = [];
  for (const begin of next.keys()) {
    if (seen.has(begin)) continue;
    seen.add(begin);
    const loop = [begin];
    for (let i = 0; i < loop.length; i++)
      for (const other of next.get(loop[i]!)!)
        if (!seen.has(other)) {
          seen.add(other);
          loop.push(other);
        }
    loops.push(loop.map((corner) => places.get(corner)!));
  }
  return loops;
}
