import type { Point } from './solid-distance.ts';
import { type ReadCar, type ReadEnd, type ReadWay, portAt } from './read-way.ts';

const sub = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const plus = (a: Point, b: Point, t: number): Point => [a[0] + b[0] * t, a[1] + b[1] * t, a[2] + b[2] * t];
const norm = (a: Point): number => Math.hypot(a[0], a[1], a[2]);
const unit = (a: Point): Point => plus([0, 0, 0], a, 1 / norm(a));
const square = (a: Point, to: Point): Point => plus(a, to, -dot(a, to));
const DEG = 180 / Math.PI;

/** Angles read off bodies are right to this [deg]: printed coordinates, short chords. */
const ANGLE_DEG = 1;
const END_TO_END_DEG = 3;
const UPRIGHT_DEG = 30;

/** One end read off its bodies: the axis it screws onto, and where and whither its tail goes. */
interface Drawn {
  readonly seat: Point;
  readonly axis: Point;
  readonly tail: Point;
  readonly out: Point;
  /** Adapters between port and hose end. */
  readonly adapters: readonly (readonly Point[])[];
}

/** What is wrong with the ends: how they stand on their ports, their bends and their clocks. */
export function endFaults(car: ReadCar, way: ReadWay, hose: number): string[] {
  const before = way.bodies.slice(0, hose);
  const after = [...way.bodies.slice(hose + 1)]
    .reverse()
    .map((body) => ({ ...body, pathMm: [...body.pathMm].reverse() }));
  const drawn = [before, after].map((bodies): Drawn => {
    const first = bodies.findIndex((body) => body.part === 'hose-end');
    const screwed = bodies[first]!.pathMm;
    const last = bodies.at(-1)!.pathMm;
    return {
      seat: screwed[0]!,
      axis: unit(sub(screwed[1]!, screwed[0]!)),
      tail: last.at(-1)!,
      out: unit(sub(last.at(-1)!, last.at(-2)!)),
      adapters: bodies.slice(0, first).map((body) => body.pathMm),
    };
  });
  const faults = way.ends.flatMap((end, i) => oneEndFaults(car, end, drawn[i]!, (i === 0 ? before : after)[0]!.pathMm));
  return [...faults, ...betweenFaults(way, hose, drawn)];
}

const angleDeg = (a: Point, b: Point): number => Math.acos(Math.min(1, Math.max(-1, dot(a, b)))) * DEG;

function oneEndFaults(car: ReadCar, end: ReadEnd, drawn: Drawn, first: readonly Point[]): string[] {
  const faults: string[] = [];
  const faces = unit(portAt(car, end.port).faces);
  const leaves = angleDeg(unit(sub(first[1]!, first[0]!)), faces);
  if (leaves > ANGLE_DEG)
    faults.push(`${end.port}: the first body leaves ${leaves.toFixed(1)} degrees off the port's facing`);
  const bent = angleDeg(drawn.axis, drawn.out);
  if (Math.abs(bent - end.angleDeg) > ANGLE_DEG)
    faults.push(`${end.port}: bends ${bent.toFixed(1)} degrees, ${end.angleDeg} stated`);
  if (end.angleDeg === 0 && end.clockDeg !== null) faults.push(`${end.port}: a straight end has a clock`);
  if (end.angleDeg !== 0) {
    const from = isUpright(drawn.axis) ? 'forward' : 'up';
    const clock = clockOf(drawn.axis, sub(drawn.tail, drawn.seat));
    if (end.clockDeg === null) faults.push(`${end.port}: a bent end has no clock`);
    else if (turnDeg(clock, end.clockDeg) > ANGLE_DEG)
      faults.push(`${end.port}: clock ${clock.toFixed(1)} drawn, ${end.clockDeg} stated`);
    if (end.clockFrom !== from) faults.push(`${end.port}: the clock is read from ${from}, "${end.clockFrom}" stated`);
  }
  if (end.adapterClockDeg !== undefined) {
    // Where the last adapter ends and which way it sends the end: off the port's axis by its own clock.
    const clock = clockOf(faces, sub(plus(drawn.seat, drawn.axis, 1), portAt(car, end.port).atMm));
    if (turnDeg(clock, end.adapterClockDeg) > ANGLE_DEG)
      faults.push(`${end.port}: adapter clock ${clock.toFixed(1)} drawn, ${end.adapterClockDeg} stated`);
  }
  return faults;
}

const turnDeg = (a: number, b: number): number => Math.abs(((a - b + 540) % 360) - 180);

const isUpright = (axis: Point): boolean => Math.abs(axis[2]) >= Math.cos(UPRIGHT_DEG / DEG) - 1e-9;

/** atan2(c.r, c.u) with u = up (forward for upright axes) square to the axis and r = u x axis. */
function clockOf(axis: Point, offset: Point): number {
  const u = unit(square(isUpright(axis) ? [-1, 0, 0] : [0, 0, 1], axis));
  const r = cross(u, axis);
  const c = square(offset, axis);
  return (Math.atan2(dot(c, r), dot(c, u)) * DEG + 360) % 360;
}

/** The second end's bend from the first's: the first's carried along the hose without twist. */
function betweenFaults(way: ReadWay, hose: number, [a, b]: readonly Drawn[]): string[] {
  const stated = way.pieces[0]!.endToEndDeg;
  const bent = way.ends.every((end) => end.angleDeg !== 0);
  if (!bent) return stated === null ? [] : ['an angle between ends, one of which is straight'];
  if (stated === null) return ['no angle between two bent ends'];
  const path = way.bodies[hose]!.pathMm;
  let along = a!.out;
  let side = unit(square(sub(a!.seat, a!.tail), along));
  const carryTo = (next: Point): void => {
    // Turned by the least turn that takes one direction to the next: no twist.
    const axis = cross(along, next);
    const sine = norm(axis);
    if (sine > 1e-12) {
      const k = unit(axis);
      const cosine = dot(along, next);
      const turned = plus(plus(plus([0, 0, 0], side, cosine), cross(k, side), sine), k, dot(k, side) * (1 - cosine));
      side = unit(square(turned, next));
    }
    along = next;
  };
  for (let i = 0; i + 1 < path.length; i++)
    if (norm(sub(path[i + 1]!, path[i]!)) > 1e-6) carryTo(unit(sub(path[i + 1]!, path[i]!)));
  carryTo(plus([0, 0, 0], b!.out, -1));
  const other = square(sub(b!.seat, b!.tail), along);
  const angle = (Math.atan2(dot(other, cross(along, side)), dot(other, side)) * DEG + 360) % 360;
  return turnDeg(angle, stated) > END_TO_END_DEG
    ? [`end to end ${angle.toFixed(1)} degrees drawn, ${stated} stated`]
    : [];
}
