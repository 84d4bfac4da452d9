import { checkFinite, GeometryError } from './geometry-error.ts';

/** A surface of triangles: x,y,z triples [mm] and three indices a triangle, anticlockwise seen from outside. */
export interface TriangleMesh {
  readonly positions: Float32Array | Float64Array;
  readonly indices: Uint32Array;
}

/** A mesh that has passed the border: all numbers finite, all indices in range, no triangle without area. */
export interface CheckedMesh extends TriangleMesh {
  /** Triangles left out because their corners lie on one line or coincide. */
  readonly droppedTriangles: number;
}

/**
 * Checks a mesh at the border and leaves out triangles without area.
 *
 * @throws GeometryError for a coordinate that is not finite, an index out of range, a length that is no multiple of three, or no triangle left
 */
export function triangleMesh(positions: Float32Array | Float64Array, indices: Uint32Array): CheckedMesh {
  if (positions.length % 3 !== 0) throw new GeometryError('mesh positions length', positions.length, 'a multiple of 3');
  if (indices.length % 3 !== 0) throw new GeometryError('mesh indices length', indices.length, 'a multiple of 3');
  checkFinite('mesh positions', positions);
  const corners = positions.length / 3;
  for (let i = 0; i < indices.length; i++) {
    if (indices[i]! >= corners) throw new GeometryError(`mesh indices[${i}]`, indices[i], `0 to ${corners - 1}`);
  }
  const kept = new Uint32Array(indices.length);
  let n = 0;
  for (let i = 0; i < indices.length; i += 3) {
    if (!hasArea(positions, indices[i]! * 3, indices[i + 1]! * 3, indices[i + 2]! * 3)) continue;
    kept[n++] = indices[i]!;
    kept[n++] = indices[i + 1]!;
    kept[n++] = indices[i + 2]!;
  }
  const droppedTriangles = (indices.length - n) / 3;
  if (n === 0)
    throw new GeometryError('mesh', `${indices.length / 3} triangles, none with area`, 'at least one triangle');
  return { positions, indices: droppedTriangles > 0 ? kept.slice(0, n) : indices, droppedTriangles };
}

function hasArea(p: Float32Array | Float64Array, a: number, b: number, c: number): boolean {
  const ux = p[b]! - p[a]!;
  const uy = p[b + 1]! - p[a + 1]!;
  const uz = p[b + 2]! - p[a + 2]!;
  const vx = p[c]! - p[a]!;
  const vy = p[c + 1]! - p[a + 1]!;
  const vz = p[c + 2]! - p[a + 2]!;
  return uy * vz - uz * vy !== 0 || uz * vx - ux * vz !== 0 || ux * vy - uy * vx !== 0;
}
