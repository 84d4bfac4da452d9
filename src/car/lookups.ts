import type { Car, Line, Mover, Part, Port } from './schema/car.ts';

/** The parts by id. */
export function partsById(car: Car): ReadonlyMap<string, Part> {
  return new Map(car.parts.map((part) => [part.id, part]));
}

/** The lines by id. */
export function linesById(car: Car): ReadonlyMap<string, Line> {
  return new Map(car.lines.map((line) => [line.id, line]));
}

/** The movers by id. */
export function moversById(car: Car): ReadonlyMap<string, Mover> {
  return new Map(car.movers.map((mover) => [mover.id, mover]));
}

/** "tank.out" as its two ids; an id holds no dot. */
export function splitPortRef(ref: string): { readonly part: string; readonly port: string } {
  const dot = ref.indexOf('.');
  return dot === -1 ? { part: ref, port: '' } : { part: ref.slice(0, dot), port: ref.slice(dot + 1) };
}

/** The port meant by "part.port", with the part it is on. */
export function findPort(car: Car, ref: string): { readonly part: Part; readonly port: Port } | undefined {
  const ids = splitPortRef(ref);
  const part = car.parts.find((candidate) => candidate.id === ids.part);
  const port = part?.ports.find((candidate) => candidate.id === ids.port);
  return part !== undefined && port !== undefined ? { part, port } : undefined;
}

/** The line with this id. */
export function findLine(car: Car, id: string): Line | undefined {
  return car.lines.find((line) => line.id === id);
}

/** Every port of the car as "part.port". */
export function portRefs(car: Car): string[] {
  return car.parts.flatMap((part) => part.ports.map((port) => `${part.id}.${port.id}`));
}

/** The line that uses a port, if any does. */
export function findLineAt(car: Car, portRef: string): Line | undefined {
  return car.lines.find((line) => line.from === portRef || line.to === portRef);
}
