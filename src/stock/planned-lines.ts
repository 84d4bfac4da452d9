import type { Car, Line, TakenWay } from '#car';
import type { Way } from '#lines';

/** What a plan says of each line; the answer of `plan` is one. */
export interface PlannedLines {
  readonly lines: readonly { readonly line: string; readonly taken: Way | TakenWay | null; readonly best?: Way }[];
}

/** A line with what it is made up as; no way = nothing decided, or refused. */
export interface LineWithWay {
  readonly line: Line;
  readonly way: Way | TakenWay | null;
}

/** Every line of the car with the way it has: made ones as they were made, planned ones as the plan took them. */
export function linesWithWays(car: Car, planned: PlannedLines): readonly LineWithWay[] {
  const byLine = new Map(planned.lines.map((answer) => [answer.line, answer.taken]));
  return car.lines.map((line) => ({
    line,
    way: isMade(line) || !byLine.has(line.id) ? (line.taken ?? null) : (byLine.get(line.id) ?? null),
  }));
}

/** Bought or further: its parts need no buying and are never changed silently. */
export const isMade = (line: Line): boolean => line.state !== 'planned';
