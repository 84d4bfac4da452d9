import type { Vec } from '#geometry';

const DEG = 180 / Math.PI;

/**
 * The angles about X, then Y, then Z (right-handed, fixed axes) that make up a rotation.
 *
 *     R = Rz(z) Ry(y) Rx(x);  y = atan2(-R31, sqrt(R11^2 + R21^2));  x = atan2(R32, R33);  z = atan2(R21, R11)
 *
 * Where y is a right angle only x - z or x + z is fixed; then z is 0.
 *
 * @param rows - proper rotation, row by row [-]
 * @returns three angles [deg]
 */
export function turnAnglesDeg(rows: readonly [Vec, Vec, Vec]): [number, number, number] {
  const [a, b, c] = rows;
  const flat = Math.hypot(a[0], b[0]);
  const y = Math.atan2(-c[0], flat);
  if (flat < 1e-9) return [Math.atan2(-b[2], b[1]) * DEG, y * DEG, 0];
  return [Math.atan2(c[1], c[2]) * DEG, y * DEG, Math.atan2(b[0], a[0]) * DEG];
}
