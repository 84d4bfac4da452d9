import type { Car, Mover } from '#car';
import { leverParts } from '#levers';
import { type BayPart, bayPart } from './bay-part.ts';
import { partSolids } from './part-solids.ts';

/**
 * The levers of the car as moving parts of the bay, with the cylinders that they push: so lines and panels keep off their swing.
 * Cables are among them where they were measured as they lie; others are laid where the lines leave them room.
 */
export function leverBayParts(car: Pick<Car, 'levers'>): readonly BayPart[] {
  const { parts, laidCables } = leverParts(car);
  const swung = parts.map((part) => {
    const lever = car.levers!.find(({ id }) => id === part.id)!;
    const pushes = (lever.cylinders ?? []).flatMap((row) => row.part ?? []);
    return { ...bayPart(part, partSolids(part, new Map(), [])), joinedTo: pushes };
  });
  return [...swung, ...laidCables.map((part) => bayPart(part, partSolids(part, new Map(), [])))];
}

/** Movers of the car, and the swing of each lever. */
export const withLeverMovers = (car: Pick<Car, 'levers' | 'movers'>): readonly Mover[] => [
  ...car.movers,
  ...leverParts(car).movers,
];
