import { FROM_INSIDE, firstRayHit, RAY_HIT_WORDS, type RayScene, SHEET_BACK } from '#geometry';
import { cosineWay, patchPoint, POINT_WORDS } from './patch-point.kernel.ts';
import { chanceOf, scrambled, SOBOL_DIMENSIONS, stirred } from './sobol.kernel.ts';

/** Rays begin this far off the surface, so that they do not meet it where they start [mm]. */
const OFF_MM = 0.02;
/** What is left of a ray below this share is taken up where it last met something. */
const LEAST_SHARE = 0.005;
/** Numbers that set the seeds of one ray's own chance apart from those of the sequence. */
const OWN_CHANCE = 1000;

/** What one row of exchange is worked out from. */
export interface RowAsk {
  readonly scene: RayScene;
  /** Emissivity of each surface: of its outside, and of a sheet's back. */
  readonly emissivity: Float64Array;
  readonly backEmissivity: Float64Array;
  readonly replicates: number;
  /** Rays in each replicate. */
  readonly rays: number;
  /** Of `reversedSobol`, at least `rays` points. */
  readonly sobol: Uint32Array;
}

/** Sums of one row, kept from row to row: share taken up by each surface (the last: surroundings) in each replicate. */
export interface RowSums {
  readonly sums: Float64Array;
  /** Surfaces that took something up, in the order in which they first did. */
  readonly met: Int32Array;
  readonly isMet: Uint8Array;
  metCount: number;
  /** Rays that began inside another solid: that part of the patch is covered. */
  covered: number;
  /** Flights of all rays, reflections among them. */
  flights: number;
}

const point = new Float64Array(POINT_WORDS);
const way = new Float64Array(3);
const hit = new Float64Array(RAY_HIT_WORDS);

/**
 * Follows all rays of one patch. Each takes up weight * emissivity at what it meets and goes on from there with the rest by the cosine
 * law, until it leaves the scene or little is left of it.
 *
 * @param own - the patch's own surface: what begins inside another solid stays there
 */
export function traceRow(ask: RowAsk, pieces: Float64Array, own: number, seed: number, row: RowSums): void {
  const { scene, sobol, rays, replicates } = ask;
  row.metCount = 0;
  row.covered = 0;
  for (let replicate = 0; replicate < replicates; replicate++) {
    const base = stirred(seed, replicate);
    const s0 = stirred(base, 0);
    const s1 = stirred(base, 1);
    const s2 = stirred(base, 2);
    const s3 = stirred(base, 3);
    for (let n = 0; n < rays; n++) {
      const at = n * SOBOL_DIMENSIONS;
      patchPoint(pieces, scrambled(sobol[at]!, s0), scrambled(sobol[at + 1]!, s1), point);
      let nx = point[3]!;
      let ny = point[4]!;
      let nz = point[5]!;
      cosineWay(nx, ny, nz, scrambled(sobol[at + 2]!, s2), scrambled(sobol[at + 3]!, s3), way);
      let x = point[0]! + OFF_MM * nx;
      let y = point[1]! + OFF_MM * ny;
      let z = point[2]! + OFF_MM * nz;
      let weight = 1;
      let last = own;
      for (let flight = 0; ; flight++) {
        row.flights++;
        const item = firstRayHit(scene, x, y, z, way[0]!, way[1]!, way[2]!, Infinity, hit);
        if (item < 0) {
          take(row, ask, ask.emissivity.length, replicate, weight);
          break;
        }
        if (hit[4] === FROM_INSIDE) {
          if (flight === 0) row.covered++;
          take(row, ask, last, replicate, weight);
          break;
        }
        const taken = hit[4] === SHEET_BACK ? ask.backEmissivity[item]! : ask.emissivity[item]!;
        const left = weight * (1 - taken);
        if (left < LEAST_SHARE) {
          take(row, ask, item, replicate, weight);
          break;
        }
        take(row, ask, item, replicate, weight - left);
        weight = left;
        last = item;
        const along = hit[0]!;
        nx = hit[1]!;
        ny = hit[2]!;
        nz = hit[3]!;
        x += along * way[0]! + OFF_MM * nx;
        y += along * way[1]! + OFF_MM * ny;
        z += along * way[2]! + OFF_MM * nz;
        const dimension = 4 + 2 * flight;
        if (dimension + 1 < SOBOL_DIMENSIONS) {
          const u = scrambled(sobol[at + dimension]!, stirred(base, dimension));
          cosineWay(nx, ny, nz, u, scrambled(sobol[at + dimension + 1]!, stirred(base, dimension + 1)), way);
        } else {
          const rayOwn = stirred(base, OWN_CHANCE + n);
          cosineWay(nx, ny, nz, chanceOf(rayOwn, dimension), chanceOf(rayOwn, dimension + 1), way);
        }
      }
    }
  }
}

function take(row: RowSums, ask: RowAsk, surface: number, replicate: number, share: number): void {
  if (row.isMet[surface] === 0) {
    row.isMet[surface] = 1;
    row.met[row.metCount++] = surface;
    row.sums.fill(0, surface * ask.replicates, (surface + 1) * ask.replicates);
  }
  row.sums[surface * ask.replicates + replicate]! += share;
}
