import { add, type Vec } from '#geometry';
import type { Fault } from '../fault.ts';
import { placeOf } from '../fault.ts';
import type { Car, Origin, Part, Port, Shape } from '../schema/car.ts';
import { TAPE_KNOWN_TO_MM } from '../usual-tolerance.ts';
import { applied } from './best-turn.ts';
import type { KnownOrigins, PointReport } from './place-port.ts';
import { placePort } from './place-port.ts';
import { solveEdge } from './solve-edge.ts';
import { solveLevel } from './solve-level.ts';
import { solvePoints } from './solve-points.ts';
import type { OriginReport, SolvedOrigin } from './solved-origin.ts';
import { turnAnglesDeg } from './turn-angles.ts';

/** How the measurements came out: each origin, each measured point, and what could not be placed at all. */
export interface PlacingReport {
  readonly origins: readonly OriginReport[];
  readonly points: readonly PointReport[];
  /** Root mean square of all residuals of origins and points that took part [mm]; 0 where there are none. */
  readonly rmsMm: number;
  readonly faults: readonly Fault[];
}

/**
 * The car with everything that was measured from an origin brought into car axes: `atMm` and `knownToMm` of measured ports,
 * `turnDeg`, `atMm` and `knownToMm` of solids read in the axes of an origin. What cannot be placed keeps the place it had,
 * and is a fault. Doing it again changes nothing.
 */
export function resolveOrigins(car: Car): { readonly car: Car; readonly report: PlacingReport } {
  const faults: Fault[] = [];
  const origins = solvedOrigins(car.origins ?? [], faults);
  const points: PointReport[] = [];
  const parts = car.parts.map((part, i) => {
    if (
      !part.ports.some((port) => port.measured !== undefined) &&
      !part.shapes.some((shape) => shape.from !== undefined)
    )
      return part;
    return {
      ...part,
      shapes: part.shapes.map((shape) => placedShape(shape, part, origins.solved)),
      ports: part.ports.map((port, j) =>
        placedPort(port, part, origins, placeOf(['parts', i, 'ports', j, 'measured']), points, faults),
      ),
    };
  });
  const reports = [...origins.solved.values()].map((origin) => origin.report);
  const readings = [...reports, ...points].flatMap((report) => report.readings).filter((reading) => !reading.disagrees);
  const rmsMm =
    readings.length === 0
      ? 0
      : Math.sqrt(readings.reduce((sum, reading) => sum + reading.residualMm ** 2, 0) / readings.length);
  return { car: { ...car, parts }, report: { origins: reports, points, rmsMm, faults } };
}

const SOLVERS = { points: solvePoints, straightedge: solveEdge, level: solveLevel, marks: solveMarks } as const;

function solvedOrigins(origins: readonly Origin[], faults: Fault[]): KnownOrigins {
  const solved = new Map<string, SolvedOrigin>();
  const marks = new Map<string, Origin['points'][number]>();
  origins.forEach((origin, i) => {
    for (const point of origin.points) marks.set(`${origin.id}.${point.name}`, point);
    const result = SOLVERS[origin.kind](origin, placeOf(['origins', i]));
    if ('allowed' in result) faults.push(result);
    else solved.set(origin.id, result);
  });
  return { solved, marks };
}

function solveMarks(origin: Origin): SolvedOrigin {
  const readings = origin.points.map((point) => ({
    name: point.name,
    residualMm: 0,
    knownToMm: point.knownToMm ?? TAPE_KNOWN_TO_MM,
    disagrees: false,
  }));
  return {
    id: origin.id,
    kind: 'marks',
    variance: () => 0,
    report: { origin: origin.id, kind: 'marks', readings, rmsMm: 0, remarks: [] },
  };
}

function placedPort(
  port: Port,
  part: Part,
  origins: KnownOrigins,
  place: string,
  points: PointReport[],
  faults: Fault[],
): Port {
  if (port.measured === undefined) return port;
  const hasAll = port.measured.every(
    (reading) => reading.from === undefined || reading.distanceMm !== undefined || origins.solved.has(reading.from),
  );
  if (!hasAll) return port;
  const report = placePort(`${part.id}.${port.id}`, port.measured, origins, place);
  if ('allowed' in report) {
    faults.push(report);
    return port;
  }
  points.push(report);
  return { ...port, atMm: [...report.atMm], knownToMm: report.knownToMm };
}

function placedShape(shape: Shape, part: Part, solved: ReadonlyMap<string, SolvedOrigin>): Shape {
  const origin = shape.from === undefined ? undefined : solved.get(shape.from);
  if (origin?.frame === undefined) return shape;
  const { rows, shift } = origin.frame;
  const at = add(applied(rows, anchorOf(shape)), shift);
  const own = shape.mesh?.knownToMm ?? part.knownToMm ?? TAPE_KNOWN_TO_MM;
  const worst = Math.max(
    ...(
      [
        [1, 0, 0],
        [0, 1, 0],
        [0, 0, 1],
      ] as const
    ).map((axis) => origin.variance(at, axis)),
  );
  return { ...shape, turnDeg: turnAnglesDeg(rows), atMm: [...shift], knownToMm: Math.sqrt(own ** 2 + worst) };
}

/** A point on or in a solid, as read, to ask the origin how well it carries there. */
function anchorOf(shape: Shape): Vec {
  return shape.box?.maxMm ?? shape.cylinder?.toMm ?? shape.tube?.pointsMm[0] ?? shape.mesh?.atMm ?? [0, 0, 0];
}
