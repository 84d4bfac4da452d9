import { airFlowWords, degreeWords, differenceWords } from '#book';
import { formatNumber, inchesFromMm, lengthsIn } from '#units';
import { useSignal } from '../bench/signal.ts';
import { tapeUnit } from '../tape/tape-unit.ts';

/** Temperatures, differences, flows, areas and lengths in the words that the builder works in. */
export interface HeatUnits {
  readonly isInch: boolean;
  readonly degrees: (c: number) => string;
  readonly difference: (k: number) => string;
  readonly airFlow: (m3S: number) => string;
  readonly area: (m2: number) => string;
  readonly length: (mm: number) => string;
  readonly weight: (grams: number) => string;
  /** The name that a part is bought by. */
  readonly soldAs: (name: string) => string;
  /** A thickness. */
  readonly fine: (mm: number) => string;
}

const CM2_PER_IN2 = 6.4516;
const OUNCE_G = 28.349523;

export function heatUnits(isInch: boolean): HeatUnits {
  return {
    isInch,
    degrees: (c) => degreeWords(c, isInch),
    difference: (k) => differenceWords(k, isInch),
    airFlow: (m3S) => airFlowWords(m3S, isInch),
    area: (m2) => (isInch ? `${formatNumber((m2 * 1e4) / CM2_PER_IN2, 1)} in²` : `${formatNumber(m2 * 1e4)} cm²`),
    length: (mm) => (isInch ? `${formatNumber(inchesFromMm(mm), 1)} in` : `${formatNumber(mm)} mm`),
    weight: (grams) => (isInch ? `${formatNumber(grams / OUNCE_G, 1)} oz` : `${formatNumber(grams)} g`),
    soldAs: lengthsIn(isInch).soldAs,
    fine: lengthsIn(isInch).fine,
  };
}

export const useHeatUnits = (): HeatUnits => heatUnits(useSignal(tapeUnit) === 'in');
