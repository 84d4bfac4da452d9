import { type Car, findPort, type Part, partTolerance, portTolerance, type Shape, TAPE_KNOWN_TO_MM } from '#car';
import {
  type Bounds,
  box,
  capsule,
  cylinder,
  joined,
  type RigidMotion,
  rotationFromDeg,
  type Solid,
  type Vec,
} from '#geometry';

/** Along one of the three axes of the car: to its larger numbers (rearward, right, up), to its smaller, or level with the middle. */
export type Side = 'plus' | 'minus' | 'middle';

/** From what the tape is held: one face each way, with how well that is known. */
export interface TapeStart {
  readonly minMm: Vec;
  readonly maxMm: Vec;
  readonly knownToMm: number;
  /** It has an extent, so that "rearward of it" begins at its rear. */
  readonly isPart: boolean;
}

export interface TapeStep {
  readonly side: Side;
  readonly mm: number;
}

/** The car's own zero: front axle line, middle of the car, the height that the builder calls zero. */
export const DATUM: TapeStart = { minMm: [0, 0, 0], maxMm: [0, 0, 0], knownToMm: 0, isPart: false };

/**
 * A place from three distances, in car axes.
 *
 *     plus: max_i + d_i;  minus: min_i - d_i;  middle: (min_i + max_i) / 2;  known to sqrt(start^2 + tape^2)
 *
 * @param tapeMm - how well the tape was read [+-mm]
 */
export function placeFromTape(
  start: TapeStart,
  steps: readonly [TapeStep, TapeStep, TapeStep],
  tapeMm: number,
): { readonly atMm: [number, number, number]; readonly knownToMm: number } {
  const along = (i: 0 | 1 | 2): number => {
    const { side, mm } = steps[i];
    if (side === 'middle') return (start.minMm[i] + start.maxMm[i]) / 2;
    return side === 'plus' ? start.maxMm[i] + mm : start.minMm[i] - mm;
  };
  const tenth = (mm: number): number => Math.round(mm * 10) / 10 + 0;
  return {
    atMm: [tenth(along(0)), tenth(along(1)), tenth(along(2))],
    knownToMm: tenth(Math.hypot(start.knownToMm, tapeMm)),
  };
}

/** What the tape may be held to, by name: "datum", "port tank.out", "part tank". Undefined where there is no such thing, or it has no shape. */
export function tapeStart(car: Car, name: string): TapeStart | undefined {
  if (name === 'datum') return DATUM;
  const [kind, id = ''] = name.split(' ');
  if (kind === 'port') {
    const found = findPort(car, id);
    if (found === undefined) return undefined;
    const { atMm } = found.port;
    return {
      minMm: atMm,
      maxMm: atMm,
      knownToMm: portTolerance(car, id)?.knownToMm ?? TAPE_KNOWN_TO_MM,
      isPart: false,
    };
  }
  const part = car.parts.find((candidate) => candidate.id === id);
  const bounds = part === undefined ? undefined : partBounds(part);
  if (part === undefined || bounds === undefined) return undefined;
  return { minMm: bounds.min, maxMm: bounds.max, knownToMm: partTolerance(part).knownToMm, isPart: true };
}

/** What a tape can be held to on this car; scans have no face that a tape finds, their ports have. */
export function tapeStarts(car: Car): readonly { readonly name: string; readonly words: string }[] {
  return [
    { name: 'datum', words: "the car's datum" },
    ...car.parts.flatMap((part) => {
      const words = part.name ?? part.id;
      const own = partBounds(part) === undefined ? [] : [{ name: `part ${part.id}`, words }];
      const ports = part.ports.map((port) => ({
        name: `port ${part.id}.${port.id}`,
        words: `${words}: port ${port.name ?? port.id}`,
      }));
      return [...own, ...ports];
    }),
  ];
}

/** The box in car axes that all plain solids of a part fit in; undefined where it has none, or a scan. */
export function partBounds(part: Part): Bounds | undefined {
  if (part.shapes.length === 0 || part.shapes.some((shape) => shape.mesh !== undefined)) return undefined;
  return part.shapes
    .flatMap(solidsOf)
    .map((solid) => solid.bounds)
    .reduce<Bounds | undefined>((all, one) => (all === undefined ? one : joined(all, one)), undefined);
}

function solidsOf(shape: Shape): readonly Solid[] {
  const put: RigidMotion = { rows: rotationFromDeg(shape.turnDeg ?? [0, 0, 0]).rows, shift: shape.atMm ?? [0, 0, 0] };
  if (shape.box !== undefined) return [box(shape.box.minMm, shape.box.maxMm).moved(put)];
  if (shape.cylinder !== undefined)
    return [cylinder(shape.cylinder.fromMm, shape.cylinder.toMm, shape.cylinder.radiusMm).moved(put)];
  const { pointsMm, radiusMm } = shape.tube ?? { pointsMm: [], radiusMm: 1 };
  return pointsMm.slice(1).map((point, i) => capsule(pointsMm[i]!, point, radiusMm).moved(put));
}
