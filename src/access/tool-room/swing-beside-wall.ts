/**
 * Free swing of a flat spanner on a nut beside a flat wall that stands along the nut's axis.
 *
 *     free = 360 - 2 (acos((D - t/2)/sqrt(L1^2 + w1^2)) + atan(w1/L1)); L1 = L - t/2, w1 = (b - t)/2
 *
 * The end corner of the handle meets the wall first; its edges are round by half the thickness.
 *
 * @param wallMm - from the nut's axis to the wall, D [mm]
 * @param lengthMm - handle from the nut's axis to its end, L [mm]
 * @param widthMm - width of the handle, b [mm]
 * @param thickMm - thickness of the handle, t [mm]
 * @returns free swing [deg]
 * @valid widthMm / 2 < wallMm < lengthMm, thickMm <= widthMm
 * @source geometry
 * @example swingBesideWallDeg(60, 240, 20, 8) // 204.5
 */
export function swingBesideWallDeg(wallMm: number, lengthMm: number, widthMm: number, thickMm: number): number {
  const along = lengthMm - thickMm / 2;
  const aside = (widthMm - thickMm) / 2;
  const meets = Math.acos((wallMm - thickMm / 2) / Math.hypot(along, aside)) + Math.atan2(aside, along);
  return 360 - (360 / Math.PI) * meets;
}
