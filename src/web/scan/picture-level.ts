/** A picture that is off by no more than this looks the same [px]. */
const LOOKS_SAME_PX = 1.5;

/**
 * The lightest level that looks the same from here, or the first on the way to it of which nothing is known yet.
 *
 * @param errorsMm - how far each level is off, the lightest first; undefined where it has not come yet
 * @param mmPerPx - what a pixel covers where the scan is nearest
 */
export function pictureLevel(errorsMm: readonly (number | undefined)[], mmPerPx: number): number {
  const i = errorsMm.findIndex((errorMm) => errorMm === undefined || errorMm <= LOOKS_SAME_PX * mmPerPx);
  return i < 0 ? errorsMm.length - 1 : i;
}
