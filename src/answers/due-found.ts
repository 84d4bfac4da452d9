import type { LinesWorld, PlannedLine } from '#lines';
import type { ExtraFinding } from '#snags';
import { dueFindings } from '#stock';
import { lastDayKnown, lifingOf } from './lifing-of.ts';

/** What is due. Nobody here has a clock: it is told as of the last day that the car file knows of. */
export function dueFound(world: LinesWorld, lines: readonly PlannedLine[]): readonly ExtraFinding[] {
  const day = lastDayKnown(world.car);
  if (day === null) return [];
  return dueFindings(world.car, lifingOf(world, lines, day).due).map((finding) => ({ ...finding, question: 'buy' }));
}
