import type { Bounds } from './bounds.ts';
import { insideCylinder } from './capsule.ts';
import { checkFinite, checkPositive, GeometryError } from './geometry-error.ts';
import { hitOfInterval, rayDirection, type HittableSolid } from './hit.ts';
import { movedPoint } from './motion.ts';
import { addScaled, dot, norm, perpendicular, scale, sub, type Vec } from './vec.ts';

/**
 * A round bar from `a` to `b` with flat ends.
 *
 * @throws GeometryError unless the ends are finite and apart, and the radius is above 0
 */
export function cylinder(a: Vec, b: Vec, radiusMm: number): HittableSolid {
  checkFinite('cylinder from', a);
  checkFinite('cylinder to', b);
  checkPositive('cylinder radiusMm', radiusMm);
  const length = norm(sub(b, a));
  if (!(length > 0)) throw new GeometryError('cylinder length', length, 'two ends that are apart');
  const axis = scale(sub(b, a), 1 / length);
  const [ax, ay, az] = a;
  const [nx, ny, nz] = axis;
  const half = length / 2;

  const distance = (x: number, y: number, z: number): number => {
    const px = x - ax;
    const py = y - ay;
    const pz = z - az;
    const t = px * nx + py * ny + pz * nz;
    const sx = px - t * nx;
    const sy = py - t * ny;
    const sz = pz - t * nz;
    const beside = Math.sqrt(sx * sx + sy * sy + sz * sz) - radiusMm;
    const beyond = Math.abs(t - half) - half;
    if (beside > 0 && beyond > 0) return Math.sqrt(beside * beside + beyond * beyond);
    return beside > beyond ? beside : beyond;
  };
  return {
    kind: 'cylinder',
    bounds: cylinderBounds(a, b, axis, radiusMm),
    form: { kind: 'cylinder', a, b, radiusMm },
    distance,
    distanceWithin: distance,
    closest: (x, y, z) => {
      const p = sub([x, y, z], a);
      const t = dot(p, axis);
      const side = addScaled(p, axis, -t);
      const off = norm(side);
      const out = off > 0 ? scale(side, 1 / off) : perpendicular(axis);
      const beside = off - radiusMm;
      const beyond = Math.abs(t - half) - half;
      const onRim = beside > 0 && beyond > 0;
      const toSide = onRim || beside > beyond;
      const along = onRim || !toSide ? (t > half ? length : 0) : t;
      const point = addScaled(addScaled(a, axis, along), out, toSide ? radiusMm : off);
      return { point, distance: onRim ? Math.hypot(beside, beyond) : Math.max(beside, beyond) };
    },
    moved: (motion) => cylinder(movedPoint(motion, a), movedPoint(motion, b), radiusMm),
    firstHit: (origin, direction, maxMm) => {
      const along = rayDirection(direction);
      const [enters, leaves] = insideCylinder(a, axis, length, radiusMm, origin, along);
      return hitOfInterval(origin, along, enters, leaves, maxMm);
    },
  };
}

/** Each end disc reaches r sqrt(1 - n_i^2) along axis i. */
function cylinderBounds(a: Vec, b: Vec, axis: Vec, r: number): Bounds {
  const reach = (i: 0 | 1 | 2): number => r * Math.sqrt(Math.max(0, 1 - axis[i] * axis[i]));
  const low = (i: 0 | 1 | 2): number => Math.min(a[i], b[i]) - reach(i);
  const high = (i: 0 | 1 | 2): number => Math.max(a[i], b[i]) + reach(i);
  return { min: [low(0), low(1), low(2)], max: [high(0), high(1), high(2)] };
}
