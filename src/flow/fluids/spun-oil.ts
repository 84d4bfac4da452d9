/**
 * Turning speed that returns along the wall of a round tank keep up, all of the oil turning as one: what they bring in moment less
 * what leaves with the oil at the wall is what wall and floor take.
 *
 *     Q (v - w R) = (pi/4) f w^2 R^3 (h + R/5)
 *
 * @param flowM3S - of oil in the returns [m3/s]
 * @param speedMS - of oil and air where they come in [m/s]
 * @param radiusM - of the tank [m]
 * @param depthM - of the oil [m]
 * @param friction - Darcy friction factor of the wall [-]
 * @returns turning speed [rad/s]
 * @valid flowM3S >= 0, speedMS >= 0, radiusM > 0, depthM > 0, friction > 0
 * @source moment-balance
 * @example turningSpeed(0.0008, 3, 0.09, 0.3, 0.03) // 15.38
 */
export function turningSpeed(
  flowM3S: number,
  speedMS: number,
  radiusM: number,
  depthM: number,
  friction: number,
): number {
  const drag = (Math.PI / 4) * friction * radiusM ** 3 * (depthM + radiusM / 5);
  const carried = flowM3S * radiusM;
  return (Math.sqrt(carried ** 2 + 4 * drag * flowM3S * speedMS) - carried) / (2 * drag);
}

/**
 * Smallest bubble with a dirty skin that comes inward through turning oil in a time: smaller ones go round again. What is heavier
 * is thrown outward, what is lighter comes in, as it would rise at w^2 r in place of g.
 *
 *     d = sqrt(18 mu ln(R/r)/((rho_l - rho_b) w^2 t))
 *
 * @param ratio - of the radius it begins at to the one it comes to, R/r [-]
 * @param turningRadS - turning speed of the oil [rad/s]
 * @param timeS - given [s]
 * @param liquidPaS - viscosity of the liquid [Pa s]
 * @param liquidKgM3 - density of the liquid [kg/m3]
 * @param bubbleKgM3 - density of the bubble [kg/m3]
 * @returns diameter [m]
 * @valid Reynolds number of the bubble below 1; ratio > 1, turningRadS > 0, timeS > 0, liquidPaS > 0, liquidKgM3 > bubbleKgM3
 * @source slow-spheres at w^2 r in place of g
 * @example smallestSpunBubble(2, 12, 8, 0.01, 845, 1) // 3.582e-4
 */
export const smallestSpunBubble = (
  ratio: number,
  turningRadS: number,
  timeS: number,
  liquidPaS: number,
  liquidKgM3: number,
  bubbleKgM3: number,
): number => Math.sqrt((18 * liquidPaS * Math.log(ratio)) / ((liquidKgM3 - bubbleKgM3) * turningRadS ** 2 * timeS));
