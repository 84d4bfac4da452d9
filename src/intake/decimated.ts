import { MeshoptSimplifier } from 'meshoptimizer/simplifier';
import type { TriangleMesh } from '#geometry';
import { meshEdges } from './mesh-edges.kernel.ts';
import { type SurfaceError, surfaceError } from './surface-error.ts';

/** A lighter mesh and how far it leaves the one it was made from. */
export interface Decimated {
  readonly mesh: TriangleMesh;
  readonly trianglesBefore: number;
  readonly triangles: number;
  /** Measured between the two surfaces by this project, not the simplifier's own estimate. */
  readonly error: SurfaceError;
}

export interface DecimateOptions {
  /** Stop at this many triangles; fewer are not sought. Default: as few as the error allows. */
  readonly triangles?: number;
  /** The farthest the surfaces may part [mm]; wins over the number of triangles. */
  readonly errorMm: number;
  /** Seeds the sampled points. */
  readonly seed?: number;
}

/** How often a result that parts too far is tried again with a lesser error; then the mesh stays as it is. */
const TRIES = 4;

/**
 * Takes triangles out of a mesh where its surface hardly changes. Rims of holes in an open mesh stay as they are to the
 * vertex, through holes and tubes stay open, and the measured error, both ways, is within `errorMm`: a result that
 * fails one of these is thrown away and a finer one made.
 */
export async function decimated(mesh: TriangleMesh, options: DecimateOptions): Promise<Decimated> {
  await MeshoptSimplifier.ready;
  const trianglesBefore = mesh.indices.length / 3;
  const before = shapeOf(mesh);
  const positions = nearOrigin(mesh.positions);
  const target = Math.max(1, Math.floor(options.triangles ?? 1)) * 3;
  let allowed = options.errorMm;
  for (let attempt = 0; attempt < TRIES && target < mesh.indices.length && allowed > 0; attempt++) {
    const [indices] = MeshoptSimplifier.simplify(mesh.indices, positions, 3, target, allowed, [
      'LockBorder',
      'ErrorAbsolute',
    ]);
    const light = compacted(mesh.positions, indices);
    if (sameShape(before, shapeOf(light))) {
      const error = surfaceError(mesh, light, { seed: options.seed ?? 1, expectedMm: options.errorMm });
      if (error.worstMm <= options.errorMm)
        return { mesh: light, trianglesBefore, triangles: indices.length / 3, error };
      // the simplifier's estimate and the measured error go hand in hand: aim a little under what is allowed
      allowed *= Math.min(0.5, (0.8 * options.errorMm) / error.worstMm);
    } else allowed *= 0.5;
  }
  return { mesh, trianglesBefore, triangles: trianglesBefore, error: { worstMm: 0, rmsMm: 0, samplesEach: 0 } };
}

interface Shape {
  readonly open: number;
  /** Vertices less edges plus triangles: goes down by two with each hole through the solid. */
  readonly euler: number;
}

function shapeOf(mesh: TriangleMesh): Shape {
  const vertices = mesh.positions.length / 3;
  const edges = meshEdges(mesh.indices, vertices);
  return { open: edges.open, euler: vertices - edges.count + mesh.indices.length / 3 };
}

const sameShape = (a: Shape, b: Shape): boolean => a.open === b.open && a.euler === b.euler;

/** Single precision from the mesh's own middle, so that a part far from the origin loses no digits. */
function nearOrigin(positions: TriangleMesh['positions']): Float32Array {
  const middle = [0, 1, 2].map((axis) => {
    let [min, max] = [Infinity, -Infinity];
    for (let i = axis; i < positions.length; i += 3) {
      min = Math.min(min, positions[i] ?? 0);
      max = Math.max(max, positions[i] ?? 0);
    }
    return (min + max) / 2;
  });
  return Float32Array.from(positions, (value, i) => value - (middle[i % 3] ?? 0));
}

/** The mesh of these triangles, with only the vertices they use. */
function compacted(positions: TriangleMesh['positions'], indices: Uint32Array): TriangleMesh {
  const renamed = new Uint32Array(positions.length / 3);
  const kept: number[] = [];
  const own = indices.map((vertex) => {
    if (renamed[vertex] === 0) {
      kept.push(vertex);
      renamed[vertex] = kept.length;
    }
    return (renamed[vertex] ?? 1) - 1;
  });
  const out = new Float64Array(kept.length * 3);
  kept.forEach((vertex, i) => out.set(positions.subarray(3 * vertex, 3 * vertex + 3), 3 * i));
  return { positions: out, indices: own };
}
