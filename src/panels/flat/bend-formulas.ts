const degPerHalfTurn = 180;
const rad = (deg: number): number => (deg * Math.PI) / degPerHalfTurn;

/**
 * Flat length that goes into a bend: the length of its neutral line.
 *
 *     BA = (pi/180) N (R + k T)
 *
 * @param turnDeg - angle bent through, not the angle enclosed [deg]
 * @param radiusMm - inside radius [mm]
 * @param thicknessMm - thickness [mm]
 * @param kFactor - where the neutral line lies, share of the thickness from the inside [-]
 * @returns bend allowance [mm]
 * @valid 0 <= turnDeg <= 180, 0 <= radiusMm <= 1000, 0 < thicknessMm <= 50, 0.2 <= kFactor <= 0.6
 * @source navy-bend-allowance
 * @example bendAllowance(90, 3, 1.2, 0.447) // 5.555
 */
export const bendAllowance = (turnDeg: number, radiusMm: number, thicknessMm: number, kFactor: number): number =>
  rad(turnDeg) * (radiusMm + kFactor * thicknessMm);

/**
 * Distance from the tangent line of a bend to the mould line, where the outer faces would meet without the bend.
 *
 *     SB = tan(N/2) (R + T)
 *
 * @param turnDeg - angle bent through, not the angle enclosed [deg]
 * @param radiusMm - inside radius [mm]
 * @param thicknessMm - thickness [mm]
 * @returns setback [mm]
 * @valid 0 <= turnDeg <= 170, 0 <= radiusMm <= 1000, 0 < thicknessMm <= 50
 * @source faa-ac-43-13-1b-sheet
 * @example setback(90, 3, 1.2) // 4.2
 */
export const setback = (turnDeg: number, radiusMm: number, thicknessMm: number): number =>
  Math.tan(rad(turnDeg) / 2) * (radiusMm + thicknessMm);

/**
 * What a bend saves of the two outside lengths that meet in it.
 *
 *     BD = 2 SB - BA
 *
 * @param turnDeg - angle bent through, not the angle enclosed [deg]
 * @param radiusMm - inside radius [mm]
 * @param thicknessMm - thickness [mm]
 * @param kFactor - where the neutral line lies, share of the thickness from the inside [-]
 * @returns bend deduction [mm]
 * @valid 0 <= turnDeg <= 170, 0 <= radiusMm <= 1000, 0 < thicknessMm <= 50, 0.2 <= kFactor <= 0.6
 * @source faa-ac-43-13-1b-sheet
 * @example bendDeduction(90, 3, 1.2, 0.447) // 2.845
 */
export const bendDeduction = (turnDeg: number, radiusMm: number, thicknessMm: number, kFactor: number): number =>
  2 * setback(turnDeg, radiusMm, thicknessMm) - bendAllowance(turnDeg, radiusMm, thicknessMm, kFactor);

/**
 * Angle of the two equal bends of a joggle: as asked, or the angle at which they meet where the step is too low for that.
 *
 *     cos theta = 1 - s / (2R + T) where that is less than the angle asked
 *
 * @param stepMm - height of the step [mm]
 * @param radiusMm - inside radius of both bends [mm]
 * @param thicknessMm - thickness [mm]
 * @param mostDeg - steepest that is asked [deg]
 * @returns angle of either bend [deg]
 * @valid 0 < stepMm <= 100, 0 <= radiusMm <= 1000, 0 < thicknessMm <= 50, 0 < mostDeg < 90
 * @source geometry
 * @example joggleAngle(1.2, 3, 1.2, 45) // 33.56
 */
export function joggleAngle(stepMm: number, radiusMm: number, thicknessMm: number, mostDeg: number): number {
  const cosine = 1 - stepMm / (2 * radiusMm + thicknessMm);
  return cosine <= -1 ? mostDeg : Math.min(mostDeg, (Math.acos(cosine) * degPerHalfTurn) / Math.PI);
}

