import type { Order, OrderRow } from '#stock';
import { formatNumber, type Lengths } from '#units';
import { columns } from './columns.ts';
import type { Style } from './style.ts';

/** The order as lists: what to buy, what to cut from what, and what is worth knowing before money is spent. */
export function orderText(order: Order, style: Style, lengths: Lengths): string[] {
  const built = order.rows.filter((row) => row.spare !== true);
  const spares = order.rows.filter((row) => row.spare === true);
  return [
    style.strong('To buy'),
    ...rowsText(built, lengths),
    ...(spares.length === 0
      ? []
      : ['', style.strong('To carry as spares (common practice, no source)'), ...rowsText(spares, lengths)]),
    '',
    style.strong('To cut'),
    ...columns(
      order.cuts.map((cut) => [
        `  ${cut.line}`,
        cut.hose,
        lengths.one(cut.lengthMm),
        lengths.allowance(cut.allowanceMm),
      ]),
    ),
    ...[...order.hoseByTheMetre, ...order.tubes].flatMap((sheet) =>
      sheet.lengths.map(
        (length, i) =>
          `  ${sheet.id} length ${i + 1}, ${lengths.metres(length.lengthMm / 1000, 1)} ${length.from === 'box' ? 'from the box' : 'bought'}: ${length.cuts.map((cut) => cut.id).join(', ')}; ${lengths.one(length.leftMm)} left`,
      ),
    ),
    ...(order.makings.length === 0
      ? []
      : [
          '',
          style.strong('To put the hose ends on'),
          ...order.makings.flatMap(({ fixing, needs, again, ends }) => [
            `  ${fixing}: ${needs} (${ends.join(', ')})`,
            `    used again: ${again}`,
          ]),
        ]),
    '',
    totalText(order),
    ...order.withoutWay.map((line) => style.stop(`▲ ${line} was refused: nothing of it is in this order.`)),
    ...(order.brackets.length === 0
      ? []
      : [
          `${order.brackets.length} brackets to make: ${order.brackets.map((row) => `${row.line} at ${lengths.one(row.alongMm)}`).join(', ')}.`,
        ]),
    ...order.remarks.map((text) => style.soft(lengths.text(text))),
  ];
}

function rowsText(rows: readonly OrderRow[], lengths: Lengths): string[] {
  if (rows.length === 0) return ['  nothing'];
  return columns(
    rows.map((row) => [
      `  ${amount(row, lengths)}`,
      row.id,
      lengths.soldAs(row.name),
      [
        row.partNumber,
        row.supplier,
        row.thread,
        row.hexMm === undefined ? undefined : lengths.hex(row.hexMm),
        row.measure ? 'measure the part in your hand' : undefined,
      ]
        .filter((cell) => cell !== undefined)
        .join(', '),
      lengths.cutText(row.usedIn.join('; ')),
    ]),
  );
}

const amount = (row: OrderRow, lengths: Lengths): string => {
  const buy = row.unit === 'm' ? lengths.metres(row.toBuy) : String(row.toBuy);
  return row.inBox > 0 ? `${buy} (${row.inBox} in the box)` : buy;
};

/** "31 rows to buy, 9 of them spares; 412.50 GBP for what has a price, 12 rows have none." */
export function totalText(order: Order): string {
  const toBuy = order.rows.filter((row) => row.toBuy > 0);
  const spares = toBuy.filter((row) => row.spare === true).length;
  const sums = order.cost.map(({ currency, sum }) => `${formatNumber(sum, 2)}${currency === '' ? '' : ` ${currency}`}`);
  const priced =
    sums.length === 0
      ? 'no row has a price'
      : `${sums.join(' and ')} for what has a price, ${order.unpriced} rows have none`;
  return `${toBuy.length} ${toBuy.length === 1 ? 'row' : 'rows'} to buy${spares === 0 ? '' : `, ${spares} of them spares`}; ${priced}.`;
}
