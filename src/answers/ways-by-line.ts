import { type LinesWorld, type PlannedLine, standingWay, type Way } from '#lines';

/** The way of each line: as planned, or where none was, as taken. A line without a way that holds has its least bad one. */
export function waysByLine(world: LinesWorld, lines: readonly PlannedLine[]): ReadonlyMap<string, Way> {
  const ways = new Map<string, Way>(lines.map(({ line, taken, best }) => [line, taken ?? best]));
  for (const line of world.car.lines)
    if (!ways.has(line.id) && line.taken !== null && line.taken !== undefined)
      ways.set(line.id, standingWay(world, line, line.taken));
  return ways;
}
