import { type FlowAnswer, flowOfCar, type FlowViews, flowViews } from '#flow';
import { type LinesWorld, standingWay, type Way } from '#lines';
import type { Watch } from './plan-car.ts';

const known = new WeakMap<LinesWorld, ReadonlyMap<string, Way>>();

/** The ways that were taken, judged on the car as it is: once for a world, since each case of it asks. */
export function standingWays(world: LinesWorld): ReadonlyMap<string, Way> {
  const had = known.get(world);
  if (had !== undefined) return had;
  const ways = new Map(
    world.car.lines.flatMap((line) =>
      line.taken === undefined || line.taken === null ? [] : [[line.id, standingWay(world, line, line.taken)]],
    ),
  );
  known.set(world, ways);
  return ways;
}

const askOf = (world: LinesWorld) => ({
  car: world.car,
  shelf: world.shelf,
  ways: standingWays(world),
  meshes: world.meshes,
});

/** What one case does to the circuits of a standing car, along the ways that were taken. */
export const flowInCase = (world: LinesWorld, caseId: string | undefined, watch?: Watch): FlowAnswer =>
  flowOfCar({
    ...askOf(world),
    part: 'cases',
    ...(caseId === undefined ? {} : { caseId }),
    ...(watch === undefined ? {} : { watch }),
  });

/** What holds whatever the case, and what is drawn over engine speed and g. */
export interface FlowBeside {
  readonly whole: FlowAnswer;
  readonly views: FlowViews;
}

export const flowBeside = (world: LinesWorld): FlowBeside => ({
  whole: flowOfCar({ ...askOf(world), part: 'circuits' }),
  views: flowViews(askOf(world)),
});
