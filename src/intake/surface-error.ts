import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import type { TriangleMesh } from '#geometry';
import { nearestDistances } from './nearest-distances.kernel.ts';

/** How far two surfaces lie apart, measured from sampled points of each to the whole of the other. */
export interface SurfaceError {
  /** The farthest sampled point of either surface from the other [mm]. */
  readonly worstMm: number;
  /** Root mean square over the points spread evenly by area on both surfaces [mm]. */
  readonly rmsMm: number;
  /** Points sampled on each surface. */
  readonly samplesEach: number;
}

/** Enough that a patch of 1/2000 of the surface is missed once in e^5 = 150 times. */
const SAMPLES = 20_000;

type Random = ReturnType<typeof xoroshiro128plus>;

/**
 * The distance between two surfaces both ways: half the points lie at random on the triangles, evenly by area, half are
 * vertices, where a coarser mesh leaves a finer one the farthest. Which side of the surface a point lies on doesn't count.
 */
export function surfaceError(a: TriangleMesh, b: TriangleMesh, options: SampleOptions = {}): SurfaceError {
  const samples = options.samples ?? SAMPLES;
  const random = xoroshiro128plus(options.seed ?? 1);
  const forth = oneWay(a, b, samples, random, options.expectedMm ?? 1);
  const back = oneWay(b, a, samples, random, options.expectedMm ?? 1);
  return {
    worstMm: Math.max(forth.worst, back.worst),
    rmsMm: Math.sqrt((forth.squares + back.squares) / (forth.spread + back.spread)),
    samplesEach: samples,
  };
}

export interface SampleOptions {
  readonly samples?: number;
  readonly seed?: number;
  /** How far apart the surfaces will be about [mm]; a good guess makes it quicker, none makes it wrong. */
  readonly expectedMm?: number;
}

function oneWay(
  from: TriangleMesh,
  to: TriangleMesh,
  samples: number,
  random: Random,
  expectedMm: number,
): { worst: number; squares: number; spread: number } {
  const spread = Math.ceil(samples / 2);
  const points = new Float64Array(3 * samples);
  const areas = runningAreas(from);
  for (let i = 0; i < spread; i++) points.set(pointOnSurface(from, areas, random), 3 * i);
  const p = from.positions;
  const vertices = p.length / 3;
  for (let i = spread; i < samples; i++) {
    // every vertex in turn where there are few, so that none is left to chance
    const vertex = vertices <= samples - spread ? (i - spread) % vertices : uniformInt(random, 0, vertices - 1);
    points.set(p.subarray(3 * vertex, 3 * vertex + 3), 3 * i);
  }
  const distances = nearestDistances(to, points, expectedMm);
  return {
    worst: distances.reduce((worst, d) => Math.max(worst, d), 0),
    squares: distances.subarray(0, spread).reduce((sum, d) => sum + d * d, 0),
    spread,
  };
}

/** The area of all triangles up to and with each one [mm^2]. */
function runningAreas(mesh: TriangleMesh): Float64Array {
  const areas = new Float64Array(mesh.indices.length / 3);
  let sum = 0;
  for (let t = 0; t < areas.length; t++) {
    const [a, b, c] = cornersOf(mesh, t);
    const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]] as const;
    const v = [c[0] - a[0], c[1] - a[1], c[2] - a[2]] as const;
    sum += Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]) / 2;
    areas[t] = sum;
  }
  return areas;
}

function pointOnSurface(mesh: TriangleMesh, areas: Float64Array, random: Random): readonly [number, number, number] {
  const wanted = uniformFloat64(random) * (areas.at(-1) ?? 0);
  let low = 0;
  let high = areas.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((areas[middle] ?? 0) > wanted) high = middle;
    else low = middle + 1;
  }
  const [a, b, c] = cornersOf(mesh, low);
  // the square root makes the points even over the triangle instead of crowded at one corner
  const r = Math.sqrt(uniformFloat64(random));
  const s = uniformFloat64(random);
  const [wa, wb, wc] = [1 - r, r * (1 - s), r * s];
  return [wa * a[0] + wb * b[0] + wc * c[0], wa * a[1] + wb * b[1] + wc * c[1], wa * a[2] + wb * b[2] + wc * c[2]];
}

type Triple = readonly [number, number, number];

function cornersOf(mesh: TriangleMesh, t: number): readonly [Triple, Triple, Triple] {
  const corner = (k: number): Triple => {
    const at = (mesh.indices[3 * t + k] ?? 0) * 3;
    return [mesh.positions[at] ?? 0, mesh.positions[at + 1] ?? 0, mesh.positions[at + 2] ?? 0];
  };
  return [corner(0), corner(1), corner(2)];
}
