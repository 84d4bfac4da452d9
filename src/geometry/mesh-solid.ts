import type { Bounds } from './bounds.ts';
import type { HittableSolid } from './hit.ts';
import { signedSearch } from './mesh-signed-search.ts';
import { firstSlotHit } from './mesh-hit.kernel.ts';
import type { MeshSign } from './mesh-sign.kernel.ts';
import { type MeshOptions, type PreparedMesh, preparedMesh } from './prepared-mesh.ts';
import { rayDirection } from './hit.ts';
import { composed, inverseOf, movedDirection, movedPoint, still } from './motion.ts';
import type { RigidMotion } from './solid.ts';
import { type TriangleMesh, triangleMesh } from './triangle-mesh.ts';
import { addScaled } from './vec.ts';

/** A solid out of a mesh. */
export function meshSolid(mesh: TriangleMesh, options: MeshOptions = {}): MeshSolid {
  return solidOfPrepared(preparedMesh(mesh, options), still);
}

/** Meshes already built: a car that is looked at again after an edit does not build its scans again. */
const built = new WeakMap<TriangleMesh, MeshSolid>();

/**
 * The solid of a mesh as read, checked and built once for as long as the mesh is held.
 *
 * @throws GeometryError for a mesh that `triangleMesh` refuses
 */
export function solidOfMesh(mesh: TriangleMesh): MeshSolid {
  const had = built.get(mesh);
  if (had !== undefined) return had;
  const made = meshSolid(triangleMesh(mesh.positions, mesh.indices));
  built.set(mesh, made);
  return made;
}

/** A mesh as a solid; what it is made of and where it stands can be taken to another thread. */
export interface MeshSolid extends HittableSolid {
  readonly kind: 'mesh';
  readonly prepared: PreparedMesh;
  readonly motion: RigidMotion;
  /** How inside is told from outside; `none` means the distance is never negative. */
  readonly insideBy: MeshSign['by'];
  /** How far a point lies from the surface, on either side of it: cheaper than with its sign [mm]. */
  offSurface(x: number, y: number, z: number): number;
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
    form: { kind: 'mesh', prepared, motion },
    prepared,
    motion,
    insideBy: sign.by,
    bounds: isStill ? prepared.bounds : movedBounds(prepared.bounds, motion),
    distance: (x, y, z) => distanceWithin(x, y, z, Infinity),
    distanceWithin,
    offSurface: (x, y, z) => {
      const at = isStill ? ([x, y, z] as const) : movedPoint(back, [x, y, z]);
      return local.offSurface(at[0], at[1], at[2]);
    },
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
