import type { Vec } from '#geometry';

/**
 * Which way is plumb up, in car axes, when the car leans.
 *
 *     up = (-sin p, -cos p sin r, cos p cos r)
 *
 * Pitch comes first: the car is rolled about its own long axis and then pitched nose up.
 *
 * @param pitchDeg - nose up [deg]
 * @param rollDeg - right side down [deg]
 * @returns unit vector [-]
 * @valid -90 <= pitchDeg <= 90, -90 <= rollDeg <= 90
 * @source geometry
 * @example upInCar(90, 0)[0] // -1
 */
export function upInCar(pitchDeg: number, rollDeg: number): Vec {
  const p = (pitchDeg * Math.PI) / 180;
  const r = (rollDeg * Math.PI) / 180;
  return [-Math.sin(p), -Math.cos(p) * Math.sin(r), Math.cos(p) * Math.cos(r)];
}
