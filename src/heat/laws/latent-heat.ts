import { waterVapourPressure } from '#flow';
import { iceKelvin } from '#units';

/** Of water vapour [J/(kg K)]. */
const STEAM_J_PER_KG_K = 461.526;
const STEP_K = 0.01;

/**
 * Heat that boils a kilogram of water away, from the slope of its vapour pressure, vapour counted as an ideal gas and the liquid as small:
 * 2 % high at 100 C, 4 % at 133, 8 % at 180.
 *
 *     L = R T^2/p dp/dT,   R = 461.526 J/(kg K)
 *
 * @param temperatureC - at which it boils [C]
 * @returns latent heat [J/kg]
 * @valid 0 < temperatureC <= 180
 * @source iapws-if97 region 4, equation 30, and its gas constant
 * @example waterLatentHeat(100) // 2293294
 */
export function waterLatentHeat(temperatureC: number): number {
  const kelvin = temperatureC + iceKelvin;
  const [below, above] = [temperatureC - STEP_K, temperatureC + STEP_K].map(waterVapourPressure) as [number, number];
  const slope = (above - below) / (2 * STEP_K);
  return (STEAM_J_PER_KG_K * kelvin ** 2 * slope) / waterVapourPressure(temperatureC);
}
