import { formatNumber, inchText, type Lengths } from '#units';

/** How short travels, forces and pressures of levers are printed. */
export interface LeverUnits {
  /** "12.4 mm" or "0.49 in". */
  readonly travel: (mm: number) => string;
  readonly force: (n: number) => string;
  readonly pressure: (bar: number) => string;
  readonly volume: (ml: number) => string;
  readonly text: (sentence: string) => string;
  readonly lengths: Lengths;
}

const N_PER_LBF = 4.4482216;
const PSI_PER_BAR = 14.503774;
const ML_PER_CUBIC_INCH = 16.387064;

export const leverUnits = (hasInches: boolean, lengths: Lengths): LeverUnits =>
  hasInches
    ? {
        travel: (mm) => `${formatNumber(mm / 25.4, 2)} in`,
        force: (n) => `${formatNumber(n / N_PER_LBF, n < 10 ? 1 : 0)} lbf`,
        pressure: (bar) => `${formatNumber(bar * PSI_PER_BAR)} psi`,
        volume: (ml) => `${formatNumber(ml / ML_PER_CUBIC_INCH, 2)} in3`,
        text: inchText,
        lengths,
      }
    : {
        travel: (mm) => `${formatNumber(mm, Math.abs(mm) < 100 ? 1 : 0)} mm`,
        force: (n) => `${formatNumber(n, n < 10 ? 1 : 0)} N`,
        pressure: (bar) => `${formatNumber(bar, bar < 10 ? 1 : 0)} bar`,
        volume: (ml) => `${formatNumber(ml, 2)} ml`,
        text: (sentence) => sentence,
        lengths,
      };
