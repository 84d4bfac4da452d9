import { mmPerInch } from '#units';

/**
 * What a hose end takes of the overall length: its centreline from seat to socket mouth, less the hose inside the socket.
 *
 *     f = nut + R theta + after + socket - insert
 *
 * @param nutMm - straight from the seat to the bend [mm]
 * @param bendRadiusMm - centreline radius of the bend [mm]
 * @param angleDeg - angle bent through [deg]
 * @param afterBendMm - straight from the bend to the socket [mm]
 * @param socketMm - length of the socket [mm]
 * @param insertMm - hose inside the socket [mm]
 * @returns cut-off factor of this end [mm]
 * @valid 0 <= nutMm <= 200, 0 <= bendRadiusMm <= 200, 0 <= angleDeg <= 180, 0 <= afterBendMm <= 200, 0 <= socketMm <= 200, 0 <= insertMm <= 200
 * @source geometry
 * @example hoseEndFactor(33, 30, 90, 8, 26, 24) // 90.1
 */
export const hoseEndFactor = (
  nutMm: number,
  bendRadiusMm: number,
  angleDeg: number,
  afterBendMm: number,
  socketMm: number,
  insertMm: number,
): number => nutMm + bendArc(bendRadiusMm, angleDeg) + afterBendMm + socketMm - insertMm;

const straightAngleDeg = 180;

/**
 * Developed length of a bend along its centreline, without springback.
 *
 *     L = R theta
 *
 * @param radiusMm - centreline radius [mm]
 * @param angleDeg - angle bent through [deg]
 * @returns length of the arc [mm]
 * @valid 0 <= radiusMm <= 5000, 0 <= angleDeg <= 360
 * @source geometry
 * @example bendArc(76, 90) // 119.4
 */
export const bendArc = (radiusMm: number, angleDeg: number): number =>
  (radiusMm * angleDeg * Math.PI) / straightAngleDeg;

/** J343 bends hose up to this outside diameter through half a turn, thicker through a quarter [mm]. */
const halfTurnUpToMm = 22;
/** Its straight ends are one outside diameter, not less than an inch [mm]. */
const leastStraightMm = 25.4;

/**
 * Free length of hose for the bend of the impulse test: the arc at least radius with a straight at each end.
 *
 *     L = pi (r + d/2) + 2 s      for d <= 22 mm
 *     L = (pi/2) (r + d/2) + 2 s  for d > 22 mm,   s = max(d, 25.4)
 *
 * @param insideRadiusMm - least bend radius to the inside of the bend [mm]
 * @param odMm - hose outside diameter [mm]
 * @returns free length between the fittings [mm]
 * @valid 10 <= insideRadiusMm <= 1000, 5 <= odMm <= 100
 * @source sae-j343
 * @example bendTestFreeLength(100, 20) // 396.4
 */
export const bendTestFreeLength = (insideRadiusMm: number, odMm: number): number =>
  (odMm <= halfTurnUpToMm ? Math.PI : Math.PI / 2) * centrelineRadius(insideRadiusMm, odMm) +
  2 * straightBehindFitting(odMm);

/**
 * Straight hose to leave behind a fitting; a test's geometry, taken as a rule of fitting.
 *
 *     s = max(d, 25.4)
 *
 * @param odMm - hose outside diameter [mm]
 * @returns straight length [mm]
 * @valid 3 <= odMm <= 100
 * @source sae-j343
 * @example straightBehindFitting(31) // 31
 */
export const straightBehindFitting = (odMm: number): number => Math.max(odMm, leastStraightMm);

/**
 * Bend radius to the centreline from one stated to the inside of the bend, as tables for rubber and PTFE hose do.
 *
 *     R = r + d/2
 *
 * @param insideRadiusMm - radius to the inside of the bend [mm]
 * @param odMm - hose outside diameter [mm]
 * @returns radius to the centreline [mm]
 * @valid 5 <= insideRadiusMm <= 2000, 3 <= odMm <= 150
 * @source army-tm-1-1500
 * @example centrelineRadius(187.5, 31.2) // 203.1
 */
export const centrelineRadius = (insideRadiusMm: number, odMm: number): number => insideRadiusMm + odMm / 2;

