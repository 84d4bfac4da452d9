import { firstRayHit, FROM_INSIDE, RAY_HIT_WORDS, type RayScene, SHEET_BACK } from '#geometry';
import { cosineWay, patchPoint, POINT_WORDS } from './patch-point.kernel.ts';
import { chanceOf, scrambled, SOBOL_DIMENSIONS, stirred } from './sobol.kernel.ts';

/** Rays begin this far off the surface, so that they do not meet it where they start [mm]. */
export const OFF_MM = 0.02;
/** A first surface that leaves less than this share of a ray takes up all of it. */
const LEAST_SHARE = 0.005;
/** A ray ends after so many flights: with an emissivity of 0.01 all round one in 23 000 comes that far. */
const MOST_FLIGHTS = 1000;
/** Numbers that set the seeds of one ray's own chance apart from those of the sequence. */
const OWN_CHANCE = 1000;
/** The same for the ways it goes, apart from where it ends. */
const FOR_WAYS = 10_000;

/** How the end of a flight is written down: the surface it met and from which side (in the two top bits), or that it left. */
export const LEFT_SCENE = 0xffff;
export const SIDE_SHIFT = 14;
export const SURFACE_MASK = 0x3fff;

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

/** One ray with its reflections. */
export interface RayPath {
  flights: number;
  /** Where it starts, then where each flight ends, x y z [mm]; a flight that leaves ends at its direction from where it began. */
  readonly points: Float64Array;
  /** What each flight met: see LEFT_SCENE. */
  readonly ends: Uint16Array;
}

export const newRayPath = (): RayPath => ({
  flights: 0,
  points: new Float64Array(3 * (MOST_FLIGHTS + 1)),
  ends: new Uint16Array(MOST_FLIGHTS),
});

/** Sums of one row, kept from row to row: share taken up by each surface (the last: surroundings) in each replicate. */
export interface RowSums {
  readonly sums: Float64Array;
  /** Surfaces that took something up, in the order in which they first did. */
  readonly met: Int32Array;
  readonly isMet: Uint8Array;
  metCount: number;
  /** Rays that began inside another solid: that part of the patch is covered. */
  covered: number;
}

const point = new Float64Array(POINT_WORDS);
const way = new Float64Array(3);
const hit = new Float64Array(RAY_HIT_WORDS);

/**
 * Follows ray `n` of a patch: by the cosine law from where it starts, and so again from each surface that it meets, until it leaves the
 * scene, meets a solid from inside, or is taken up. The first surface takes up its share of the ray; at later ones the rest goes on as
 * a whole, and ends with the probability of being taken up: as many reflections as there are, not as many as leave nothing.
 *
 * @param base - seed of the patch's replicate
 */
export function traceRay(ask: RowAsk, pieces: Float64Array, base: number, n: number, path: RayPath): void {
  const { scene, sobol } = ask;
  const at = n * SOBOL_DIMENSIONS;
  patchPoint(pieces, scrambled(sobol[at]!, stirred(base, 0)), scrambled(sobol[at + 1]!, stirred(base, 1)), point);
  let nx = point[3]!;
  let ny = point[4]!;
  let nz = point[5]!;
  const u0 = scrambled(sobol[at + 2]!, stirred(base, 2));
  cosineWay(nx, ny, nz, u0, scrambled(sobol[at + 3]!, stirred(base, 3)), way);
  let x = point[0]! + OFF_MM * nx;
  let y = point[1]! + OFF_MM * ny;
  let z = point[2]! + OFF_MM * nz;
  const { points, ends } = path;
  points[0] = x;
  points[1] = y;
  points[2] = z;
  for (let flight = 0; flight < MOST_FLIGHTS; ) {
    const item = firstRayHit(scene, x, y, z, way[0]!, way[1]!, way[2]!, Infinity, hit);
    path.flights = flight + 1;
    const end = 3 * (flight + 1);
    if (item < 0) {
      ends[flight] = LEFT_SCENE;
      points[end] = way[0]!;
      points[end + 1] = way[1]!;
      points[end + 2] = way[2]!;
      return;
    }
    const along = hit[0]!;
    const side = hit[4]!;
    x += along * way[0]!;
    y += along * way[1]!;
    z += along * way[2]!;
    ends[flight] = item | (side << SIDE_SHIFT);
    points[end] = x;
    points[end + 1] = y;
    points[end + 2] = z;
    if (side === FROM_INSIDE) return;
    const taken = side === SHEET_BACK ? ask.backEmissivity[item]! : ask.emissivity[item]!;
    if (flight === 0 ? 1 - taken < LEAST_SHARE : chanceOf(stirred(base, OWN_CHANCE + n), flight) < taken) return;
    nx = hit[1]!;
    ny = hit[2]!;
    nz = hit[3]!;
    x += OFF_MM * nx;
    y += OFF_MM * ny;
    z += OFF_MM * nz;
    const dimension = 4 + 2 * flight;
    if (dimension + 1 < SOBOL_DIMENSIONS) {
      const u = scrambled(sobol[at + dimension]!, stirred(base, dimension));
      cosineWay(nx, ny, nz, u, scrambled(sobol[at + dimension + 1]!, stirred(base, dimension + 1)), way);
    } else {
      const rayOwn = stirred(base, OWN_CHANCE + n);
      cosineWay(nx, ny, nz, chanceOf(rayOwn, FOR_WAYS + dimension), chanceOf(rayOwn, FOR_WAYS + dimension + 1), way);
    }
    flight++;
  }
}

/**
 * What one ray brings to its row: emissivity at the first surface, the rest where it ends. Always 1 in all.
 *
 * @param own - surface of the patch: what begins inside another solid stays there
 * @param ends - of the ray's flights from place `from` to before `to`
 */
export function takeRay(
  row: RowSums,
  ask: RowAsk,
  own: number,
  replicate: number,
  ends: Uint16Array,
  from: number,
  to: number,
): void {
  let left = 1;
  const first = ends[from]!;
  if (to - from > 1) {
    const surface = first & SURFACE_MASK;
    const taken = first >> SIDE_SHIFT === SHEET_BACK ? ask.backEmissivity[surface]! : ask.emissivity[surface]!;
    take(row, ask, surface, replicate, taken);
    left = 1 - taken;
  }
  const end = ends[to - 1]!;
  if (end === LEFT_SCENE) return take(row, ask, ask.emissivity.length, replicate, left);
  if (end >> SIDE_SHIFT !== FROM_INSIDE) return take(row, ask, end & SURFACE_MASK, replicate, left);
  if (to - from === 1) row.covered++;
  take(row, ask, to - from === 1 ? own : ends[to - 2]! & SURFACE_MASK, replicate, left);
}

function take(row: RowSums, ask: RowAsk, surface: number, replicate: number, share: number): void {
  if (row.isMet[surface] === 0) {
    row.isMet[surface] = 1;
    row.met[row.metCount++] = surface;
    row.sums.fill(0, surface * ask.replicates, (surface + 1) * ask.replicates);
  }
  row.sums[surface * ask.replicates + replicate]! += share;
}
