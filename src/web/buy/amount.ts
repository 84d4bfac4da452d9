import type { OrderRow } from '#stock';
import { formatNumber, type Lengths } from '#units';

/** "3", "1.25 m", "4.2 ft". */
export function amount(value: number, unit: OrderRow['unit'], lengths: Lengths): string {
  if (unit !== 'm') return formatNumber(value);
  return lengths.unit === 'in' ? lengths.metres(value) : `${Number(formatNumber(value, 2))} m`;
}

/** Hands a text to the builder as a file. */
export function savedText(name: string, text: string): void {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([text], { type: 'text/csv' }));
  link.download = name;
  link.click();
  URL.revokeObjectURL(link.href);
}
