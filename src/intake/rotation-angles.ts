type Triple = readonly [number, number, number];

const DEGREES = 180 / Math.PI;
/** Nearer to a right angle about Y than this [-, sine], X and Z turn about one axis and only their sum shows. */
const LOCKED = 1 - 1e-12;

/**
 * The angles about car X, then Y, then Z, right-handed, that make up a rotation.
 *
 *     R = Rz(c) Ry(b) Rx(a);  sin b = -R[2][0],  tan a = R[2][1] / R[2][2],  tan c = R[1][0] / R[0][0]
 *
 * @param rows - a proper rotation, row by row [-]
 * @returns a, b, c [deg], b within +-90; where b is +-90, c is 0
 */
export function rotationAngles(rows: readonly [Triple, Triple, Triple]): Triple {
  const [[r00], [r10, r11, r12], [r20, r21, r22]] = rows;
  if (Math.abs(r20) >= LOCKED) return [Math.atan2(-r12, r11) * DEGREES, -Math.sign(r20) * 90, 0];
  return [Math.atan2(r21, r22) * DEGREES, -Math.asin(r20) * DEGREES, Math.atan2(r10, r00) * DEGREES];
}
