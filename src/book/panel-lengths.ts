import { formatNumber, mmPerInch } from '#units';

/** A thickness or radius to a hundredth of a millimetre, in inches to a thousandth; no needless noughts. */
const trimmed = (text: string): string => (text.includes('.') ? text.replace(/\.?0+$/u, '') : text);

/** "1.6 mm", or "0.063 in (1.6 mm)". */
export function lengthWords(mm: number, inches: boolean): string {
  const metric = `${trimmed(formatNumber(mm, 2))} mm`;
  return inches ? `${formatNumber(mm / mmPerInch, 3)} in (${metric})` : metric;
}

/** A place to mark out, as the table's head says its unit: tenths of a millimetre, hundredths of an inch. */
export const placeWords = (mm: number, inches: boolean): string =>
  inches ? formatNumber(mm / mmPerInch, 2) : formatNumber(mm, 1);

/** A drill or a width: hundredths of a millimetre where it has them, thousandths of an inch. */
export const sizeWords = (mm: number, inches: boolean): string =>
  inches ? formatNumber(mm / mmPerInch, 3) : trimmed(formatNumber(mm, 2));

/** "812 × 431 mm", or "32.0 × 17.0 in". */
export const areaWords = (a: number, b: number, inches: boolean): string =>
  inches
    ? `${formatNumber(a / mmPerInch, 1)} × ${formatNumber(b / mmPerInch, 1)} in`
    : `${formatNumber(a)} × ${formatNumber(b)} mm`;
