import type { Car, Fastener, Line, Port } from '#car';
import { type WorkKind, workMinutes } from '#standards';

/** Minutes of one kind of work on this car, and whether the crew said so. */
export interface MinutesOf {
  readonly minutes: number;
  readonly isOwn: boolean;
}

/** Minutes of a kind of work: as the crew clocked it, else as usual. */
export function minutesOf(car: Pick<Car, 'workshop'>, work: WorkKind): MinutesOf {
  const own = car.workshop?.minutes?.find((row) => row.work === work);
  if (own !== undefined) return { minutes: own.minutes, isOwn: true };
  return { minutes: workMinutes.find((row) => row.work === work)!.minutes, isOwn: false };
}

/** To undo a fastener [min]. */
export const fastenerMinutes = (car: Pick<Car, 'workshop'>, fastener: Fastener): number =>
  fastener.minutes ?? minutesOf(car, fastener.head).minutes;

/** The kind of work that it is to undo a line at a port. */
export function jointWork({ end }: Pick<Port, 'end'>, line: Pick<Line, 'dash'>): WorkKind {
  switch (end.type) {
    case 'bead':
    case 'plain-tube':
      return 'joint-bead';
    case 'flange2':
      return 'joint-flange';
    case 'metric-washer':
      return 'joint-washer';
    default:
      return (end.dash ?? line.dash ?? 4) >= 10 ? 'joint-large' : 'joint-small';
  }
}
