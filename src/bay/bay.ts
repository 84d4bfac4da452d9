import { type Car, type CrossingKind, type Part, type PartClass, type Port, type PortEnd, partTolerance } from '#car';
import { type Bounds, joined, type Solid, type TriangleMesh, unit, type Vec } from '#geometry';
import type { Finding } from '#sources';
import { type BayMover, bayMover } from './movement.ts';
import { partSolids } from './part-solids.ts';
import { portsOutOfPlace } from './port-inside.ts';

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
  /** As it stands in the car file. */
  readonly part: Part;
}

/** One port as it stands in the car. */
export interface BayPort {
  /** "part.port" */
  readonly ref: string;
  readonly partId: string;
  readonly at: Vec;
  /** Unit vector out of the part. */
  readonly faces: Vec;
  readonly end: PortEnd;
  readonly knownToMm: number;
  readonly facingKnownDeg: number;
  readonly near: Port['near'];
  readonly port: Port;
}

/** The car as solid space. */
export interface Bay {
  readonly car: Car;
  readonly parts: readonly BayPart[];
  readonly partById: ReadonlyMap<string, BayPart>;
  /** By "part.port". */
  readonly ports: ReadonlyMap<string, BayPort>;
  readonly movers: ReadonlyMap<string, BayMover>;
  /** What is wrong with how things stand: missing meshes, ports inside or off their parts. */
  readonly warnings: readonly Finding[];
}

/**
 * The car as solid space: every shape placed, every port found, every mover with its poses.
 *
 * @param car - a car that has passed its checks
 * @param meshes - by file name as the car names it, in millimetres, in the file's own axes
 */
export function bay(car: Car, meshes: ReadonlyMap<string, TriangleMesh>): Bay {
  const warnings: Finding[] = [];
  const prepared = new Map<string, Solid>();
  const parts = car.parts.map((part): BayPart => {
    const solids = partSolids(part, meshes, prepared, warnings);
    return {
      id: part.id,
      name: part.name ?? part.id,
      class: part.class,
      solids,
      moverId: part.movesWith ?? null,
      knownToMm: surfaceKnownToMm(part),
      bounds: solids.length === 0 ? null : solids.map((s) => s.bounds).reduce(joined),
      crossable: part.crossable ?? [],
      part,
    };
  });
  const partById = new Map(parts.map((p) => [p.id, p]));
  const ports = new Map(
    car.parts.flatMap((part) => part.ports.map((port) => [`${part.id}.${port.id}`, bayPort(part, port)] as const)),
  );
  const movers = new Map(car.movers.map((m) => [m.id, bayMover(m)]));
  const made: Bay = { car, parts, partById, ports, movers, warnings };
  warnings.push(...portsOutOfPlace(made));
  return made;
}

function surfaceKnownToMm(part: Part): number {
  const usual = partTolerance(part).knownToMm;
  if (part.shapes.length === 0) return usual;
  return Math.max(...part.shapes.map((shape) => shape.mesh?.knownToMm ?? usual));
}

function bayPort(part: Part, port: Port): BayPort {
  const usual = partTolerance(part);
  return {
    ref: `${part.id}.${port.id}`,
    partId: part.id,
    at: port.atMm,
    faces: unit(port.faces),
    end: port.end,
    knownToMm: port.knownToMm ?? usual.knownToMm,
    facingKnownDeg: port.facingKnownDeg ?? usual.facingKnownDeg,
    near: port.near,
    port,
  };
}
