import { formatInches, formatMm } from '#units';

/** How lengths are printed: whole millimetres, and the tape's inches behind them where they are asked for. */
export interface Lengths {
  /** "655 mm" or "655 mm (25 13/16 in)". */
  readonly one: (mm: number) => string;
  /** A tolerance: "-5 to +15 mm". */
  readonly allowance: (range: readonly [number, number]) => string;
}

export function lengthsIn(hasInches: boolean): Lengths {
  const one = (mm: number): string => (hasInches ? `${formatMm(mm)} (${formatInches(mm)})` : formatMm(mm));
  const signed = (mm: number, text: string): string => (mm > 0 ? `+${text}` : text);
  return {
    one,
    allowance: ([less, more]) => {
      const inches = hasInches ? ` (${signed(less, formatInches(less))} to ${signed(more, formatInches(more))})` : '';
      return `${signed(less, String(Math.round(less)))} to ${signed(more, String(Math.round(more)))} mm${inches}`;
    },
  };
}
