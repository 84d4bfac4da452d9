import { formatNumber, type Lengths, usText } from '#units';

/** How flows, pressures, temperatures and heights are printed: in the units of the workshop, metric or not. */
export interface FlowUnits {
  /** In US units. */
  readonly isUs: boolean;
  readonly flow: (m3s: number) => string;
  readonly flowUnit: string;
  readonly pressure: (pa: number) => string;
  readonly pressureUnit: string;
  readonly speed: (ms: number) => string;
  readonly speedUnit: string;
  readonly temperature: (c: number) => string;
  readonly volume: (m3: number) => string;
  readonly lengths: Lengths;
  /** A sentence of a finding. */
  readonly text: (sentence: string) => string;
}

const PA_PER_PSI = 6894.757;
const M3_PER_GALLON = 3.785411784e-3;
const M_PER_FOOT = 0.3048;

/** As many decimals as tell one number of the trade from the next: 0.21 bar, 5.5 bar, 12 bar. */
const told = (value: number): string => {
  const size = Math.abs(value);
  const text = formatNumber(value, size < 1 ? 2 : size < 20 ? 1 : 0);
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text;
};

export const flowUnits = (hasInches: boolean, lengths: Lengths): FlowUnits =>
  hasInches
    ? {
        isUs: true,
        flow: (m3s) => told((m3s * 60) / M3_PER_GALLON),
        flowUnit: 'gal/min',
        pressure: (pa) => told(pa / PA_PER_PSI),
        pressureUnit: 'psi',
        speed: (ms) => told(ms / M_PER_FOOT),
        speedUnit: 'ft/s',
        temperature: (c) => `${formatNumber(c, 0)} °C (${formatNumber(c * 1.8 + 32, 0)} °F)`,
        volume: (m3) => `${told((4 * m3) / M3_PER_GALLON)} qt (${told(m3 * 1000)} L)`,
        lengths,
        text: (sentence) => lengths.text(usText(sentence)),
      }
    : {
        isUs: false,
        flow: (m3s) => told(m3s * 60_000),
        flowUnit: 'L/min',
        pressure: (pa) => told(pa / 1e5),
        pressureUnit: 'bar',
        speed: (ms) => told(ms),
        speedUnit: 'm/s',
        temperature: (c) => `${formatNumber(c, 0)} °C`,
        volume: (m3) => `${told(m3 * 1000)} L`,
        lengths,
        text: lengths.text,
      };
