import { type CrossingKind, type Part, type PartClass, partTolerance } from '#car';
import { type Bounds, joined, type Solid } from '#geometry';

/** One part as it stands in the car. */
export interface BayPart {
  readonly id: string;
  readonly name: string;
  readonly class: PartClass;
  /** Its shapes, placed; none for a part that is only ports. */
  readonly solids: readonly Solid[];
  readonly moverId: string | null;
  /** How well its surfaces are known: the worst of its shapes [+-mm]. */
  readonly knownToMm: number;
  /** Round all its solids; null where it has none. */
  readonly bounds: Bounds | null;
  /** Ways a line may pass through it. */
  readonly crossable: readonly CrossingKind[];
  /** Parts that it is joined to and stands at: a lever to the cylinder that it pushes. */
  readonly joinedTo: readonly string[];
  /** As it stands in the car file. */
  readonly part: Part;
}

/** A part of the car file with its placed solids. */
export function bayPart(part: Part, solids: readonly Solid[]): BayPart {
  return {
    id: part.id,
    name: part.name ?? part.id,
    class: part.class,
    solids,
    moverId: part.movesWith ?? null,
    knownToMm: surfaceKnownToMm(part),
    bounds: solids.length === 0 ? null : solids.map((s) => s.bounds).reduce(joined),
    crossable: part.crossable ?? [],
    joinedTo: [],
    part,
  };
}

function surfaceKnownToMm(part: Part): number {
  const usual = partTolerance(part).knownToMm;
  if (part.shapes.length === 0) return usual;
  return Math.max(...part.shapes.map((shape) => shape.mesh?.knownToMm ?? usual));
}

/** Whether a port of that part is a port of this one, or of what it is joined to: how the two stand to each other is not in doubt. */
export const isOwnPart = ({ id, joinedTo }: Pick<BayPart, 'id' | 'joinedTo'>, portsPart: string | undefined): boolean =>
  portsPart !== undefined && (id === portsPart || joinedTo.includes(portsPart));
