import type { RigidMotion } from './solid.ts';
import { add, dot, norm, scale, sub, type Vec } from './vec.ts';
import { GeometryError } from './geometry-error.ts';

/** The motion that leaves everything where it is. */
export const still: RigidMotion = {
  rows: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  shift: [0, 0, 0],
};

/** Where a point goes. */
export function movedPoint(m: RigidMotion, p: Vec): Vec {
  return add(movedDirection(m, p), m.shift);
}

/** Where a direction goes: turned, not shifted. */
export function movedDirection(m: RigidMotion, v: Vec): Vec {
  return [dot(m.rows[0], v), dot(m.rows[1], v), dot(m.rows[2], v)];
}

/** One motion out of two: `first`, then `then`. */
export function composed(then: RigidMotion, first: RigidMotion): RigidMotion {
  const [c0, c1, c2] = columns(first.rows);
  const row = (r: Vec): Vec => [dot(r, c0), dot(r, c1), dot(r, c2)];
  return { rows: [row(then.rows[0]), row(then.rows[1]), row(then.rows[2])], shift: movedPoint(then, first.shift) };
}

/** The motion that undoes `m`. */
export function inverseOf(m: RigidMotion): RigidMotion {
  const rows = columns(m.rows);
  const back = (r: Vec): number => -dot(r, m.shift) + 0;
  return { rows, shift: [back(rows[0]), back(rows[1]), back(rows[2])] };
}

/** Shifted by `by`, not turned. */
export function shifted(by: Vec): RigidMotion {
  return { rows: still.rows, shift: by };
}

/**
 * Turned about car X, then car Y, then car Z, each right-handed, through the origin.
 *
 * @param turnDeg - the three angles [deg]; quarter turns come out exact
 */
export function rotationFromDeg(turnDeg: Vec): RigidMotion {
  const [cx, sx] = cosSinDeg(turnDeg[0]);
  const [cy, sy] = cosSinDeg(turnDeg[1]);
  const [cz, sz] = cosSinDeg(turnDeg[2]);
  return {
    rows: [
      [cz * cy, cz * sy * sx - sz * cx, cz * sy * cx + sz * sx],
      [sz * cy, sz * sy * sx + cz * cx, sz * sy * cx - cz * sx],
      [-sy, cy * sx, cy * cx],
    ],
    shift: [0, 0, 0],
  };
}

/**
 * Turned about the line through `pivot` along `axis`, right-handed.
 *
 * @param axis - any length above zero
 * @param angleRad - [rad]
 */
export function motionAbout(pivot: Vec, axis: Vec, angleRad: number): RigidMotion {
  const length = norm(axis);
  if (!(length > 0 && Number.isFinite(length))) throw new GeometryError('turning axis', axis, 'a direction, not zero');
  const [x, y, z] = scale(axis, 1 / length);
  const c = Math.cos(angleRad);
  const s = Math.sin(angleRad);
  const k = 1 - c;
  const rows: RigidMotion['rows'] = [
    [c + x * x * k, x * y * k - z * s, x * z * k + y * s],
    [y * x * k + z * s, c + y * y * k, y * z * k - x * s],
    [z * x * k - y * s, z * y * k + x * s, c + z * z * k],
  ];
  return { rows, shift: sub(pivot, movedDirection({ rows, shift: pivot }, pivot)) };
}

function columns(rows: RigidMotion['rows']): [Vec, Vec, Vec] {
  const [a, b, c] = rows;
  return [
    [a[0], b[0], c[0]],
    [a[1], b[1], c[1]],
    [a[2], b[2], c[2]],
  ];
}

/** Cosine and sine with exact quarter turns, so that a box turned by 90 degrees stays square to the axes. */
function cosSinDeg(deg: number): [number, number] {
  if (!Number.isFinite(deg)) throw new GeometryError('turn', deg, 'a finite angle [deg]');
  const quarter = deg / 90;
  if (Number.isInteger(quarter)) {
    const q = ((quarter % 4) + 4) % 4;
    return [q === 0 ? 1 : q === 2 ? -1 : 0, q === 1 ? 1 : q === 3 ? -1 : 0];
  }
  const rad = (deg * Math.PI) / 180;
  return [Math.cos(rad), Math.sin(rad)];
}

/** Turned about car X, then Y, then Z [deg], then moved [mm]: how shapes of a car are placed; undefined where neither is given. */
export function placing(turnDeg: Vec | undefined, atMm: Vec | undefined): RigidMotion | undefined {
  if (turnDeg === undefined && atMm === undefined) return undefined;
  const turn = rotationFromDeg(turnDeg ?? [0, 0, 0]);
  return { rows: turn.rows, shift: add(movedPoint(turn, [0, 0, 0]), atMm ?? [0, 0, 0]) };
}
