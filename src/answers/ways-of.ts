import { findLine } from '#car';
import { firstWay, followingWay, LinesError, type LinesWorld, lineWays, type Way } from '#lines';
import { standingBeside } from './standing-lines.ts';

/** The best few ways of one line, round every other line for which a way is taken. */
export function waysOf(world: LinesWorld, lineId: string, count: number): Way[] {
  const line = findLine(world.car, lineId);
  if (line === undefined) throw new LinesError(`no line "${lineId}" in the car`);
  return lineWays(world, line, standingBeside(world.car, lineId), count);
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
