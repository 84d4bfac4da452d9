import { formatNumber, inchesFromMm, type Lengths, lengthsIn } from '#units';
import { useSignal } from '../bench/signal.ts';
import { tapeUnit } from './tape-unit.ts';

/** "X 1550, Y -210, Z 190 mm", "X 61.0, Y -8.3, Z 7.5 in". */
export function xyzWords([x = 0, y = 0, z = 0]: readonly number[], { unit }: Lengths): string {
  const told = (mm: number): string => (unit === 'in' ? formatNumber(inchesFromMm(mm), 1) : formatNumber(mm));
  return `X ${told(x)}, Y ${told(y)}, Z ${told(z)} ${unit}`;
}

/** How lengths are said on the page: as the builder works, in millimetres or in inches. */
export const useLengths = (): Lengths => lengthsIn(useSignal(tapeUnit) === 'in');
