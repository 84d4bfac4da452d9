import type { Car } from '#car';
import type { PlannedLine, WayBody } from '#lines';

/** What is solid of each line, by its id. */
export type BodiesByLine = ReadonlyMap<string, readonly WayBody[]>;

/** Of lines as planned or, where none was, as taken. */
export const bodiesByLine = (car: Car, lines: readonly PlannedLine[] = []): BodiesByLine =>
  new Map<string, readonly WayBody[]>([
    ...car.lines.flatMap(({ id, taken }) => (taken ? [[id, taken.bodies as readonly WayBody[]] as const] : [])),
    ...lines.map(({ line, taken, best }) => [line, (taken ?? best).bodies] as const),
  ]);
