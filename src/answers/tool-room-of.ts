import { type ToolNut, type ToolRoom, toolRoom } from '#access';
import type { LinesWorld, PlannedLine, Way } from '#lines';
import type { TakenWay } from '#car';
import { panelsOf } from './panels-of.ts';
import type { Watch } from './plan-car.ts';

/** The tool room of a car along the ways as they were planned or, where none was, as they were taken; a line without a way has no nuts yet. */
export const toolRoomOf = (
  world: LinesWorld,
  lines: readonly PlannedLine[],
  { only, watch }: { readonly only?: (nut: ToolNut) => boolean; readonly watch?: Watch } = {},
): ToolRoom =>
  toolRoom({
    bay: world.bay,
    shelf: world.shelf,
    ways: waysTaken(world, lines),
    layouts: panelsOf(world, lines),
    ...(only === undefined ? {} : { only }),
    ...(watch === undefined ? {} : { watch }),
  });

function waysTaken(world: LinesWorld, lines: readonly PlannedLine[]): ReadonlyMap<string, Way | TakenWay> {
  const planned = new Map(lines.map(({ line, taken }) => [line, taken]));
  const ways = new Map<string, Way | TakenWay>();
  for (const { id, taken } of world.car.lines) {
    const way = planned.get(id) ?? taken ?? null;
    if (way !== null) ways.set(id, way);
  }
  return ways;
}
