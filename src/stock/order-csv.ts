import type { OrderRow } from './order-row.ts';
import type { Order } from './order.ts';

const columns = [
  'id',
  'name',
  'kind',
  'qty',
  'unit',
  'inBox',
  'toBuy',
  'spare',
  'usedIn',
  'partNumber',
  'supplier',
  'price',
  'currency',
  'standard',
  'thread',
  'hexMm',
  'measure',
] as const satisfies readonly (keyof OrderRow)[];

/** The order's rows as comma-separated text with a heading, one row a part, for a spreadsheet or a supplier. */
export function orderCsv(order: Order): string {
  return csvText([[...columns], ...order.rows.map((row) => columns.map((key) => cellOf(row[key])))]);
}

/** The cuts as comma-separated text with a heading. */
export function cutsCsv(order: Order): string {
  const rows = order.cuts.map((cut) => [
    cut.line,
    String(cut.number),
    cut.hose,
    cut.kind,
    String(cut.lengthMm),
    String(cut.allowanceMm[0]),
    String(cut.allowanceMm[1]),
  ]);
  return csvText([['line', 'piece', 'of', 'kind', 'lengthMm', 'shorterMm', 'longerMm'], ...rows]);
}

function cellOf(value: OrderRow[keyof OrderRow]): string {
  if (value === undefined || value === false) return '';
  if (value === true) return 'yes';
  return typeof value === 'object' ? value.join('; ') : String(value);
}

/** Rows as comma-separated text for a spreadsheet. */
export const csvText = (rows: readonly (readonly string[])[]): string =>
  rows.map((row) => `${row.map(quoted).join(',')}\r\n`).join('');

/** Quoted where the sign separates cells; a leading = + or @ would be run as a formula by a spreadsheet, so it gets a mark before it. */
function quoted(cell: string): string {
  const inert = /^[=+@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(inert) ? `"${inert.replaceAll('"', '""')}"` : inert;
}
