import type { Bay, BayPart } from '#bay';
import type { Car, Line } from '#car';
import type { LinesWorld } from '#lines';

/** The second car's space as a line sees it that has not moved itself: only what is not the same as in the first. */
export type ChangedFor = (lineA: Line, lineB: Line) => Bay;

/**
 * Parts that stand, move or count otherwise in the second car. A line that lies where it lay has the gaps it had to all others, so only
 * these are measured again. A scanned part always counts: the same file name does not say that it is the same scan.
 */
export function changedFor(a: LinesWorld, b: LinesWorld): ChangedFor {
  const before = new Map(a.car.parts.map((part) => [part.id, part]));
  const moverOf = (car: Car, id: string | null): string =>
    JSON.stringify(car.movers.find((mover) => mover.id === id) ?? null);
  const same = ({ id, part, moverId }: BayPart): boolean => {
    const was = before.get(id);
    if (was === undefined || part.shapes.some((shape) => shape.mesh !== undefined)) return false;
    return (
      JSON.stringify(was) === JSON.stringify(part) && moverOf(a.car, was.movesWith ?? null) === moverOf(b.car, moverId)
    );
  };
  const otherRules = JSON.stringify(a.car.keepOffMm ?? {}) !== JSON.stringify(b.car.keepOffMm ?? {});
  const changed: Bay = { ...b.bay, parts: b.bay.parts.filter((part) => otherRules || !same(part)) };
  const carrier = (world: LinesWorld, ref: string): string =>
    moverOf(world.car, world.bay.partById.get(world.bay.ports.get(ref)?.partId ?? '')?.moverId ?? null);
  const portOf = (world: LinesWorld, ref: string): string => JSON.stringify(world.bay.ports.get(ref)?.port ?? null);
  return (lineA, lineB) => {
    const ends = [
      [lineA.from, lineB.from],
      [lineA.to, lineB.to],
    ] as const;
    const alike = ends.every(([p, q]) => carrier(a, p) === carrier(b, q) && portOf(a, p) === portOf(b, q));
    return alike && lineA.duty === lineB.duty && lineA.keepOffMm === lineB.keepOffMm ? changed : b.bay;
  };
}
