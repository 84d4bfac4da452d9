import type { FlowAnswer } from '#flow';
import { curesOfLine, type HeatAnswer, type HeatAsk, heatOfCar, type LineCures } from '#heat';
import type { LinesWorld, PlannedLine } from '#lines';
import { waysByLine } from './flow-of.ts';
import type { Watch } from './plan-car.ts';

/** Which case to ask, what flows, and how far it is. */
export interface HeatWish {
  readonly caseId?: string;
  /** As `flowOf` gave it; null or absent: lines flow as they state. */
  readonly flow?: FlowAnswer | null;
  readonly watch?: Watch;
}

/**
 * Does it cook? Every line, panel and part in every case, along the ways as they were planned or, where none was, as they were taken.
 */
export const heatOf = (world: LinesWorld, lines: readonly PlannedLine[], wish: HeatWish = {}): HeatAnswer =>
  heatOfCar(askOf(world, lines, wish));

/** What each cure is worth on one line, in the case where it is worst or the one asked for. */
export const curesOf = (
  world: LinesWorld,
  lines: readonly PlannedLine[],
  line: string,
  wish: HeatWish = {},
): LineCures => curesOfLine(askOf(world, lines, wish), line);

function askOf(world: LinesWorld, lines: readonly PlannedLine[], { caseId, flow = null, watch }: HeatWish): HeatAsk {
  return {
    car: world.car,
    bay: world.bay,
    shelf: world.shelf,
    meshes: world.meshes,
    ways: waysByLine(world, lines),
    flow,
    ...(caseId === undefined ? {} : { caseId }),
    ...(watch === undefined ? {} : { watch }),
  };
}
