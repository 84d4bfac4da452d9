import { type LinesWorld, lineWays, plan, type Planned } from '#lines';
import { solidBodies } from './solid-bodies.ts';
import { madeBodies } from './standing-lines.ts';

/** Told how many lines are done of how many; false stops the work. */
export type Watch = (done: number, total: number) => boolean;

/** All lines in state planned, worked out together round those that are bought, made or fitted. */
export function planCar(world: LinesWorld, watch?: Watch): Planned {
  return plan(world.car, {
    solve: (line, placed, count) => lineWays(world, line, placed, count),
    bodies: (way) => solidBodies(way.bodies),
    made: madeBodies(world.car),
    lineKeepOffMm: world.lineKeepOffMm,
    ...(watch === undefined ? {} : { watch }),
  });
}
