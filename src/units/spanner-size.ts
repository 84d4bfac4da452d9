import { mmPerInch } from './convert.ts';
import { formatInches, formatNumber } from './format.ts';

/** A hexagon is made in one or the other; a size of inches may be written to a tenth of a millimetre [mm]. */
const METRIC_WITHIN_MM = 0.04;
const INCH_WITHIN_MM = 0.06;

/**
 * A spanner by the size that is stamped on it, whatever units are worked in: a hexagon of 22.2 mm is undone with a 7/8 in, one of 10 mm with a
 * 10 mm and with nothing else.
 *
 * @param mm - across the flats [mm]
 */
export function spannerSize(mm: number): string {
  if (Math.abs(mm - Math.round(mm)) < METRIC_WITHIN_MM) return `${Math.round(mm)} mm`;
  const sixteenths = (mm / mmPerInch) * 16;
  const isInch = (Math.abs(sixteenths - Math.round(sixteenths)) / 16) * mmPerInch < INCH_WITHIN_MM;
  return isInch ? formatInches(mm) : `${formatNumber(mm, 1)} mm`;
}
