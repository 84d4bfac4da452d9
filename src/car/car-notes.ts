import { placeOf } from './fault.ts';
import { resolveOrigins } from './placing/resolve-origins.ts';
import type { Car } from './schema/car.ts';

/** Something allowed that a builder may not have meant. */
export interface CarNote {
  readonly place: string;
  readonly text: string;
}

/** What is allowed in this car, but worth a word: made lines without a way, movers that carry nothing, measurements at odds. */
export function carNotes(car: Car): CarNote[] {
  return [...lineNotes(car), ...partNotes(car), ...moverNotes(car), ...originNotes(car)];
}

function lineNotes(car: Car): CarNote[] {
  return car.lines.flatMap((line, i) => {
    const isTaken = line.taken !== undefined && line.taken !== null;
    if (line.state === 'planned' || isTaken) return [];
    return [
      {
        place: placeOf(['lines', i, 'state']),
        text: `${line.id} is ${line.state}, but no way is taken: what was made is not known, so other lines cannot keep clear of it`,
      },
    ];
  });
}

function partNotes(car: Car): CarNote[] {
  return car.parts.flatMap((part, i) => {
    const out: CarNote[] = [];
    if (part.shapes.length === 0)
      out.push({ place: placeOf(['parts', i]), text: `${part.id} has no shape: nothing keeps clear of it` });
    if (part.class === 'hot' && part.surfaceC === undefined)
      out.push({ place: placeOf(['parts', i]), text: `${part.id} is hot, but its surfaceC is not given` });
    if (part.turbine === true && part.class !== 'hot')
      out.push({
        place: placeOf(['parts', i, 'turbine']),
        text: `${part.id} is a turbine, but its class is ${part.class}: it takes the keep-off of that class`,
      });
    return out;
  });
}

function moverNotes(car: Car): CarNote[] {
  const used = new Set(car.parts.map((part) => part.movesWith));
  return car.movers.flatMap((mover, i) => {
    const out: CarNote[] = [];
    if (!used.has(mover.id)) out.push({ place: placeOf(['movers', i]), text: `no part moves with ${mover.id}` });
    if (mover.turnDeg !== undefined && (mover.turnDeg[0] > 0 || mover.turnDeg[1] < 0)) {
      out.push({
        place: placeOf(['movers', i, 'turnDeg']),
        text: `${mover.id} swings from ${mover.turnDeg[0]} to ${mover.turnDeg[1]} deg, which leaves out 0, where it is drawn`,
      });
    }
    return out;
  });
}

function originNotes(car: Car): CarNote[] {
  if (car.origins === undefined || car.origins.length === 0) return [];
  const { report } = resolveOrigins(car);
  const ofOrigins = report.origins.flatMap((origin, i) =>
    origin.remarks.map((text) => ({ place: placeOf(['origins', i]), text })),
  );
  return [
    ...ofOrigins,
    ...report.points.flatMap((point) => point.remarks.map((text) => ({ place: point.port, text }))),
  ];
}
