import { norm, type TriangleMesh, type Vec } from '#geometry';
import { closedMesh } from './closed-mesh.ts';
import type { LevelMesh } from './mesh-level.kernel.ts';
import { FlowError } from '../flow-error.ts';

/** Added to the diagonal, so that a corner in the middle of a flat face moves square to it and nowhere else. */
const FLAT = 1e-10;

/**
 * The inside of a wall: each corner goes to where its faces, moved in by the wall, meet (least squares where more than three
 * meet). Exact for flat-sided bodies; on round ones within the sagitta of the facets.
 *
 * @throws FlowError where the wall leaves no inside, or a face would turn over
 */
export function insetMesh(what: string, mesh: LevelMesh, wallMm: number): LevelMesh {
  const { positions, indices, areas, centre } = mesh;
  const sums = new Float64Array((positions.length / 3) * 9);
  for (let i = 0; i < indices.length; i += 3) {
    const area: Vec = [areas[i]!, areas[i + 1]!, areas[i + 2]!];
    const size = norm(area);
    if (size === 0) continue;
    const n: Vec = [area[0] / size, area[1] / size, area[2] / size];
    for (const corner of indices.subarray(i, i + 3)) addFace(sums, corner * 9, n, size);
  }
  const moved = positions.map((_, i) => positions[i]! + centre[i % 3]!);
  for (let corner = 0; corner < positions.length / 3; corner++) {
    const step = inward(sums, corner * 9, wallMm);
    for (const axis of [0, 1, 2] as const) moved[corner * 3 + axis] = moved[corner * 3 + axis]! + step[axis];
  }
  const fault = new FlowError(`${what} wallMm`, wallMm, 'a wall that leaves an inside; else give the inside as a mesh');
  const inside = meshOrFault({ positions: moved, indices }, what, fault);
  if (inside.indices.length !== indices.length || !facesKept(inside, areas)) throw fault;
  return inside;
}

function meshOrFault(mesh: TriangleMesh, what: string, fault: FlowError): LevelMesh {
  try {
    return closedMesh(what, mesh);
  } catch {
    throw fault;
  }
}

/** Same triangles in the same order: none may have turned over. */
function facesKept(inside: LevelMesh, areas: Float64Array): boolean {
  for (let i = 0; i < areas.length; i += 3) {
    const along =
      areas[i]! * inside.areas[i]! + areas[i + 1]! * inside.areas[i + 1]! + areas[i + 2]! * inside.areas[i + 2]!;
    if (!(along > 0) && (areas[i] !== 0 || areas[i + 1] !== 0 || areas[i + 2] !== 0)) return false;
  }
  return true;
}

/** Adds the face's plane: the six of n n^T, then n; weighted by area, so that slivers count little. */
function addFace(sums: Float64Array, at: number, [x, y, z]: Vec, weight: number): void {
  [x * x, x * y, x * z, y * y, y * z, z * z, x, y, z].forEach((v, i) => {
    sums[at + i] = sums[at + i]! + v * weight;
  });
}

/** Solves (sum n n^T) step = -wall sum n by Cramer's rule. */
function inward(sums: Float64Array, at: number, wallMm: number): Vec {
  const trace = sums[at]! + sums[at + 3]! + sums[at + 5]!;
  const [xx, xy, xz] = [sums[at]! / trace + FLAT, sums[at + 1]! / trace, sums[at + 2]! / trace];
  const [yy, yz, zz] = [sums[at + 3]! / trace + FLAT, sums[at + 4]! / trace, sums[at + 5]! / trace + FLAT];
  const [x, y, z] = [6, 7, 8].map((i) => (-wallMm * sums[at + i]!) / trace) as [number, number, number];
  const cofactors = [yy * zz - yz * yz, xz * yz - xy * zz, xy * yz - xz * yy] as const;
  const determinant = xx * cofactors[0] + xy * cofactors[1] + xz * cofactors[2];
  return [
    (cofactors[0] * x + cofactors[1] * y + cofactors[2] * z) / determinant,
    (cofactors[1] * x + (xx * zz - xz * xz) * y + (xy * xz - xx * yz) * z) / determinant,
    (cofactors[2] * x + (xy * xz - xx * yz) * y + (xx * yy - xy * xy) * z) / determinant,
  ];
}
