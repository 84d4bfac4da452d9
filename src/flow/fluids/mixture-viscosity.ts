/**
 * Viscosity of a gas and liquid mixture as McAdams has it: fluidities by mass.
 *
 *     1/mu = x/mu_g + (1 - x)/mu_l
 *
 * @param quality - gas in the mixture by mass [-]
 * @param liquidPaS - viscosity of the liquid [Pa s]
 * @param gasPaS - viscosity of the gas [Pa s]
 * @returns dynamic viscosity [Pa s]
 * @valid 0 <= quality <= 1, liquidPaS > 0, gasPaS > 0
 * @source two-phase-mixtures
 * @example viscosityMcAdams(0.4, 1e-3, 1e-5) // 2.4631e-5
 */
export const viscosityMcAdams = (quality: number, liquidPaS: number, gasPaS: number): number =>
  1 / (quality / gasPaS + (1 - quality) / liquidPaS);

/**
 * Viscosity of a gas and liquid mixture as Cicchitti has it: viscosities by mass.
 *
 *     mu = x mu_g + (1 - x) mu_l
 *
 * @param quality - gas in the mixture by mass [-]
 * @param liquidPaS - viscosity of the liquid [Pa s]
 * @param gasPaS - viscosity of the gas [Pa s]
 * @returns dynamic viscosity [Pa s]
 * @valid 0 <= quality <= 1, liquidPaS > 0, gasPaS > 0
 * @source two-phase-mixtures
 * @example viscosityCicchitti(0.4, 1e-3, 1e-5) // 6.04e-4
 */
export const viscosityCicchitti = (quality: number, liquidPaS: number, gasPaS: number): number =>
  quality * gasPaS + (1 - quality) * liquidPaS;

/**
 * Viscosity of a gas and liquid mixture as Dukler has it: viscosities by volume.
 *
 *     mu = a mu_g + (1 - a) mu_l
 *
 * @param voidFraction - gas in the mixture by volume [-]
 * @param liquidPaS - viscosity of the liquid [Pa s]
 * @param gasPaS - viscosity of the gas [Pa s]
 * @returns dynamic viscosity [Pa s]
 * @valid 0 <= voidFraction <= 1, liquidPaS > 0, gasPaS > 0
 * @source two-phase-mixtures
 * @example viscosityDukler(0.2, 0.01, 2.2e-5) // 0.0080044
 */
export const viscosityDukler = (voidFraction: number, liquidPaS: number, gasPaS: number): number =>
  voidFraction * gasPaS + (1 - voidFraction) * liquidPaS;

/**
 * Viscosity of a gas and liquid mixture as Beattie and Whalley have it: bubbles thicken it, then the gas thins it.
 *
 *     mu = mu_l (1 - a)(1 + 2.5 a) + mu_g a
 *
 * @param voidFraction - gas in the mixture by volume [-]
 * @param liquidPaS - viscosity of the liquid [Pa s]
 * @param gasPaS - viscosity of the gas [Pa s]
 * @returns dynamic viscosity [Pa s]
 * @valid 0 <= voidFraction <= 1, liquidPaS > 0, gasPaS > 0
 * @source two-phase-mixtures
 * @example viscosityBeattieWhalley(0.2, 0.01, 2.2e-5) // 0.0120044
 */
export const viscosityBeattieWhalley = (voidFraction: number, liquidPaS: number, gasPaS: number): number =>
  liquidPaS * (1 - voidFraction) * (1 + 2.5 * voidFraction) + gasPaS * voidFraction;

/**
 * Viscosity of a liquid with few small bubbles that keep round and slip at their skin.
 *
 *     mu = mu_l (1 + a)
 *
 * @param voidFraction - gas in the mixture by volume [-]
 * @param liquidPaS - viscosity of the liquid [Pa s]
 * @returns dynamic viscosity [Pa s]
 * @valid 0 <= voidFraction <= 0.1; drawn on beyond, liquidPaS > 0
 * @source from-memory dilute limit of emulsions
 * @example viscosityOfFewBubbles(0.2, 0.01) // 0.012
 */
export const viscosityOfFewBubbles = (voidFraction: number, liquidPaS: number): number =>
  liquidPaS * (1 + voidFraction);
