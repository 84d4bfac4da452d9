import type { Bounds } from './bounds.ts';
import type { HittableSolid } from './hit.ts';
import { buildBvh, type MeshBvh } from './mesh-bvh.kernel.ts';
import { closestOnTriangle, closestSearch } from './mesh-closest.kernel.ts';
import { firstSlotHit } from './mesh-hit.kernel.ts';
import { type InsideRule, type MeshSign, meshSign, signAt } from './mesh-sign.kernel.ts';
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
  const search = closestSearch(bvh);
  const isStill = motion === still;
  const back = inverseOf(motion);
  const [[m00, m01, m02], [m10, m11, m12], [m20, m21, m22]] = back.rows;
  const [sx, sy, sz] = back.shift;
  const found = new Float64Array(1);
  const q = new Float64Array(3);
  let lastSlot = 0;

  /** Signed distance; the closest point, in the mesh, stays in q. */
  const signed = (x: number, y: number, z: number, limitMm: number): number => {
    const px = isStill ? x : m00 * x + m01 * y + m02 * z + sx;
    const py = isStill ? y : m10 * x + m11 * y + m12 * z + sy;
    const pz = isStill ? z : m20 * x + m21 * y + m22 * z + sz;
    const limit = limitMm >= 0 && sign.by === 'none' ? limitMm * limitMm : Infinity;
    const slot = search(px, py, pz, limit, lastSlot, found);
    if (slot < 0) return limitMm;
    lastSlot = slot;
    const feature = closestOnTriangle(bvh, slot, px, py, pz, q);
    return signAt(bvh, sign, slot, feature, q[0]!, q[1]!, q[2]!, px, py, pz) * Math.sqrt(found[0]!);
  };
  return {
    kind: 'mesh',
    prepared,
    motion,
    insideBy: sign.by,
    bounds: isStill ? prepared.bounds : movedBounds(prepared.bounds, motion),
    distance: (x, y, z) => signed(x, y, z, Infinity),
    distanceWithin: (x, y, z, limitMm) => signed(x, y, z, limitMm),
    closest: (x, y, z) => {
      const d = signed(x, y, z, Infinity);
      return { point: movedPoint(motion, [q[0]!, q[1]!, q[2]!]), distance: d };
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