/**
 * Slope between the two bends of a joggle, along the sheet.
 *
 *     L = (s - (2R + T)(1 - cos theta)) / sin theta
 *
 * @param stepMm - height of the step [mm]
 * @param radiusMm - inside radius of both bends [mm]
 * @param thicknessMm - thickness [mm]
 * @param turnDeg - angle of either bend [deg]
 * @returns straight between the bends [mm]
 * @valid 0 < stepMm <= 100, 0 <= radiusMm <= 1000, 0 < thicknessMm <= 50, 0 < turnDeg < 90
 * @source geometry
 * @example joggleSlope(6, 3, 1.2, 45) // 5.50
 */
export const joggleSlope = (stepMm: number, radiusMm: number, thicknessMm: number, turnDeg: number): number =>
  (stepMm - (2 * radiusMm + thicknessMm) * (1 - Math.cos(rad(turnDeg)))) / Math.sin(rad(turnDeg));

/**
 * Moment at which a strip of sheet yields through and stays bent: full plastic moment of a rectangle.
 *
 *     M = Sy b T^2 / 4
 *
 * @param yieldMpa - yield strength [MPa]
 * @param wideMm - width of the strip along the bend [mm]
 * @param thicknessMm - thickness [mm]
 * @returns moment [N mm]
 * @valid 0 < yieldMpa <= 2000, 0 < wideMm <= 10000, 0 < thicknessMm <= 50
 * @source plastic-moment
 * @example bendingMoment(159, 50, 1.2) // 2862
 */
export const bendingMoment = (yieldMpa: number, wideMm: number, thicknessMm: number): number =>
  (yieldMpa * wideMm * thicknessMm ** 2) / 4;

/**
 * Pull at each of four corners, two up and two down, that twists a flat plate so that one corner stands off the plane of the
 * other three.
 *
 *     P = 2 D (1 - nu) h / (a b),  D = E T^3 / (12 (1 - nu^2)):  P = E T^3 h / (6 (1 + nu) a b)
 *
 * @param stiffnessMpa - Young's modulus [MPa]
 * @param poisson - Poisson's ratio [-]
 * @param thicknessMm - thickness [mm]
 * @param liftMm - how far the fourth corner stands off [mm]
 * @param longMm - one side of the plate [mm]
 * @param wideMm - the other [mm]
 * @returns pull at each corner [N]
 * @valid thin plate, small turns: liftMm no more than a tenth of the shorter side
 * @source timoshenko-plates
 * @example twistPull(70000, 0.33, 1.2, 30, 800, 400) // 1.42
 */
export const twistPull = (
  stiffnessMpa: number,
  poisson: number,
  thicknessMm: number,
  liftMm: number,
  longMm: number,
  wideMm: number,
): number =>
  // 12 of the plate's stiffness over the 2 of two moments.
  (stiffnessMpa * thicknessMm ** 3 * liftMm) / (6 * (1 + poisson) * longMm * wideMm);

/**
 * Shear at the faces of a plate that is twisted so.
 *
 *     tau = 6 Mxy / T^2, Mxy = P / 2
 *
 * @param pullN - pull at each corner [N]
 * @param thicknessMm - thickness [mm]
 * @returns shear [MPa]
 * @valid thin plate, small turns
 * @source timoshenko-plates
 * @example twistShear(1.42, 1.2) // 2.96
 */
export const twistShear = (pullN: number, thicknessMm: number): number => (3 * pullN) / thicknessMm ** 2;

/**
 * Growth of a length with heat.
 *
 *     dL = alpha L dT
 *
 * @param growthPerMk - growth of the metal [1e-6/K]
 * @param lengthMm - length from where it is held [mm]
 * @param warmedByK - how much warmer [K]
 * @returns growth [mm]
 * @valid 0 <= growthPerMk <= 40, 0 <= lengthMm <= 10000, -100 <= warmedByK <= 1200
 * @source mil-hdbk-5
 * @example growthWithHeat(23.6, 400, 60) // 0.566
 */
export const growthWithHeat = (growthPerMk: number, lengthMm: number, warmedByK: number): number =>
  growthPerMk * 1e-6 * lengthMm * warmedByK;
