import { formatNumber } from '#units';

/** "12.3 mm" */
export const mm = (value: number): string => `${formatNumber(value, 1)} mm`;
export const withUnit = (value: number, unit: string | undefined): string =>
  `${formatNumber(value, 2)}${unit === undefined || unit === '' ? '' : ` ${unit}`}`;
