import { addScaled, distance, dot, norm, sub, type Vec } from '#geometry';
import { EigenvalueDecomposition, Matrix } from 'ml-matrix';
import type { Fitted } from './sift.ts';

/** One equation on the place of a point: how far it lies along a direction, or from a known point. */
export type Sighting =
  | { readonly reading: number; readonly along: Vec; readonly valueMm: number; readonly knownToMm: number }
  | { readonly reading: number; readonly centre: Vec; readonly valueMm: number; readonly knownToMm: number };

export interface PointFit extends Fitted {
  readonly atMm: Vec;
  /** Tolerance along the direction the point is known worst [+-mm], and that direction. */
  readonly knownToMm: number;
  readonly loosest: Vec;
  /** Another place that fits as well, if there is one. */
  readonly other: Vec | undefined;
}

const STEPS = 60;
/** Chi may differ by this much between two places that both fit. */
const AS_GOOD = 9;
/** Two places nearer than this are one for a builder [mm]. */
const APART_MM = 20;

/**
 * The place that suits all sightings best, by weighted least squares (Gauss-Newton with Levenberg's damping), from several
 * starts, since distances alone fit on either side of the plane through their known points.
 *
 *     minimise sum ((n_i . p - v_i) / k_i)^2 + sum ((|p - c_j| - d_j) / k_j)^2
 */
export function fitPoint(sightings: readonly Sighting[], starts: readonly Vec[] = startsFor(sightings)): PointFit {
  const fits = starts.map((start) => descended(sightings, start));
  const best = fits.reduce((a, b) => (b.chi < a.chi - 1e-9 ? b : a));
  const rival = fits.find(
    (fit) =>
      fit.chi < best.chi + AS_GOOD && distance(fit.atMm, best.atMm) > Math.max(APART_MM, 3 * worstKnown(sightings)),
  );
  const { values, vectors } = eigen(normalAt(sightings, best.atMm).normal);
  const spare = sightings.length - 3;
  const excess = spare > 0 ? Math.max(1, best.chi / spare) : 1;
  return {
    atMm: best.atMm,
    chi: best.chi,
    spare,
    knownToMm: values[0]! > 0 ? Math.sqrt(excess / values[0]!) : Number.POSITIVE_INFINITY,
    loosest: vectors[0]!,
    other: rival?.atMm,
  };
}

/** How far a point is from what was sighted [mm], with its sign. */
export function sightingMiss(sighting: Sighting, atMm: Vec): number {
  const is = 'along' in sighting ? dot(sighting.along, atMm) : distance(atMm, sighting.centre);
  return is - sighting.valueMm;
}

function worstKnown(sightings: readonly Sighting[]): number {
  return Math.max(...sightings.map((sighting) => sighting.knownToMm));
}

function startsFor(sightings: readonly Sighting[]): Vec[] {
  const spheres = sightings.filter((sighting) => 'centre' in sighting);
  if (spheres.length === 0) return [[0, 0, 0]];
  const middle = (i: 0 | 1 | 2) => spheres.reduce((sum, s) => sum + s.centre[i], 0) / spheres.length;
  const anchor: Vec = [middle(0), middle(1), middle(2)];
  const far = spheres.reduce((sum, s) => sum + s.valueMm, 0) / spheres.length + 1;
  const axes: readonly Vec[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  return axes.flatMap((axis) => [addScaled(anchor, axis, far), addScaled(anchor, axis, -far)]);
}

function descended(sightings: readonly Sighting[], start: Vec): { readonly atMm: Vec; readonly chi: number } {
  let at = start;
  let chi = chiAt(sightings, at);
  let damping = 1e-3;
  for (let step = 0; step < STEPS && damping < 1e12; step++) {
    const { normal, right } = normalAt(sightings, at);
    const held = damping * Math.max(normal[0], normal[3], normal[5], 1e-12);
    const move = solvedSymmetric(
      [normal[0] + held, normal[1], normal[2], normal[3] + held, normal[4], normal[5] + held],
      right,
    );
    const next = sub(at, move);
    const nextChi = chiAt(sightings, next);
    if (nextChi <= chi) {
      const gain = norm(sub(next, at));
      [at, chi] = [next, nextChi];
      damping = Math.max(1e-15, damping / 10);
      if (gain < 1e-7) break;
    } else damping *= 10;
  }
  return { atMm: at, chi };
}

function chiAt(sightings: readonly Sighting[], at: Vec): number {
  return sightings.reduce((sum, sighting) => sum + (sightingMiss(sighting, at) / sighting.knownToMm) ** 2, 0);
}

/** A symmetric 3 x 3 matrix: xx, xy, xz, yy, yz, zz. */
type Symmetric = readonly [xx: number, xy: number, xz: number, yy: number, yz: number, zz: number];

function normalAt(sightings: readonly Sighting[], at: Vec): { readonly normal: Symmetric; readonly right: Vec } {
  const n: [number, number, number, number, number, number] = [0, 0, 0, 0, 0, 0];
  const right: [number, number, number] = [0, 0, 0];
  for (const sighting of sightings) {
    const [x, y, z] = slope(sighting, at);
    const weight = 1 / sighting.knownToMm ** 2;
    const left = sightingMiss(sighting, at) * weight;
    right[0] += x * left;
    right[1] += y * left;
    right[2] += z * left;
    n[0] += x * x * weight;
    n[1] += x * y * weight;
    n[2] += x * z * weight;
    n[3] += y * y * weight;
    n[4] += y * z * weight;
    n[5] += z * z * weight;
  }
  return { normal: n, right };
}

/** By Cramer's rule; the damping keeps the matrix from being singular. */
function solvedSymmetric([xx, xy, xz, yy, yz, zz]: Symmetric, r: Vec): Vec {
  const a = yy * zz - yz * yz;
  const b = xz * yz - xy * zz;
  const c = xy * yz - xz * yy;
  const over = 1 / (xx * a + xy * b + xz * c);
  return [
    (a * r[0] + b * r[1] + c * r[2]) * over,
    (b * r[0] + (xx * zz - xz * xz) * r[1] + (xy * xz - xx * yz) * r[2]) * over,
    (c * r[0] + (xy * xz - xx * yz) * r[1] + (xx * yy - xy * xy) * r[2]) * over,
  ];
}

function slope(sighting: Sighting, at: Vec): Vec {
  if ('along' in sighting) return sighting.along;
  const away = sub(at, sighting.centre);
  const length = Math.max(norm(away), 1e-9);
  return [away[0] / length, away[1] / length, away[2] / length];
}

/** Eigenvalues of a symmetric matrix, least first, with their unit vectors. */
function eigen([xx, xy, xz, yy, yz, zz]: Symmetric): {
  readonly values: readonly number[];
  readonly vectors: readonly Vec[];
} {
  const evd = new EigenvalueDecomposition(
    new Matrix([
      [xx, xy, xz],
      [xy, yy, yz],
      [xz, yz, zz],
    ]),
    { assumeSymmetric: true },
  );
  const order = [0, 1, 2].sort((a, b) => evd.realEigenvalues[a]! - evd.realEigenvalues[b]!);
  const column = (j: number): Vec => [
    evd.eigenvectorMatrix.get(0, j),
    evd.eigenvectorMatrix.get(1, j),
    evd.eigenvectorMatrix.get(2, j),
  ];
  return { values: order.map((j) => evd.realEigenvalues[j]!), vectors: order.map(column) };
}
