import { findLine } from '#car';
import type { FlowAnswer } from '#flow';
import { curesOfLine, type HeatAnswer, type HeatAsk, type HeatMemory, heatOfCar, type LineCures } from '#heat';
import { laidWay, type LinesWorld, type PlannedLine, type Way } from '#lines';
import type { Watch } from './plan-car.ts';
import { waysOf } from './ways-of.ts';

/** Which case to ask, what flows, and how far it is. */
export interface HeatWish {
  readonly caseId?: string;
  /** As `flowOf` gave it; null or absent: lines flow as they state. */
  readonly flow?: FlowAnswer | null;
  /** Of the last time; it is brought up to date. */
  readonly memory?: HeatMemory;
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
): LineCures => curesOfLine(askOf(world, lines, wish), line, { otherWays: otherWays(world, line) });

/** Ways that are looked through for another clock or end. */
const WAYS = 4;

/** The next ways of a line that is not cut yet. */
function otherWays(world: LinesWorld, id: string): readonly Way[] {
  const line = findLine(world.car, id);
  return line?.state === 'planned' ? waysOf(world, id, WAYS) : [];
}

function askOf(
  world: LinesWorld,
  lines: readonly PlannedLine[],
  { caseId, flow = null, memory, watch }: HeatWish,
): HeatAsk {
  const ways: Map<string, ReturnType<typeof laidWay>> = new Map(
    lines.map(({ line, taken, best }) => [line, taken ?? best]),
  );
  for (const line of world.car.lines)
    if (!ways.has(line.id) && line.taken !== null && line.taken !== undefined)
      ways.set(line.id, laidWay(line, line.taken));
  return {
    car: world.car,
    bay: world.bay,
    shelf: world.shelf,
    meshes: world.meshes,
    ways,
    flow,
    ...(caseId === undefined ? {} : { caseId }),
    ...(memory === undefined ? {} : { memory }),
    ...(watch === undefined ? {} : { watch }),
  };
}

/** Nothing cooks where nothing is known to be hot. */
export const hasHeat = ({ car }: Pick<LinesWorld, 'car'>): boolean =>
  car.parts.some(({ class: kind, surfaceC }) => kind === 'hot' && surfaceC !== undefined);
