import { add, composed, movedDirection, movedPoint, rotationFromDeg, type RigidMotion, sub, type Vec } from '#geometry';
import { turnAnglesDeg } from '../placing/turn-angles.ts';
import type { Part, Port, Shape } from '../schema/car.ts';

/** The motion of a part: turned about a point, then shifted. */
export function partMotion(byMm: Vec, turnDeg: Vec | undefined, aboutMm: Vec | undefined): RigidMotion {
  const turn = rotationFromDeg(turnDeg ?? [0, 0, 0]);
  const about = aboutMm ?? [0, 0, 0];
  return { rows: turn.rows, shift: add(byMm, sub(about, movedPoint({ rows: turn.rows, shift: [0, 0, 0] }, about))) };
}

/** A solid moved with its part. What an origin gave it stands in car axes from now on: it is no longer where it was measured. */
export function movedShape(shape: Shape, motion: RigidMotion, isTurned: boolean): Shape {
  const { from: _, ...own } = shape;
  const hasTurn = own.turnDeg !== undefined || own.atMm !== undefined;
  if (!hasTurn && own.cylinder !== undefined) {
    return {
      ...own,
      cylinder: {
        ...own.cylinder,
        fromMm: triple(movedPoint(motion, own.cylinder.fromMm)),
        toMm: triple(movedPoint(motion, own.cylinder.toMm)),
      },
    };
  }
  if (!hasTurn && own.tube !== undefined)
    return { ...own, tube: { ...own.tube, pointsMm: own.tube.pointsMm.map((p) => triple(movedPoint(motion, p))) } };
  if (!hasTurn && own.box !== undefined && !isTurned) {
    return {
      ...own,
      box: {
        ...own.box,
        minMm: triple(add(own.box.minMm, motion.shift)),
        maxMm: triple(add(own.box.maxMm, motion.shift)),
      },
    };
  }
  if (!isTurned) return { ...own, atMm: triple(add(own.atMm ?? [0, 0, 0], motion.shift)) };
  const placed: RigidMotion = { rows: rotationFromDeg(own.turnDeg ?? [0, 0, 0]).rows, shift: own.atMm ?? [0, 0, 0] };
  const both = composed(motion, placed);
  return { ...own, turnDeg: turnAnglesDeg(both.rows), atMm: triple(both.shift) };
}

/** A port moved with its part. Its measurements no longer hold; the place and tolerance they gave stay, moved along. */
export function movedPort(port: Port, motion: RigidMotion, isTurned: boolean): Port {
  const { measured: _, ...own } = port;
  return {
    ...own,
    atMm: triple(movedPoint(motion, own.atMm)),
    faces: isTurned ? triple(movedDirection(motion, own.faces)) : own.faces,
  };
}

/** A part with all its solids, ports and fasteners moved. */
export function movedPart(part: Part, byMm: Vec, turnDeg?: Vec, aboutMm?: Vec): Part {
  const motion = partMotion(byMm, turnDeg, aboutMm);
  const isTurned = turnDeg?.some((angle) => angle !== 0) ?? false;
  return {
    ...part,
    shapes: part.shapes.map((shape) => movedShape(shape, motion, isTurned)),
    ports: part.ports.map((port) => movedPort(port, motion, isTurned)),
    ...(part.fasteners === undefined
      ? {}
      : {
          fasteners: part.fasteners.map((fastener) => ({
            ...fastener,
            atMm: triple(movedPoint(motion, fastener.atMm)),
            faces: isTurned ? triple(movedDirection(motion, fastener.faces)) : fastener.faces,
          })),
        }),
    ...(part.pulls === undefined || !isTurned
      ? {}
      : { pulls: part.pulls.map((pull) => triple(movedDirection(motion, pull))) }),
  };
}

const triple = (v: Vec): [number, number, number] => [v[0], v[1], v[2]];
