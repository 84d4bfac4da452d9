/** Stefan-Boltzmann constant [W/(m2 K4)]. Source: codata-2018. */
export const stefanBoltzmann = 5.670374419e-8;

/**
 * Heat between two large parallel grey plates.
 *
 *     q = sigma (T1^4 - T2^4)/(1/e1 + 1/e2 - 1)
 *
 * @param hotK - absolute temperature of the first [K]
 * @param coldK - and of the second [K]
 * @param hotEmissivity - [-]
 * @param coldEmissivity - [-]
 * @returns heat from the first to the second [W/m2]
 * @valid 0 < emissivities <= 1
 * @source grey-exchange
 * @example plateExchange(900, 400, 0.8, 0.9) // 26266.6
 */
export const plateExchange = (hotK: number, coldK: number, hotEmissivity: number, coldEmissivity: number): number =>
  (stefanBoltzmann * (hotK ** 4 - coldK ** 4)) / (1 / hotEmissivity + 1 / coldEmissivity - 1);

/**
 * Heat between two long concentric grey tubes, for a metre of them.
 *
 *     q' = sigma pi D1 (T1^4 - T2^4)/(1/e1 + (D1/D2)(1/e2 - 1))
 *
 * @param innerK - absolute temperature of the inner [K]
 * @param outerK - of the outer [K]
 * @param innerM - diameter of the inner [m]
 * @param outerM - of the outer [m]
 * @param innerEmissivity - [-]
 * @param outerEmissivity - [-]
 * @returns heat from inner to outer [W/m]
 * @valid 0 < emissivities <= 1, innerM <= outerM
 * @source grey-exchange
 * @example tubeExchange(77, 300, 0.02, 0.05, 0.02, 0.05) // -0.49884
 */
export const tubeExchange = (
  innerK: number,
  outerK: number,
  innerM: number,
  outerM: number,
  innerEmissivity: number,
  outerEmissivity: number,
): number =>
  (stefanBoltzmann * Math.PI * innerM * (innerK ** 4 - outerK ** 4)) /
  (1 / innerEmissivity + (innerM / outerM) * (1 / outerEmissivity - 1));

/**
 * Heat that one thin shield between two large parallel plates lets through.
 *
 *     q = sigma (T1^4 - T2^4)/[(1/e1 + 1/eh - 1) + (1/ec + 1/e2 - 1)]
 *
 * @param hotK - absolute temperature of the first plate [K]
 * @param coldK - and of the second [K]
 * @param hotEmissivity - of the first plate [-]
 * @param coldEmissivity - of the second [-]
 * @param shieldHotSide - emissivity of the shield's face to the first plate [-]
 * @param shieldColdSide - of its other face [-]
 * @returns heat [W/m2]
 * @valid 0 < emissivities <= 1; nothing by air
 * @source grey-exchange
 * @example shieldedExchange(900, 400, 0.8, 0.9, 0.1, 0.1) // 1755.88
 */
export const shieldedExchange = (
  hotK: number,
  coldK: number,
  hotEmissivity: number,
  coldEmissivity: number,
  shieldHotSide: number,
  shieldColdSide: number,
): number =>
  (stefanBoltzmann * (hotK ** 4 - coldK ** 4)) /
  (1 / hotEmissivity + 1 / shieldHotSide - 1 + (1 / shieldColdSide + 1 / coldEmissivity - 1));
