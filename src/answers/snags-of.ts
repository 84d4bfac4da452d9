import { type LinesWorld, type Planned } from '#lines';
import { type Snag, snags } from '#snags';

/** Every open point of the car with its plan, worst first. */
export const snagsOf = (world: LinesWorld, planned: Planned): Snag[] => snags(world, planned);
