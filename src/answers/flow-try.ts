import type { Edit } from '#car';
import { findLine } from '#car';
import { type CircuitFlow, flowOfCar } from '#flow';
import { type LinesWorld, standingWay } from '#lines';
import { standingWays } from './flow-page.ts';
import { carWithLine, lineInSize } from './line-in-size.ts';
import type { Watch } from './plan-car.ts';

/** A line tried in another size: what its circuits then do in every case, and what was taken for granted. */
export interface FlowTried {
  readonly line: string;
  readonly dash: number;
  /** The hose it would be. */
  readonly hose: string;
  readonly boreMm: number;
  readonly said: readonly string[];
  readonly circuits: readonly CircuitFlow[];
  /** What keeping the size does to the car. */
  readonly edits: readonly Edit[];
}

/** What the circuits of a line do with it in another dash size, its way kept as a curve; why not in one sentence. */
export function flowTried(
  world: LinesWorld,
  lineId: string,
  dash: number,
  watch?: Watch,
): FlowTried | { readonly fault: string } {
  const line = findLine(world.car, lineId);
  if (line === undefined) return { fault: `there is no line "${lineId}" in this car` };
  const sized = lineInSize(world.shelf, line, dash);
  if ('fault' in sized) return sized;
  const whole = carWithLine(world.car, sized.line);
  const car = { ...whole, circuits: (whole.circuits ?? []).filter(({ lines }) => lines.includes(lineId)) };
  const ways = new Map(standingWays(world));
  const taken = sized.line.taken ?? null;
  // Its curve counts as it lies: whether a way of that size fits there is asked when it is kept.
  if (taken !== null) ways.set(lineId, { ...standingWay({ ...world, car }, sized.line, taken), feasible: true });
  const { circuits } = flowOfCar({
    car,
    shelf: world.shelf,
    ways,
    meshes: world.meshes,
    ...(watch === undefined ? {} : { watch }),
  });
  return {
    line: lineId,
    dash,
    hose: sized.hose.name,
    boreMm: sized.hose.boreMm,
    said: sized.said,
    circuits,
    edits: sized.edits,
  };
}
