import type { OrderRow } from '#stock';
import { formatNumber } from '#units';

/** "3", "1.25 m". */
export const amount = (value: number, unit: OrderRow['unit']): string =>
  unit === 'm' ? `${Number(formatNumber(value, 2))} m` : formatNumber(value);

/** Hands a text to the builder as a file. */
export function savedText(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'text/csv' }));
  link.download = name;
  link.click();
  URL.revokeObjectURL(link.href);
}
