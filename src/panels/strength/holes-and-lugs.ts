/**
 * Stress concentration of a round hole in a strip that is pulled, on the net section.
 *
 *     Ktn = 3 - 3.14 x + 3.667 x^2 - 1.527 x^3,  x = d/W;  on the gross section Kt = Ktn / (1 - x)
 *
 * @param share - hole over width d/W [-]
 * @returns Ktn [-]
 * @valid 0 < share <= 0.6
 * @source peterson
 * @example holeConcentration(0.2) // 2.5065
 */
export const holeConcentration = (share: number): number =>
  // Peterson's fit, from memory.
  3 - 3.14 * share + 3.667 * share ** 2 - 1.527 * share ** 3;

/**
 * Stress concentration of an ellipse in a wide sheet, pulled across its axis a.
 *
 *     Kt = 1 + 2 a/b
 *
 * @param acrossMm - half axis across the pull [mm]
 * @param alongMm - half axis along the pull [mm]
 * @returns Kt [-]
 * @valid both positive
 * @source inglis-1913
 * @example ellipseConcentration(10, 5) // 5
 */
export const ellipseConcentration = (acrossMm: number, alongMm: number): number => 1 + (2 * acrossMm) / alongMm;

/**
 * Stress concentration of a window with round corners in a wide sheet, by the ellipse of its width and corner radius; on the
 * cautious side of the plate solution for windows longer than wide.
 *
 *     Kt = 1 + 2 sqrt(a/r)
 *
 * @param halfAcrossMm - half the window across the pull [mm]
 * @param radiusMm - corner radius [mm]
 * @returns Kt [-]
 * @valid 0 < radiusMm <= halfAcrossMm
 * @source inglis-1913
 * @example windowConcentration(40, 10) // 5
 */
export const windowConcentration = (halfAcrossMm: number, radiusMm: number): number =>
  1 + 2 * Math.sqrt(halfAcrossMm / radiusMm);

/**
 * Stress on the net section of a lug or plate at a hole.
 *
 *     sigma = P / ((w - d) t)
 *
 * @param forceN - pull [N]
 * @param wideMm - width at the hole [mm]
 * @param holeMm - hole [mm]
 * @param thicknessMm - thickness [mm]
 * @returns stress [MPa]
 * @valid holeMm < wideMm
 * @source lug-handbook
 * @example netSectionStress(2500, 30, 8, 3) // 37.9
 */
export const netSectionStress = (forceN: number, wideMm: number, holeMm: number, thicknessMm: number): number =>
  forceN / ((wideMm - holeMm) * thicknessMm);

/**
 * Shear stress where a pin tears out to the edge, on the two shortest planes.
 *
 *     tau = P / (2 t (e - d/2))
 *
 * @param forceN - pull towards the edge [N]
 * @param edgeMm - hole's middle to the edge [mm]
 * @param holeMm - hole [mm]
 * @param thicknessMm - thickness [mm]
 * @returns stress [MPa]
 * @valid edgeMm > holeMm/2
 * @source lug-handbook
 * @example tearOutStress(2500, 16, 8, 3) // 34.7
 */
export const tearOutStress = (forceN: number, edgeMm: number, holeMm: number, thicknessMm: number): number =>
  forceN / (2 * thicknessMm * (edgeMm - holeMm / 2));

/**
 * Bearing stress of a pin on its hole.
 *
 *     sigma = P / (d t)
 *
 * @param forceN - force [N]
 * @param holeMm - hole [mm]
 * @param thicknessMm - thickness [mm]
 * @returns stress [MPa]
 * @valid all positive
 * @source lug-handbook
 * @example bearingStress(2500, 8, 3) // 104.2
 */
export const bearingStress = (forceN: number, holeMm: number, thicknessMm: number): number =>
  forceN / (holeMm * thicknessMm);

/**
 * Deflection at the end of a flat arm held at its root, pulled square to the arm in its own plane: bending and shear.
 *
 *     w = P L^3 / (3 E I) + 1.2 P L / (G h t),  I = t h^3 / 12, G = E / (2 (1 + nu))
 *
 * @param forceN - pull [N]
 * @param longMm - root to the hand [mm]
 * @param deepMm - depth of the arm in its plane [mm]
 * @param thicknessMm - thickness [mm]
 * @param stiffnessMpa - Young's modulus [MPa]
 * @param poisson - Poisson's ratio [-]
 * @returns deflection [mm]
 * @valid small against longMm; the arm held against falling over sideways
 * @source plate-theory
 * @example armDeflection(250, 120, 30, 3, 70000, 0.33) // 0.320
 */
export function armDeflection(
  forceN: number,
  longMm: number,
  deepMm: number,
  thicknessMm: number,
  stiffnessMpa: number,
  poisson: number,
): number {
  const inertia = (thicknessMm * deepMm ** 3) / 12;
  // 1.2: shear's form factor of a rectangle.
  const shear = (1.2 * forceN * longMm * 2 * (1 + poisson)) / (stiffnessMpa * deepMm * thicknessMm);
  return (forceN * longMm ** 3) / (3 * stiffnessMpa * inertia) + shear;
}

/**
 * Mass that openings take out of a sheet.
 *
 *     m = rho t A
 *
 * @param openMm2 - area of the openings [mm2]
 * @param thicknessMm - thickness [mm]
 * @param densityKgM3 - density [kg/m3]
 * @returns mass [kg]
 * @valid all positive
 * @source plate-theory
 * @example massSaved(50000, 1.2, 2685) // 0.1611
 */
export const massSaved = (openMm2: number, thicknessMm: number, densityKgM3: number): number =>
  openMm2 * thicknessMm * densityKgM3 * 1e-9;
