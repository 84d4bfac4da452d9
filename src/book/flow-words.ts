import { fahrenheitFromC, formatNumber, inchesFromMm, litresPerUsGallon, pascalsPerPsi, psiFromBar } from '#units';

/** Units that the builder works in. */
export type FlowUnits = 'metric' | 'inch';

const LMIN = 60_000;
const PA_BAR = 1e5;
const minus = (text: string): string => text.replace('-', '−');

/** A pressure above the air outside as a bare number: bar to 0.01, psi to 0.1; finer where it is small. */
export function pressureNumber(pa: number, units: FlowUnits): string {
  const value = units === 'inch' ? psiFromBar(pa / PA_BAR) : pa / PA_BAR;
  const decimals = units === 'inch' ? 1 : 2;
  return minus(formatNumber(value, Math.abs(value) >= 10 ? decimals - 1 : decimals));
}
export const pressureUnit = (units: FlowUnits): string => (units === 'inch' ? 'psi' : 'bar');
/** "0.23 bar", "3.4 psi". */
export const pressureWords = (pa: number, units: FlowUnits): string =>
  `${pressureNumber(pa, units)} ${pressureUnit(units)}`;

/** A small pressure, as a piece of a line loses it: "1.2 kPa", "0.17 psi". */
export function lossWords(pa: number, units: FlowUnits): string {
  const value = units === 'inch' ? pa / pascalsPerPsi : pa / 1000;
  const decimals = Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2;
  return `${minus(formatNumber(value, decimals))} ${units === 'inch' ? 'psi' : 'kPa'}`;
}

export function flowNumber(m3s: number, units: FlowUnits): string {
  const value = (m3s * LMIN) / (units === 'inch' ? litresPerUsGallon : 1);
  return minus(formatNumber(value, Math.abs(value) < 10 ? (units === 'inch' ? 2 : 1) : units === 'inch' ? 1 : 0));
}
export const flowUnit = (units: FlowUnits): string => (units === 'inch' ? 'US gal/min' : 'L/min');
/** "55.7 L/min", "14.7 US gal/min". */
export const flowWords = (m3s: number, units: FlowUnits): string => `${flowNumber(m3s, units)} ${flowUnit(units)}`;

/** "2.3 m/s", "7.5 ft/s". */
export function speedWords(ms: number, units: FlowUnits): string {
  const value = units === 'inch' ? inchesFromMm(ms * 1000) / 12 : ms;
  return `${minus(formatNumber(value, 1))} ${units === 'inch' ? 'ft/s' : 'm/s'}`;
}
/** "105 °C", "221 °F". */
export const heatWords = (celsius: number, units: FlowUnits): string =>
  `${minus(formatNumber(units === 'inch' ? fahrenheitFromC(celsius) : celsius))} ${units === 'inch' ? '°F' : '°C'}`;
/** "8.0 L", "2.11 US gal". */
export const volumeWords = (m3: number, units: FlowUnits): string =>
  units === 'inch' ? `${formatNumber((m3 * 1000) / litresPerUsGallon, 2)} US gal` : `${formatNumber(m3 * 1000, 1)} L`;
