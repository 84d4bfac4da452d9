/**
 * Fluid in a round bore.
 *
 *     V = pi d^2 L/4
 *
 * @param boreMm - bore [mm]
 * @param lengthMm - length [mm]
 * @returns volume [L]
 * @valid boreMm > 0, lengthMm >= 0
 * @source geometry
 * @example boreLitres(22.2, 1000) // 0.3871
 */
export const boreLitres = (boreMm: number, lengthMm: number): number => (Math.PI * boreMm * boreMm * lengthMm) / 4e6;
