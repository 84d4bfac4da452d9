import type { Car } from '#car';
import type { LinesWorld, PlannedLine } from '#lines';
import { type DueItem, dueList, linesWithWays, type WeekendSpare, weekendSpares } from '#stock';

/** What is due on a day, and what to carry for a weekend. */
export interface LifingAnswer {
  readonly day: string;
  readonly due: readonly DueItem[];
  readonly spares: readonly WeekendSpare[];
}

/** Lives of hoses, seals and parts on a day that whoever has a clock says, and the spares that save a weekend. */
export function lifingOf({ car, shelf }: LinesWorld, lines: readonly PlannedLine[], day: string): LifingAnswer {
  const withWays = linesWithWays(car, { lines });
  const due = dueList({ car, lines: withWays, shelf, day });
  return { day, due, spares: weekendSpares({ car, lines: withWays, shelf, due }) };
}

/** The last day that the car file knows of: what stands in for today where nobody has a clock. */
export function lastDayKnown({ runDays, lines, parts }: Car): string | null {
  const days = [
    ...(runDays ?? []).map(({ on }) => on),
    ...lines.flatMap(({ signed }) => (signed ?? []).map(({ on }) => on)),
    ...parts.flatMap(({ life }) => [life?.fittedOn, life?.testedOn].filter((day) => day !== undefined)),
  ];
  return days.sort().at(-1) ?? null;
}
