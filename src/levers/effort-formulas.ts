const MM2 = 1e-6;
const RAD = Math.PI / 180;

/**
 * Share of the force that comes out of a cable drawn round bends (belt friction).
 *
 *     F_out/F_in = exp(-mu theta)
 *
 * @param frictionRatio - friction of core on liner, mu [-]
 * @param bendDeg - all bends together, theta [deg]
 * @returns force out over force in [-]
 * @valid 0 <= frictionRatio <= 1, bendDeg >= 0; the core lies on the inside of every bend
 * @source capstan-1762
 * @example capstanShare(0.1, 270) // 0.624
 */
export const capstanShare = (frictionRatio: number, bendDeg: number): number =>
  Math.exp(-frictionRatio * bendDeg * RAD);

/**
 * Pressure that a lever makes in one cylinder, or in one of two behind a balance bar.
 *
 *     p = F i s (1 - l) / (pi d^2/4)
 *
 * @param forceN - force at handle or pad, F [N]
 * @param leverRatio - movement of the handle over that of the piston, i [-]
 * @param boreMm - bore, d [mm]
 * @param share - share of the force that this cylinder gets, s [-]
 * @param lostShare - share lost in seals and pivots, l [-]
 * @returns pressure above the air outside [Pa]
 * @valid forceN >= 0, leverRatio > 0, boreMm > 0, 0 < share <= 1, 0 <= lostShare < 1
 * @source lever-statics
 * @example cylinderPressure(300, 5, 17.5, 1, 0) // 6236275
 */
export const cylinderPressure = (
  forceN: number,
  leverRatio: number,
  boreMm: number,
  share: number,
  lostShare: number,
): number => (forceN * leverRatio * share * (1 - lostShare)) / boreArea(boreMm);

/**
 * Force at handle or pad for a pressure in one cylinder.
 *
 *     F = p (pi d^2/4) / (i s (1 - l))
 *
 * @param pressurePa - pressure above the air outside, p [Pa]
 * @param leverRatio - movement of the handle over that of the piston, i [-]
 * @param boreMm - bore, d [mm]
 * @param share - share of the force that this cylinder gets, s [-]
 * @param lostShare - share lost in seals and pivots, l [-]
 * @returns force [N]
 * @valid pressurePa >= 0, leverRatio > 0, boreMm > 0, 0 < share <= 1, 0 <= lostShare < 1
 * @source lever-statics
 * @example handleForce(6.894757e6, 5, 22.225, 1, 0) // 535
 */
export const handleForce = (
  pressurePa: number,
  leverRatio: number,
  boreMm: number,
  share: number,
  lostShare: number,
): number => (pressurePa * boreArea(boreMm)) / (leverRatio * share * (1 - lostShare));

/**
 * Fluid that a piston moves.
 *
 *     V = pi d^2/4 s
 *
 * @param boreMm - bore, d [mm]
 * @param strokeMm - stroke, s [mm]
 * @returns volume [ml]
 * @valid boreMm > 0, strokeMm >= 0
 * @source geometry
 * @example displacedMl(17.8, 12.9) // 3.21
 */
export const displacedMl = (boreMm: number, strokeMm: number): number => (boreArea(boreMm) * strokeMm) / MM2 / 1000;

/**
 * Stroke of a piston that moves a volume of fluid.
 *
 *     s = V / (pi d^2/4)
 *
 * @param boreMm - bore, d [mm]
 * @param volumeMl - volume, V [ml]
 * @returns stroke [mm]
 * @valid boreMm > 0, volumeMl >= 0
 * @source geometry
 * @example strokeFor(17.8, 3.21) // 12.90
 */
export const strokeFor = (boreMm: number, volumeMl: number): number => (volumeMl * 1000 * MM2) / boreArea(boreMm);

/**
 * Turn of a driven lever per turn of the one that drives it through a rod, both in one plane.
 *
 *     i = (r1 sin a1)/(r2 sin a2)
 *
 * @param fromRadiusMm - driving arm, r1 [mm]
 * @param fromArmDeg - between driving arm and rod, a1 [deg]
 * @param toRadiusMm - driven arm, r2 [mm]
 * @param toArmDeg - between driven arm and rod, a2 [deg]
 * @returns turn out over turn in [-]
 * @valid radii > 0, 0 < toArmDeg < 180
 * @source lever-statics
 * @example linkRate(40, 90, 80, 90) // 0.5
 */
export const linkRate = (fromRadiusMm: number, fromArmDeg: number, toRadiusMm: number, toArmDeg: number): number =>
  (fromRadiusMm * Math.sin(fromArmDeg * RAD)) / (toRadiusMm * Math.sin(toArmDeg * RAD));

/**
 * Length of the oval that a round cable needs where it goes through a plate at a slant.
 *
 *     w = d/cos a + t tan a
 *
 * @param odMm - outside of the cable, d [mm]
 * @param slantDeg - between cable and the plate's normal, a [deg]
 * @param thicknessMm - plate, t [mm]
 * @returns length of the opening [mm]
 * @valid odMm > 0, 0 <= slantDeg < 80, thicknessMm >= 0
 * @source geometry
 * @example slantedHole(11, 30, 1.2) // 13.39
 */
export const slantedHole = (odMm: number, slantDeg: number, thicknessMm: number): number =>
  odMm / Math.cos(slantDeg * RAD) + thicknessMm * Math.tan(slantDeg * RAD);

/** Area of a bore [m2]. */
const boreArea = (boreMm: number): number => (Math.PI / 4) * boreMm * boreMm * MM2;
