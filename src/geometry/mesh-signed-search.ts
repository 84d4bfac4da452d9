import { closestOnTriangle, closestSearch } from './mesh-closest.kernel.ts';
import { signByNormal, windingNumber } from './mesh-sign.kernel.ts';
import type { PreparedMesh } from './prepared-mesh.ts';
import type { Vec } from './vec.ts';

/** A point this little inside the ball of free space round the last one shares its sign; the rest is left to rounding. */
const SAME_BALL = 1 - 1e-9;

/**
 * Signed distances to a mesh where it lies. Queries near the last one are quick: its triangle bounds the search, and the ball round
 * it, which the surface does not enter, has one sign. The answers do not depend on what was asked before.
 */
export function signedSearch(prepared: PreparedMesh) {
  const { bvh, sign } = prepared;
  const { min, max } = prepared.bounds;
  const search = closestSearch(bvh);
  const found = new Float64Array(1);
  const q = new Float64Array(3);
  let slot = 0;
  let [lastX, lastY, lastZ, last] = [0, 0, 0, 0];

  const isOutsideBounds = (x: number, y: number, z: number): boolean =>
    x < min[0] || y < min[1] || z < min[2] || x > max[0] || y > max[1] || z > max[2];
  const sharesBall = (x: number, y: number, z: number): boolean =>
    (x - lastX) ** 2 + (y - lastY) ** 2 + (z - lastZ) ** 2 < last * last * SAME_BALL;

  const signAt = (x: number, y: number, z: number, mm: number): 1 | -1 => {
    if (sign.by === 'none' || mm === 0 || isOutsideBounds(x, y, z)) return 1;
    if (sign.by === 'winding') return sign.way * windingNumber(bvh, sign.moments, x, y, z) > 0.5 ? -1 : 1;
    if (sharesBall(x, y, z)) return last < 0 ? -1 : 1;
    return signByNormal(bvh, sign, slot, closestOnTriangle(bvh, slot, x, y, z, q), q, x, y, z);
  };
  /** True only where nothing but "outside" is possible without a search. */
  const surelyOutside = (x: number, y: number, z: number): boolean =>
    sign.by === 'none' || isOutsideBounds(x, y, z) || (sign.by === 'normals' && last > 0 && sharesBall(x, y, z));

  const distanceWithin = (x: number, y: number, z: number, limitMm: number): number => {
    const limited = limitMm > 0 && limitMm < Infinity;
    const nearest = search(x, y, z, limited ? limitMm * limitMm : Infinity, slot, found);
    // Further than the limit: enough for a point outside; one inside is deep, and wants its depth.
    if (nearest < 0 && limited) return surelyOutside(x, y, z) ? limitMm : distanceWithin(x, y, z, Infinity);
    if (nearest < 0) throw new RangeError(`no distance at ${x}, ${y}, ${z}: not a place`);
    slot = nearest;
    const mm = Math.sqrt(found[0]!);
    last = mm * signAt(x, y, z, mm);
    lastX = x;
    lastY = y;
    lastZ = z;
    return last;
  };
  const offSurface = (x: number, y: number, z: number): number => {
    slot = search(x, y, z, Infinity, slot, found);
    return Math.sqrt(found[0]!);
  };
  const closest = (x: number, y: number, z: number): { point: Vec; distance: number } => {
    const distance = distanceWithin(x, y, z, Infinity);
    closestOnTriangle(bvh, slot, x, y, z, q);
    return { point: [q[0]!, q[1]!, q[2]!], distance };
  };
  return { distanceWithin, closest, offSurface };
}
