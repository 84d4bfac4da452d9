import type { Car } from '#car';
import type { TriangleMesh } from '#geometry';
import type { Finding } from '#sources';
import { type BayPart, bayPart } from './bay-part.ts';
import { type BayPort, bayPort } from './bay-port.ts';
import { type BayMover, bayMover } from './movement.ts';
import { partSolids } from './part-solids.ts';
import { leverBayParts, withLeverMovers } from './lever-bay-parts.ts';
import { panelParts } from './panel-parts.ts';
import { portsOutOfPlace } from './port-inside.ts';

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
  const parts = [
    ...car.parts.map((part) => bayPart(part, partSolids(part, meshes, warnings))),
    ...panelParts(car, meshes).map(({ part, solids }) => bayPart(part, solids)),
    ...leverBayParts(car),
  ];
  const partById = new Map(parts.map((p) => [p.id, p]));
  const ports = new Map(
    car.parts.flatMap((part) => part.ports.map((port) => [`${part.id}.${port.id}`, bayPort(part, port)] as const)),
  );
  const movers = new Map(withLeverMovers(car).map((m) => [m.id, bayMover(m)]));
  const made: Bay = { car, parts, partById, ports, movers, warnings };
  warnings.push(...portsOutOfPlace(parts, ports.values()));
  return made;
}
