import { rodShape } from '#geometry';
import type { ReadCar, ReadPart, ReadWay } from './read-way.ts';
import { type Meshes, type Point, leastDistance, shapeDistance } from './solid-distance.ts';

/** What the checks at extremes read beside that. */
export interface MovedCar extends ReadCar {
  readonly parts: readonly (ReadPart & { readonly movesWith?: string | undefined })[];
  readonly movers: readonly {
    readonly id: string;
    readonly pivotMm: Point;
    /** Along X only. */
    readonly axis: Point;
    readonly turnDeg: readonly [number, number];
  }[];
}

export interface ClampedWay extends ReadWay {
  readonly clamps: readonly { readonly alongMm: number; readonly atMm: Point; readonly on: string }[];
  readonly notes: readonly { readonly code: string }[];
}

/** Hose between the last support and the engine beyond the straight line, 1 1/2 in (Navy 14105) [mm]. */
const SLACK_MM = 38;
/** Rounding of what is printed [mm]. */
const GRACE_MM = 0.5;
const RADIUS_SHARE = 0.97;
/** Beside a port keep-offs are relaxed: there only touching counts [mm]. */
const BESIDE_MM = 160;
const STEP_MM = 6;

type Move = (p: Point) => Point;
const same: Move = (p) => p;
const sub = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const far = (a: Point, b: Point): number => Math.hypot(...sub(a, b));

/**
 * What is wrong with a way of one hose at the extremes of what its ends stand on, from what is written alone: the hose's length
 * and clamps are read off the way, what each clamp goes with off the car file, and the shape is worked out anew as one rod
 * through all its clamps.
 */
export function extremeFaults(car: MovedCar, meshes: Meshes, way: ClampedWay): string[] {
  const hose = way.bodies.findIndex((body) => body.part === 'hose');
  const { pathMm, odMm } = way.bodies[hose]!;
  const moverOf = (id: string): string | undefined => car.parts.find((part) => part.id === id)?.movesWith;
  const [moverA, moverB] = way.ends.map((end) => moverOf(end.port.split('.')[0]!));
  const along = running(pathMm);
  const ends: Held[] = [
    { at: pathMm[0]!, s: 0, mover: moverA, k: 0 },
    { at: pathMm.at(-1)!, s: along.at(-1)!, mover: moverB, k: pathMm.length - 1 },
  ];
  const clamps = way.clamps.map(({ atMm, on }): Held => {
    const k = nearest(pathMm, atMm);
    return { at: atMm, s: along[k]!, mover: moverOf(on), k };
  });
  const held = [ends[0]!, ...clamps.sort((p, q) => p.s - q.s), ends[1]!];
  const faults = clamps.flatMap((c) => (far(pathMm[c.k]!, c.at) > 2 ? ['a clamp stands off the hose'] : []));
  for (const mover of car.movers)
    for (const deg of mover.turnDeg) {
      const motion = (id: string | undefined): Move => (id === mover.id ? aboutX(mover.pivotMm, deg) : same);
      faults.push(...slackFaults(held, motion, deg));
      const shape = shapeAt(held, pathMm, motion);
      if (shape === null) faults.push(`does not reach at ${deg} deg`);
      else {
        const radius = tightest(shape.points);
        const allowed = way.pieces[0]!.minBendRadiusMm;
        if (radius < RADIUS_SHARE * allowed) faults.push(`bends to ${radius.toFixed(1)} mm at ${deg} deg`);
        const ports = [held[0]!, held.at(-1)!].map((h) => motion(h.mover)(h.at));
        const back = (id: string | undefined): Move => (id === mover.id ? aboutX(mover.pivotMm, -deg) : same);
        for (const part of car.parts)
          faults.push(...gapFaults(car, meshes, part, shape.points, odMm / 2, ports, back(part.movesWith), deg));
      }
    }
  return faults;
}

interface Held {
  readonly at: Point;
  readonly s: number;
  readonly mover: string | undefined;
  readonly k: number;
}

