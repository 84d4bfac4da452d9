import type { Bounds } from './bounds.ts';
import { checkFinite, GeometryError } from './geometry-error.ts';
import { hitOfInterval, rayDirection, slabInterval, type HittableSolid } from './hit.ts';
import { composed, inverseOf, movedDirection, movedPoint, still } from './motion.ts';
import type { RigidMotion } from './solid.ts';
import { addScaled, dot, norm, type Vec } from './vec.ts';

/**
 * A box from `min` to `max`, then placed by `motion` (none: square to the axes). A side may be 0 thick.
 *
 * @throws GeometryError unless the corners are finite and min <= max
 */
export function box(min: Vec, max: Vec, motion: RigidMotion = still): HittableSolid {
  checkFinite('box min', min);
  checkFinite('box max', max);
  for (const i of [0, 1, 2] as const) {
    if (min[i] > max[i]) throw new GeometryError(`box max[${i}]`, max[i], `at least min[${i}] = ${min[i]}`);
  }
  const half: Vec = [(max[0] - min[0]) / 2, (max[1] - min[1]) / 2, (max[2] - min[2]) / 2];
  const middle: Vec = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
  const [hx, hy, hz] = half;
  const [cx, cy, cz] = movedPoint(motion, middle);
  // Columns of the rotation: the box's own axes seen in the car.
  const [ux, uy, uz] = inverseOf(motion).rows;

  const distance = (x: number, y: number, z: number): number => {
    const px = x - cx;
    const py = y - cy;
    const pz = z - cz;
    const ex = Math.abs(px * ux[0] + py * ux[1] + pz * ux[2]) - hx;
    const ey = Math.abs(px * uy[0] + py * uy[1] + pz * uy[2]) - hy;
    const ez = Math.abs(px * uz[0] + py * uz[1] + pz * uz[2]) - hz;
    const deepest = ex > ey ? (ex > ez ? ex : ez) : ey > ez ? ey : ez;
    if (deepest <= 0) return deepest;
    const ox = ex > 0 ? ex : 0;
    const oy = ey > 0 ? ey : 0;
    const oz = ez > 0 ? ez : 0;
    return Math.sqrt(ox * ox + oy * oy + oz * oz);
  };
  const toLocal = (x: number, y: number, z: number): [number, number, number] => {
    const p: Vec = [x - cx, y - cy, z - cz];
    return [dot(ux, p), dot(uy, p), dot(uz, p)];
  };
  const local = (p: Vec): Vec => addScaled(addScaled(addScaled([cx, cy, cz], ux, p[0]), uy, p[1]), uz, p[2]);
  return {
    kind: 'box',
    bounds: boxBounds([cx, cy, cz], half, motion),
    form: { kind: 'box', centre: [cx, cy, cz], axes: [ux, uy, uz], half },
    distance,
    distanceWithin: distance,
    closest: (x, y, z) => {
      const p = toLocal(x, y, z);
      const found = closestOfBox(p, half);
      return {
        point: local(found),
        distance: norm([p[0] - found[0], p[1] - found[1], p[2] - found[2]]) * signIn(p, half),
      };
    },
    moved: (further) => box(min, max, composed(further, motion)),
    firstHit: (origin, direction, maxMm) => {
      const along = rayDirection(direction);
      const o = toLocal(...origin);
      const d = movedDirection(inverseOf(motion), along);
      const [x, y, z] = [0, 1, 2].map((i) => slabInterval(o[i]!, d[i]!, -half[i]!, half[i]!)) as [number, number][];
      return hitOfInterval(origin, along, Math.max(x![0], y![0], z![0]), Math.min(x![1], y![1], z![1]), maxMm);
    },
  };
}

function signIn(p: Vec, half: Vec): 1 | -1 {
  return Math.abs(p[0]) <= half[0] && Math.abs(p[1]) <= half[1] && Math.abs(p[2]) <= half[2] ? -1 : 1;
}

/** The closest point of the surface of a box about the origin: clamped from outside, straight to the nearest face from inside. */
function closestOfBox(p: Vec, half: Vec): Vec {
  const clamped = p.map((v, i) => Math.min(half[i]!, Math.max(-half[i]!, v))) as [number, number, number];
  if (signIn(p, half) > 0) return clamped;
  const room = p.map((v, i) => half[i]! - Math.abs(v));
  const face = room[0]! <= room[1]! && room[0]! <= room[2]! ? 0 : room[1]! <= room[2]! ? 1 : 2;
  clamped[face] = p[face]! < 0 ? -half[face]! : half[face]!;
  return clamped;
}

function boxBounds(centre: Vec, half: Vec, motion: RigidMotion): Bounds {
  const reach = (r: Vec): number => Math.abs(r[0]) * half[0] + Math.abs(r[1]) * half[1] + Math.abs(r[2]) * half[2];
  const by = motion.rows.map(reach) as [number, number, number];
  return {
    min: [centre[0] - by[0], centre[1] - by[1], centre[2] - by[2]],
    max: [centre[0] + by[0], centre[1] + by[1], centre[2] + by[2]],
  };
}
