import { formatInches, formatNumber, mmPerInch, parseLengthMm } from '#units';
import type { TapeUnit } from './tape-text.ts';
import { tapeUnit } from './tape-unit.ts';

const DIGITS = 1e-9;

/**
 * A length that is kept, as a form shows it to be changed: in inches where inches are worked in and it is one of a tape or a caliper, so
 * that what is not touched is the same afterwards, to its last digit; else as it was read, in millimetres.
 *
 * @param mm - what is kept [mm]
 * @param stepMm - what the form rounds to [mm]; 0: it takes the number as it is read
 */
export function keptText(mm: number, stepMm = 0, unit: TapeUnit = tapeUnit.get()): string {
  const rounded = (value: number): number => (stepMm === 0 ? value : Math.round(value / stepMm) * stepMm + 0);
  const own = rounded(mm);
  const metric = `${Number(own.toFixed(4))} mm`;
  if (unit !== 'in') return metric;
  const inches = [
    formatInches(own, 32),
    `${formatNumber(own / mmPerInch, 2)} in`,
    `${formatNumber(own / mmPerInch, 3)} in`,
  ];
  const isOwn = (text: string): boolean => {
    const read = parseLengthMm(text);
    return read.ok && Math.min(Math.abs(read.value - mm), Math.abs(rounded(read.value) - own)) < DIGITS;
  };
  return inches.find(isOwn) ?? metric;
}

/** From here on a tape's sixteenths tell how well a length is known [mm]. */
const TAPE_MM = 3;
const [SIXTEENTH_MM, HUNDREDTH_MM] = [mmPerInch / 16, mmPerInch / 100];

/** How well a length is usually known, for a field to begin with; in inches never better than in millimetres. */
export function usualText(mm: number, unit: TapeUnit = tapeUnit.get()): string {
  if (unit !== 'in') return `${mm} mm`;
  const step = mm < TAPE_MM ? HUNDREDTH_MM : SIXTEENTH_MM;
  return keptText(Math.ceil(mm / step) * step, 0, 'in');
}
