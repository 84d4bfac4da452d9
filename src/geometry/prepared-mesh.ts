import type { Bounds } from './bounds.ts';
import type { MeshBvh } from './bvh-layout.ts';
import { buildBvh } from './mesh-bvh.kernel.ts';
import { type InsideRule, type MeshSign, meshSign } from './mesh-sign.kernel.ts';
import { meshTopology } from './mesh-topology.kernel.ts';
import type { TriangleMesh } from './triangle-mesh.ts';

/**
 * A mesh made ready for queries. Plain data over shared memory: posted to another thread, it is the same memory there.
 */
export interface PreparedMesh {
  readonly bvh: MeshBvh;
  readonly sign: MeshSign;
  readonly bounds: Bounds;
}

export interface MeshOptions {
  /**
   * `auto` (as the mesh is: closed, nearly closed, or an open sheet), `winding` (inside where the surface goes round more than
   * half), `never`.
   */
  readonly inside?: InsideRule;
}

/** Builds the tree and finds out, once, how inside is told from outside. The mesh must have passed `triangleMesh`. */
export function preparedMesh(mesh: TriangleMesh, options: MeshOptions = {}): PreparedMesh {
  const rule = options.inside ?? 'auto';
  const bvh = buildBvh(mesh);
  const sign = rule === 'never' ? ({ by: 'none' } as const) : meshSign(bvh, meshTopology(mesh), rule);
  return { bvh, sign, bounds: meshBounds(mesh) };
}

function meshBounds(mesh: TriangleMesh): Bounds {
  const { positions: p, indices } = mesh;
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < indices.length; i++) {
    for (const axis of [0, 1, 2] as const) {
      const v = p[indices[i]! * 3 + axis]!;
      if (v < min[axis]) min[axis] = v;
      if (v > max[axis]) max[axis] = v;
    }
  }
  return { min, max };
}