/**
 * Area of a round bore.
 *
 *     A = pi d^2 / 4
 *
 * @param boreMm - bore [mm]
 * @returns area [mm2]
 * @valid 0 <= boreMm <= 500
 * @source geometry
 * @example boreArea(22.2) // 387.1
 */
export const boreArea = (boreMm: number): number => (Math.PI / 4) * boreMm ** 2;

/**
 * Length of a near-straight hose with slack, from the distance between its two sockets.
 *
 *     L = chord (1 + e)
 *
 * @param chordMm - straight distance between the sockets [mm]
 * @param slackShare - slack [-], 0.05 to 0.08 of the flexible length
 * @returns flexible length [mm]
 * @valid 50 <= chordMm <= 10000, 0 <= slackShare <= 0.15
 * @source navy-14105
 * @example slackLength(600, 0.05) // 630
 */
export const slackLength = (chordMm: number, slackShare: number): number => chordMm * (1 + slackShare);

/**
 * Length of a hose after pressure has changed it.
 *
 *     L' = L (1 + c)
 *
 * @param lengthMm - flexible length without pressure [mm]
 * @param changeShare - change [-], -0.04 to +0.02
 * @returns length under pressure [mm]
 * @valid 50 <= lengthMm <= 10000, -0.04 <= changeShare <= 0.02
 * @source faa-ac-43-13-1b
 * @example lengthUnderPressure(600, -0.04) // 576
 */
export const lengthUnderPressure = (lengthMm: number, changeShare: number): number => lengthMm * (1 + changeShare);

/**
 * Tightest radius of a hose held straight at both ends with a little slack: one full cosine wave of small rise.
 *
 *     R = L / (4 pi sqrt(e))
 *
 * @param chordMm - distance between the two held ends [mm]
 * @param slackShare - slack [-]
 * @returns radius at the tightest place [mm]
 * @valid 50 <= chordMm <= 5000, 0.001 <= slackShare <= 0.1
 * @source geometry
 * @example slackBendRadius(600, 0.05) // 214
 */
export const slackBendRadius = (chordMm: number, slackShare: number): number =>
  chordMm / (4 * Math.PI * Math.sqrt(slackShare));

/**
 * Hose clamps needed between two ends so that no free length is longer than allowed.
 *
 *     n = ceil(L / s) - 1, not less than 0
 *
 * @param lengthMm - length between the two ends [mm]
 * @param spacingMm - most free length [mm]
 * @returns number of clamps [-]
 * @valid 0 <= lengthMm <= 20000, 50 <= spacingMm <= 2000
 * @source navy-14105
 * @example clampCount(1300, 610) // 2
 */
export const clampCount = (lengthMm: number, spacingMm: number): number =>
  Math.max(0, Math.ceil(lengthMm / spacingMm) - 1);

/**
 * Wall that a thin tube needs for a pressure, from the hoop stress it may carry.
 *
 *     t = p D / (2 S)
 *
 * @param pressureBar - gauge pressure, with the factor wanted already in it [bar]
 * @param odMm - tube outside diameter [mm]
 * @param stressMpa - stress allowed [MPa]
 * @returns wall [mm]; thin tube only, D/t above 10; the bend's thinning is not in it
 * @valid 0 <= pressureBar <= 700, 3 <= odMm <= 150, 10 <= stressMpa <= 600
 * @source thin-wall-statics
 * @example thinTubeWall(40, 19.05, 40) // 0.953
 */
export const thinTubeWall = (pressureBar: number, odMm: number, stressMpa: number): number =>
  (pressureBar * odMm) / (2 * barPerMpa * stressMpa);

const barPerMpa = 10;

/**
 * Outside diameter of the tube that a dash size stands for.
 *
 *     D = 25.4 n / 16
 *
 * @param dash - dash size [-]
 * @returns tube outside diameter [mm]
 * @valid 2 <= dash <= 32
 * @source faa-general
 * @example dashTubeOd(12) // 19.05
 */
export const dashTubeOd = (dash: number): number => (mmPerInch * dash) / sixteenthsPerInch;

const sixteenthsPerInch = 16;
