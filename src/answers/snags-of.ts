import type { LinesWorld, Planned } from '#lines';
import { type Snag, snags } from '#snags';
import { flowOf } from './flow-of.ts';

/** Every open point of the car with its plan, worst first: what does not fit, and what does not flow. */
export const snagsOf = (world: LinesWorld, planned: Planned): Snag[] =>
  snags(world, planned, [], flowOf(world, planned.lines));
