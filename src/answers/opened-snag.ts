import type { Car } from '#car';
import { type OpenedNumber, openNumber } from '#snags';
import { catalogue } from '#standards';
import type { Standing } from './standing.ts';

/** The number of one snag opened up; null where the car as it stands has no such snag. */
export function openedSnag(car: Car, standing: Standing, id: string): OpenedNumber | null {
  const snag = standing.snags.find((row) => row.id === id);
  if (snag === undefined) return null;
  const stands = standing.lines.find((row) => row.line === snag.line);
  return openNumber({
    car,
    shelf: catalogue(car.catalogue),
    snag,
    line: car.lines.find((line) => line.id === snag.line),
    way: stands?.way ?? stands?.tried ?? null,
  });
}
