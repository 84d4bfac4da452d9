import type { Bounds } from './bounds.ts';
import type { HittableSolid } from './hit.ts';
import { buildBvh, type MeshBvh } from './mesh-bvh.kernel.ts';
import { signedSearch } from './mesh-signed-search.ts';
import { firstSlotHit } from './mesh-hit.kernel.ts';
import { type InsideRule, type MeshSign, meshSign } from './mesh-sign.kernel.ts';
import { meshTopology } from './mesh-topology.kernel.ts';
import { rayDirection } from './hit.ts';
import { composed, inverseOf, movedDirection, movedPoint, still } from './motion.ts';
import type { RigidMotion } from './solid.ts';
import type { TriangleMesh } from './triangle-mesh.ts';
import { addScaled } from './vec.ts';

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

/** A solid out of a mesh. */
export function meshSolid(mesh: TriangleMesh, options: MeshOptions = {}): MeshSolid {
  return solidOfPrepared(preparedMesh(mesh, options), still);
}

/** A mesh as a solid; what it is made of and where it stands can be taken to another thread. */
export interface MeshSolid extends HittableSolid {
  readonly kind: 'mesh';
  readonly prepared: PreparedMesh;
  readonly motion: RigidMotion;
  /** How inside is told from outside; `none` means the distance is never negative. */
  readonly insideBy: MeshSign['by'];
  moved(motion: RigidMotion): MeshSolid;
}

/** A prepared mesh, placed: queries are moved into the mesh, so that moving costs nothing. */
export function solidOfPrepared(prepared: PreparedMesh, motion: RigidMotion): MeshSolid {
  const { bvh, sign } = prepared;
  const local = signedSearch(prepared);
  const isStill = motion === still;
  const back = inverseOf(motion);
  const [[m00, m01, m02], [m10, m11, m12], [m20, m21, m22]] = back.rows;
  const [sx, sy, sz] = back.shift;
  const distanceWithin = (x: number, y: number, z: number, limitMm: number): number =>
    isStill
      ? local.distanceWithin(x, y, z, limitMm)
      : local.distanceWithin(
          m00 * x + m01 * y + m02 * z + sx,
          m10 * x + m11 * y + m12 * z + sy,
          m20 * x + m21 * y + m22 * z + sz,
          limitMm,
        );
  return {
    kind: 'mesh',
    prepared,
    motion,
    insideBy: sign.by,
    bounds: isStill ? prepared.bounds : movedBounds(prepared.bounds, motion),
    distance: (x, y, z) => distanceWithin(x, y, z, Infinity),
    distanceWithin,
    closest: (x, y, z) => {
      const { point, distance } = local.closest(...movedPoint(back, [x, y, z]));
      return { point: movedPoint(motion, point), distance };
    },
    moved: (further) => solidOfPrepared(prepared, composed(further, motion)),
    firstHit: (origin, direction, maxMm) => {
      const along = rayDirection(direction);
      const t = firstSlotHit(bvh, movedPoint(back, origin), movedDirection(back, along), maxMm);
      return t <= maxMm ? { alongMm: t, point: addScaled(origin, along, t) } : null;
    },
  };
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

/** The bounds of the moved bounds: a little wide for a turned mesh, and free. */
function movedBounds(b: Bounds, motion: RigidMotion): Bounds {
  const centre = movedPoint(motion, [(b.min[0] + b.max[0]) / 2, (b.min[1] + b.max[1]) / 2, (b.min[2] + b.max[2]) / 2]);
  const reach = motion.rows.map(
    (r) =>
      (Math.abs(r[0]) * (b.max[0] - b.min[0]) +
        Math.abs(r[1]) * (b.max[1] - b.min[1]) +
        Math.abs(r[2]) * (b.max[2] - b.min[2])) /
      2,
  ) as [number, number, number];
  return {
    min: [centre[0] - reach[0], centre[1] - reach[1], centre[2] - reach[2]],
    max: [centre[0] + reach[0], centre[1] + reach[1], centre[2] + reach[2]],
  };
}
