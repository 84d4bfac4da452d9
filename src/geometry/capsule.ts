import type { Bounds } from './bounds.ts';
import { checkFinite, checkPositive } from './geometry-error.ts';
import { hitOfInterval, quadraticInterval, rayDirection, slabInterval, type HittableSolid } from './hit.ts';
import { movedPoint } from './motion.ts';
import { addScaled, dot, norm, perpendicular, scale, sub, type Vec } from './vec.ts';

/**
 * All points within `radiusMm` of the straight piece from `a` to `b` (a ball where they coincide).
 *
 * @throws GeometryError unless the points are finite and the radius is above 0
 */
export function capsule(a: Vec, b: Vec, radiusMm: number): HittableSolid {
  checkFinite('capsule from', a);
  checkFinite('capsule to', b);
  checkPositive('capsule radiusMm', radiusMm);
  const [ax, ay, az] = a;
  const dx = b[0] - ax;
  const dy = b[1] - ay;
  const dz = b[2] - az;
  const squared = dx * dx + dy * dy + dz * dz;
  const inverse = squared > 0 ? 1 / squared : 0;
  const bounds = capsuleBounds(a, b, radiusMm);

  const alongOf = (x: number, y: number, z: number): number => {
    const t = ((x - ax) * dx + (y - ay) * dy + (z - az) * dz) * inverse;
    return t > 0 ? (t < 1 ? t : 1) : 0;
  };
  const distance = (x: number, y: number, z: number): number => {
    const t = alongOf(x, y, z);
    const ux = x - ax - t * dx;
    const uy = y - ay - t * dy;
    const uz = z - az - t * dz;
    return Math.sqrt(ux * ux + uy * uy + uz * uz) - radiusMm;
  };
  return {
    kind: 'capsule',
    bounds,
    form: { kind: 'capsule', a, b, radiusMm },
    distance,
    distanceWithin: distance,
    closest: (x, y, z) => {
      const foot = addScaled(a, [dx, dy, dz], alongOf(x, y, z));
      const out = sub([x, y, z], foot);
      const length = norm(out);
      const way = length > 0 ? scale(out, 1 / length) : sideways([dx, dy, dz]);
      return { point: addScaled(foot, way, radiusMm), distance: length - radiusMm };
    },
    moved: (motion) => capsule(movedPoint(motion, a), movedPoint(motion, b), radiusMm),
    firstHit: (origin, direction, maxMm) => {
      const along = rayDirection(direction);
      const [enters, leaves] = insideCapsule(a, [dx, dy, dz], radiusMm, origin, along);
      return hitOfInterval(origin, along, enters, leaves, maxMm);
    },
  };
}

/** A direction square to the axis; any one for a ball. */
function sideways(axis: Vec): Vec {
  const length = norm(axis);
  return length > 0 ? perpendicular(scale(axis, 1 / length)) : [1, 0, 0];
}

function capsuleBounds(a: Vec, b: Vec, r: number): Bounds {
  const low = (i: 0 | 1 | 2): number => Math.min(a[i], b[i]) - r;
  const high = (i: 0 | 1 | 2): number => Math.max(a[i], b[i]) + r;
  return { min: [low(0), low(1), low(2)], max: [high(0), high(1), high(2)] };
}

/** Where the ray is inside: a capsule is convex, so its parts (two balls, one cylinder) join to one interval. */
function insideCapsule(a: Vec, axis: Vec, r: number, origin: Vec, along: Vec): [number, number] {
  const length = norm(axis);
  let enters = Infinity;
  let leaves = -Infinity;
  const join = (from: number, to: number): void => {
    if (!(from <= to)) return;
    enters = Math.min(enters, from);
    leaves = Math.max(leaves, to);
  };
  for (const centre of [a, addScaled(a, axis, 1)]) {
    const o = sub(origin, centre);
    join(...quadraticInterval(1, dot(o, along), dot(o, o) - r * r));
  }
  if (length > 0) join(...insideCylinder(a, scale(axis, 1 / length), length, r, origin, along));
  return [enters, leaves];
}

/** Where the ray is inside the flat-ended cylinder from `a` along the unit `axis`. */
export function insideCylinder(
  a: Vec,
  axis: Vec,
  length: number,
  r: number,
  origin: Vec,
  along: Vec,
): [number, number] {
  const o = sub(origin, a);
  const oAxis = dot(o, axis);
  const dAxis = dot(along, axis);
  const oSide = addScaled(o, axis, -oAxis);
  const dSide = addScaled(along, axis, -dAxis);
  const round = quadraticInterval(dot(dSide, dSide), dot(oSide, dSide), dot(oSide, oSide) - r * r);
  const flat = slabInterval(oAxis, dAxis, 0, length);
  return [Math.max(round[0], flat[0]), Math.min(round[1], flat[1])];
}
