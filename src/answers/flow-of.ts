import { type DriveLog, type FlowAnswer, flowOfCar, lapsOfCar } from '#flow';
import { type LinesWorld, type PlannedLine, standingWay, type Way } from '#lines';
import type { Watch } from './plan-car.ts';

/** Which cases to ask, and how far it is. */
export interface FlowWish {
  readonly caseId?: string;
  readonly watch?: Watch;
}

/**
 * Does it flow? Every circuit in every case, along the ways as they were planned or, where none was, as they were taken.
 * A line without a way that holds counts as its least bad one lies, and says so.
 */
export function flowOf(world: LinesWorld, lines: readonly PlannedLine[], wish: FlowWish = {}): FlowAnswer {
  const { caseId, watch } = wish;
  return flowOfCar({
    car: world.car,
    shelf: world.shelf,
    meshes: world.meshes,
    ways: waysByLine(world, lines),
    ...(caseId === undefined ? {} : { caseId }),
    ...(watch === undefined ? {} : { watch }),
  });
}

/** A driven log run through the dry sumps of the car. */
export const lapsOf = (world: LinesWorld, lines: readonly PlannedLine[], log: DriveLog) =>
  lapsOfCar({ car: world.car, shelf: world.shelf, meshes: world.meshes, ways: waysByLine(world, lines) }, log);

export function waysByLine(world: LinesWorld, lines: readonly PlannedLine[]): ReadonlyMap<string, Way> {
  const ways = new Map<string, Way>(lines.map(({ line, taken, best }) => [line, taken ?? best]));
  for (const line of world.car.lines)
    if (!ways.has(line.id) && line.taken !== null && line.taken !== undefined)
      ways.set(line.id, standingWay(world, line, line.taken));
  return ways;
}
