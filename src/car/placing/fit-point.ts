import { addScaled, distance, dot, norm, sub, type Vec } from '#geometry';
import { EigenvalueDecomposition, Matrix, solve } from 'ml-matrix';
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
export function fitPoint(sightings: readonly Sighting[]): PointFit {
  const fits = startsFor(sightings).map((start) => descended(sightings, start));
  const best = fits.reduce((a, b) => (b.chi < a.chi - 1e-9 ? b : a));
  const rival = fits.find((fit) => fit.chi < best.chi + AS_GOOD && distance(fit.atMm, best.atMm) > Math.max(APART_MM, 3 * worstKnown(sightings)));
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
  const axes: readonly Vec[] = [[1, 0, 0], [0, 1, 0], [0, 0, 1]];
  return axes.flatMap((axis) => [addScaled(anchor, axis, far), addScaled(anchor, axis, -far)]);
}

function descended(sightings: readonly Sighting[], start: Vec): { readonly atMm: Vec; readonly chi: number } {
  let at = start;
  let chi = chiAt(sightings, at);
  let damping = 1e-3;
  for (let step = 0; step < STEPS && damping < 1e12; step++) {
    const { normal, right } = normalAt(sightings, at);
    const scale = Math.max(normal.get(0, 0), normal.get(1, 1), normal.get(2, 2), 1e-12);
    const move = solve(Matrix.add(normal, Matrix.eye(3, 3).mul(damping * scale)), right);
    const next: Vec = [at[0] - move.get(0, 0), at[1] - move.get(1, 0), at[2] - move.get(2, 0)];
    const nextChi = chiAt(sightings, next);
    if (nextChi <= chi) {
      const gain = norm(sub(next, at));
      [at, chi] = [next, nextChi];
      damping = Math.max(1e-15, damping / 10);
      if (gain < 1e-9) break;
    } else damping *= 10;
  }
  return { atMm: at, chi };
}

function chiAt(sightings: readonly Sighting[], at: Vec): number {
  return sightings.reduce((sum, sighting) => sum + (sightingMiss(sighting, at) / sighting.knownToMm) ** 2, 0);
}

function normalAt(sightings: readonly Sighting[], at: Vec): { readonly normal: Matrix; readonly right: Matrix } {
  const normal = Matrix.zeros(3, 3);
  const right = Matrix.zeros(3, 1);
  for (const sighting of sightings) {
    const g = slope(sighting, at);
    const weight = 1 / sighting.knownToMm ** 2;
    const left = sightingMiss(sighting, at);
    for (let i = 0; i < 3; i++) {
      right.set(i, 0, right.get(i, 0) + g[i]! * left * weight);
      for (let j = 0; j < 3; j++) normal.set(i, j, normal.get(i, j) + g[i]! * g[j]! * weight);
    }
  }
  return { normal, right };
}

function slope(sighting: Sighting, at: Vec): Vec {
  if ('along' in sighting) return sighting.along;
  const away = sub(at, sighting.centre);
  const length = Math.max(norm(away), 1e-9);
  return [away[0] / length, away[1] / length, away[2] / length];
}

/** Eigenvalues of a symmetric matrix, least first, with their unit vectors. */
function eigen(matrix: Matrix): { readonly values: readonly number[]; readonly vectors: readonly Vec[] } {
  const evd = new EigenvalueDecomposition(matrix, { assumeSymmetric: true });
  const order = [0, 1, 2].sort((a, b) => evd.realEigenvalues[a]! - evd.realEigenvalues[b]!);
  const column = (j: number): Vec => [evd.eigenvectorMatrix.get(0, j), evd.eigenvectorMatrix.get(1, j), evd.eigenvectorMatrix.get(2, j)];
  return { values: order.map((j) => evd.realEigenvalues[j]!), vectors: order.map(column) };
}
