import { standardGravity } from '#units';

/**
 * Speed of a small rigid sphere through a liquid; that of a bubble with a dirty skin, which is the rule in used oil. Below zero it sinks.
 *
 *     v = g d^2 (rho_l - rho_b)/(18 mu)
 *
 * @param diameterM - of the sphere [m]
 * @param liquidPaS - viscosity of the liquid [Pa s]
 * @param liquidKgM3 - density of the liquid [kg/m3]
 * @param bubbleKgM3 - density of the sphere [kg/m3]
 * @returns speed upward [m/s]
 * @valid Reynolds number of the sphere below 1; diameterM > 0, liquidPaS > 0
 * @source slow-spheres
 * @example riseOfRigidBubble(1e-4, 0.01, 845, 1) // 4.598e-4
 */
export const riseOfRigidBubble = (
  diameterM: number,
  liquidPaS: number,
  liquidKgM3: number,
  bubbleKgM3: number,
): number => (standardGravity * diameterM ** 2 * (liquidKgM3 - bubbleKgM3)) / (18 * liquidPaS);

/**
 * How much faster a clean bubble or drop goes than a rigid sphere, because its skin moves along; 1.5 for a gas in oil.
 *
 *     f = 3 (mu_l + mu_b)/(2 mu_l + 3 mu_b)
 *
 * @param liquidPaS - viscosity of the liquid [Pa s]
 * @param bubblePaS - viscosity within the bubble [Pa s]
 * @returns factor [-]
 * @valid liquidPaS > 0, bubblePaS >= 0
 * @source slow-spheres
 * @example mobileSkinFactor(0.01, 2.2e-5) // 1.4984
 */
export const mobileSkinFactor = (liquidPaS: number, bubblePaS: number): number =>
  (3 * (liquidPaS + bubblePaS)) / (2 * liquidPaS + 3 * bubblePaS);

/**
 * Speed of a clean small bubble through a liquid: the rigid one's times the factor of its moving skin.
 *
 *     v = f g d^2 (rho_l - rho_b)/(18 mu_l),   f = 3 (mu_l + mu_b)/(2 mu_l + 3 mu_b)
 *
 * @param diameterM - of the bubble [m]
 * @param liquidPaS - viscosity of the liquid [Pa s]
 * @param liquidKgM3 - density of the liquid [kg/m3]
 * @param bubbleKgM3 - density of the bubble [kg/m3]
 * @param bubblePaS - viscosity within the bubble [Pa s]
 * @returns speed upward [m/s]
 * @valid Reynolds number of the bubble below 1; diameterM > 0, liquidPaS > 0, bubblePaS >= 0
 * @source slow-spheres
 * @example riseOfCleanBubble(1e-4, 0.01, 845, 1, 0) // 6.897e-4
 */
export const riseOfCleanBubble = (
  diameterM: number,
  liquidPaS: number,
  liquidKgM3: number,
  bubbleKgM3: number,
  bubblePaS: number,
): number => mobileSkinFactor(liquidPaS, bubblePaS) * riseOfRigidBubble(diameterM, liquidPaS, liquidKgM3, bubbleKgM3);

/**
 * Reynolds number of a bubble; above 1 the slow laws say too much speed.
 *
 *     Re = rho v d/mu
 *
 * @param diameterM - of the bubble [m]
 * @param speedMS - its speed [m/s]
 * @param liquidPaS - viscosity of the liquid [Pa s]
 * @param liquidKgM3 - density of the liquid [kg/m3]
 * @returns Reynolds number [-]
 * @valid diameterM > 0, liquidPaS > 0
 * @source slow-spheres
 * @example bubbleReynolds(1e-4, 4.598e-4, 0.01, 845) // 0.003885
 */
export const bubbleReynolds = (diameterM: number, speedMS: number, liquidPaS: number, liquidKgM3: number): number =>
  (liquidKgM3 * Math.abs(speedMS) * diameterM) / liquidPaS;

/**
 * Time that the oil stays in a tank if it moves through as a plug; stirred, a part leaves much sooner.
 *
 *     t = V/Q
 *
 * @param volumeM3 - of the oil in the tank [m3]
 * @param flowM3S - through it [m3/s]
 * @returns time [s]
 * @valid volumeM3 > 0, flowM3S > 0
 * @source slow-spheres plug flow
 * @example dwellTime(0.008, 0.001) // 8.0
 */
export const dwellTime = (volumeM3: number, flowM3S: number): number => volumeM3 / flowM3S;

/**
 * Smallest bubble with a dirty skin that rises through a depth in a time: smaller ones go round again.
 *
 *     d = sqrt(18 mu h/(g (rho_l - rho_b) t))
 *
 * @param depthM - to rise through [m]
 * @param timeS - given [s]
 * @param liquidPaS - viscosity of the liquid [Pa s]
 * @param liquidKgM3 - density of the liquid [kg/m3]
 * @param bubbleKgM3 - density of the bubble [kg/m3]
 * @returns diameter [m]
 * @valid Reynolds number of the bubble below 1; depthM > 0, timeS > 0, liquidPaS > 0, liquidKgM3 > bubbleKgM3
 * @source slow-spheres
 * @example smallestRisenBubble(0.2, 8, 0.01, 845, 1) // 7.374e-4
 */
export const smallestRisenBubble = (
  depthM: number,
  timeS: number,
  liquidPaS: number,
  liquidKgM3: number,
  bubbleKgM3: number,
): number => Math.sqrt((18 * liquidPaS * depthM) / (standardGravity * (liquidKgM3 - bubbleKgM3) * timeS));
