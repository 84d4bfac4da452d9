import { toolCost } from '#access';
import { findLine } from '#car';
import { bodiesOfWay, firstWay, followingWay, LinesError, type LinesWorld, lineWays, type Way } from '#lines';
import { standingBeside } from './standing-lines.ts';

/** The best few ways of one line, round every other line for which a way is taken; of near-equal ones that first whose nuts take a spanner. */
export function waysOf(world: LinesWorld, lineId: string, count: number): Way[] {
  const line = findLine(world.car, lineId);
  if (line === undefined) throw new LinesError(`no line "${lineId}" in the car`);
  const others = new Map(
    world.car.lines.flatMap(({ id, taken }) => (id === lineId || !taken ? [] : [[id, bodiesOfWay(taken)] as const])),
  );
  const extraCost = toolCost(world.bay, world.shelf, line, others);
  return lineWays(world, line, standingBeside(world.car, lineId), count, extraCost);
}

/** A first way of one line, fast, round every other line for which a way is taken; null where a quick look finds none. */
export function firstWayOf(world: LinesWorld, lineId: string): Way | null {
  const line = findLine(world.car, lineId);
  if (line === undefined) throw new LinesError(`no line "${lineId}" in the car`);
  return firstWay(world, line, standingBeside(world.car, lineId));
}

/** A way of a line after a move, fast: near the one taken for it, round every other line for which a way is taken; null where none comes. */
export function followingWayOf(world: LinesWorld, lineId: string): Way | null {
  const line = findLine(world.car, lineId);
  if (line === undefined) throw new LinesError(`no line "${lineId}" in the car`);
  const taken = line.taken ?? null;
  return taken === null ? null : followingWay(world, line, standingBeside(world.car, lineId), taken);
}