/** Between two holds that go with different things, one of them a clamp. */
function slackFaults(held: readonly Held[], motion: (id: string | undefined) => Move, deg: number): string[] {
  return held.slice(1).flatMap((b, i) => {
    const a = held[i]!;
    if (a.mover === b.mover || held.length === 2) return [];
    const slack = b.s - a.s - far(motion(a.mover)(a.at), motion(b.mover)(b.at));
    return slack < SLACK_MM - GRACE_MM ? [`${slack.toFixed(1)} mm of slack at ${deg} deg`] : [];
  });
}

function shapeAt(held: readonly Held[], path: readonly Point[], motion: (id: string | undefined) => Move) {
  const moved = held.map(({ at, mover, k, s }) => {
    const go = motion(mover);
    const [p, q] = [path[Math.max(0, k - 1)]!, path[Math.min(path.length - 1, k + 1)]!];
    const d = sub(go(q), go(p));
    const n = Math.hypot(...d);
    return { point: go(at), direction: [d[0] / n, d[1] / n, d[2] / n] as const, alongMm: s };
  });
  const shape = rodShape({
    a: moved[0]!,
    b: moved.at(-1)!,
    clamps: moved.slice(1, -1),
    lengthMm: held.at(-1)!.s * (1 + 1e-6),
    start: path.flat(),
    stepMm: STEP_MM,
  });
  return shape.converged ? { points: pointsOf(shape.points) } : null;
}

function gapFaults(
  car: MovedCar,
  meshes: Meshes,
  part: ReadPart,
  points: readonly Point[],
  radiusMm: number,
  ports: readonly Point[],
  back: Move,
  deg: number,
): string[] {
  if (part.shapes.length === 0) return [];
  const distance = leastDistance(part.shapes.map((shape) => shapeDistance(shape, meshes)));
  const rule = part.keepOffMm ?? car.keepOffMm?.[part.class] ?? { hot: 100, moving: 25, fixed: 6 }[part.class];
  let [least, atKeepOff] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (const p of points) {
    const gap = distance(back(p)) - radiusMm;
    least = Math.min(least, gap);
    if (ports.every((port) => far(port, p) > BESIDE_MM)) atKeepOff = Math.min(atKeepOff, gap);
  }
  if (least < -GRACE_MM) return [`${part.id} is touched at ${deg} deg`];
  return atKeepOff < rule - 2 * GRACE_MM ? [`${part.id} is ${atKeepOff.toFixed(1)} mm off at ${deg} deg`] : [];
}

/** About a line along X: y and z turn, right-handed. */
function aboutX(pivot: Point, deg: number): Move {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return ([x, y, z]) => {
    const [u, v] = [y - pivot[1], z - pivot[2]];
    return [x, pivot[1] + c * u - s * v, pivot[2] + s * u + c * v];
  };
}

function running(path: readonly Point[]): number[] {
  const along = [0];
  for (let i = 1; i < path.length; i++) along.push(along[i - 1]! + far(path[i]!, path[i - 1]!));
  return along;
}

const nearest = (path: readonly Point[], at: Point): number =>
  path.reduce((best, p, i) => (far(p, at) < far(path[best]!, at) ? i : best), 0);

const pointsOf = (flat: Float64Array): Point[] =>
  Array.from({ length: flat.length / 3 }, (_, i) => [flat[3 * i]!, flat[3 * i + 1]!, flat[3 * i + 2]!] as const);

/** Least radius of the circle through every other three points. */
function tightest(points: readonly Point[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 4 < points.length; i++) {
    const [a, b, c] = [points[i]!, points[i + 2]!, points[i + 4]!];
    const [p, q, r] = [far(a, b), far(b, c), far(a, c)];
    const half = (p + q + r) / 2;
    const area = Math.sqrt(Math.max(0, half * (half - p) * (half - q) * (half - r)));
    if (area > 1e-9) least = Math.min(least, (p * q * r) / (4 * area));
  }
  return least;
}
