import { mmPerInch, type SpreadMm } from '#units';
import type { Gauge } from './gap-ruler.ts';

/** A gap with its limit as a ruler shows it, in millimetres or in inches. */
export function lengthGauge(gap: SpreadMm, what: string, inches = false): Gauge {
  const told = (mm: number): number => (inches ? mm / mmPerInch : mm);
  return {
    nominal: told(gap.gapMm),
    worst: told(gap.worstMm),
    best: told(gap.bestMm),
    limit: told(gap.keepOffMm),
    unit: inches ? 'in' : 'mm',
    what,
  };
}
