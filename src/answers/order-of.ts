import type { LinesWorld, Planned } from '#lines';
import { type Order, order, type OrderOptions } from '#stock';

/** What to buy and cut for the plan, less what lies in the box. */
export const orderOf = (world: LinesWorld, planned: Planned, options?: OrderOptions): Order =>
  order(world.car, planned, world.shelf, options);
