import { describe, expect, it } from 'vitest';
import type { Order, OrderRow } from '#stock';
import { totalText } from './order-rows.ts';

const row = (toBuy: number, spare: boolean): OrderRow => ({
  id: 'cap',
  name: 'Cap',
  measure: false,
  kind: 'plug',
  qty: 1,
  unit: 'each',
  usedIn: [],
  inBox: 1 - toBuy,
  toBuy,
  ...(spare ? { spare: true } : {}),
});

describe('what an order says of itself, counted by hand', () => {
  const order = (...rows: readonly OrderRow[]): Order =>
    ({ rows, cuts: [], cost: [], unpriced: rows.length }) as unknown as Order;

  it('counts what is bought for the car and what of it only lies ready', () => {
    expect(totalText(order(row(1, false), row(1, true), row(0, false), row(1, true)))).toBe(
      '3 rows to buy, 2 of them spares; no row has a price.',
    );
    expect(totalText(order(row(1, false), row(0, true)))).toBe('1 row to buy; no row has a price.');
  });
});
