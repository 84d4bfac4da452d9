import type { SourceId } from '#sources';

/**
 * Mean velocity in a round bore.
 *
 *     V = 4 Q/(pi D^2)
 *
 * @param flowM3S - flow [m3/s]
 * @param boreM - bore [m]
 * @returns velocity [m/s]
 * @valid boreM > 0
 * @source continuity
 * @example lineVelocity(40 / 60000, 0.0159) // 3.358
 */
export const lineVelocity = (flowM3S: number, boreM: number): number => (4 * flowM3S) / (Math.PI * boreM * boreM);

/**
 * Liquid in a hose or tube.
 *
 *     V = pi D^2 L/4
 *
 * @param boreM - bore [m]
 * @param lengthM - length [m]
 * @returns volume [m3]
 * @valid boreM > 0, lengthM >= 0
 * @source geometry
 * @example 1000 * lineVolume(0.0111, 1.25) // 0.12096
 */
export const lineVolume = (boreM: number, lengthM: number): number => ((Math.PI * boreM * boreM) / 4) * lengthM;

/**
 * Reynolds number in a round bore.
 *
 *     Re = 4 rho Q/(pi D mu)
 *
 * @param flowM3S - flow [m3/s]
 * @param boreM - bore [m]
 * @param densityKgM3 - density [kg/m3]
 * @param viscosityPaS - dynamic viscosity [Pa s]
 * @returns Reynolds number [-]
 * @valid boreM > 0, viscosityPaS > 0
 * @source continuity
 * @example boreReynolds(40 / 60000, 0.0159, 850, 0.01) // 4538
 */
export const boreReynolds = (flowM3S: number, boreM: number, densityKgM3: number, viscosityPaS: number): number =>
  (4 * densityKgM3 * flowM3S) / (Math.PI * boreM * viscosityPaS);

/**
 * Drop of laminar flow along a straight round bore.
 *
 *     dp = 128 mu L Q/(pi D^4)
 *
 * @param flowM3S - flow [m3/s]
 * @param boreM - bore [m]
 * @param lengthM - length [m]
 * @param viscosityPaS - dynamic viscosity [Pa s]
 * @returns drop [Pa]
 * @valid boreM > 0, Reynolds number below 2000
 * @source poiseuille-1840
 * @example laminarDrop(10 / 60000, 0.0159, 1, 0.1) // 10625
 */
export const laminarDrop = (flowM3S: number, boreM: number, lengthM: number, viscosityPaS: number): number =>
  (128 * viscosityPaS * lengthM * flowM3S) / (Math.PI * boreM ** 4);

interface VelocityRow {
  readonly duty: string;
  readonly leastMS: number;
  readonly mostMS: number;
  readonly source: SourceId;
}

/**
 * Usual velocities of industrial hydraulics, guidance and no limit: other sheets go to 4.5 m/s for returns and 9 m/s for
 * pressure lines. A scavenge line is judged by its pump's displacement, foam and all.
 */
export const usualVelocities = [
  { duty: 'suction', leastMS: 0.6, mostMS: 1.2, source: 'velocity-sheet' },
  { duty: 'return', leastMS: 1.5, mostMS: 4, source: 'velocity-sheet' },
  { duty: 'pressure', leastMS: 2, mostMS: 5.5, source: 'velocity-sheet' },
] as const satisfies readonly VelocityRow[];
