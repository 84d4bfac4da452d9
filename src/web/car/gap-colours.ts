import type { Car, Part, Shape } from '#car';
import type { Vec } from '#geometry';
import type { Way } from '#lines';
import { type Matrix4, Vector3 } from 'three';
import type { Colours } from './colours.ts';
import { shapePlacing } from './shape-geometry.ts';

/** Around a port a line leaves its own part: no colour there [mm]. */
const NEAR_MM = 60;

interface Limit {
  readonly shapes: readonly { readonly shape: Shape; readonly inShape: Matrix4 }[];
  readonly keepOffMm: number;
  /** What may be lost at worst [mm]. */
  readonly spreadMm: number;
  readonly isOwn: boolean;
}

/**
 * How much room each stretch of a line has: red where a limit is broken as drawn, brass where it is broken at worst, blue elsewhere. The
 * numbers on the card are the proved ones; this tells where along the line they are. Scans are left to the numbers.
 */
export function gapColours(
  car: Car,
  way: Way,
  colours: Colours,
): (pointMm: Vec, radiusMm: number) => readonly [number, number, number] {
  const limits = way.gaps.flatMap((gap) => {
    const part = car.parts.find((candidate) => candidate.id === gap.part);
    if (part === undefined) return [];
    const { gapMm, worstMm, keepOffMm } = gap.beyond ?? gap;
    const isOwn = way.ends.some((end) => end.port.startsWith(`${part.id}.`));
    return [{ shapes: placedShapes(part), keepOffMm, spreadMm: gapMm - worstMm, isOwn }];
  });
  const ends = [way.bodies[0]?.pathMm[0], way.bodies.at(-1)?.pathMm.at(-1)];
  const [stop, fix, clear] = [colours.red, colours.brass, colours.blue.clone().lerp(colours.card, 0.35)].map(
    (c) => [c.r, c.g, c.b] as const,
  );
  return (pointMm, radiusMm) => {
    const isNear = ends.some(
      (end) => end !== undefined && Math.hypot(end[0] - pointMm[0], end[1] - pointMm[1], end[2] - pointMm[2]) < NEAR_MM,
    );
    let level = 0;
    for (const limit of limits) {
      if (limit.isOwn && isNear) continue;
      const gap = distance(limit, pointMm) - radiusMm;
      if (gap < limit.keepOffMm) return stop!;
      if (gap - limit.spreadMm < limit.keepOffMm) level = 1;
    }
    return level === 1 ? fix! : clear!;
  };
}

function placedShapes(part: Part): Limit['shapes'] {
  return part.shapes
    .filter((shape) => shape.mesh === undefined)
    .map((shape) => ({ shape, inShape: shapePlacing(shape).invert() }));
}

const at = new Vector3();

/** From a point to the nearest solid of a part; negative inside [mm]. */
function distance({ shapes }: Limit, pointMm: Vec): number {
  let least = Infinity;
  for (const { shape, inShape } of shapes)
    least = Math.min(least, shapeDistance(shape, at.set(...pointMm).applyMatrix4(inShape)));
  return least;
}

/** Exact for capsules; for boxes and cylinders exact outside, and inside the depth to the nearest face. */
function shapeDistance(shape: Shape, p: Vector3): number {
  if (shape.box !== undefined) {
    const { minMm, maxMm } = shape.box;
    const over = [p.x, p.y, p.z].map((mm, i) => Math.max(minMm[i]! - mm, mm - maxMm[i]!));
    return joined(over);
  }
  if (shape.cylinder !== undefined) {
    const { fromMm, toMm, radiusMm } = shape.cylinder;
    const a = new Vector3(...fromMm);
    const axis = new Vector3(...toMm).sub(a);
    const long = axis.length();
    const away = p.clone().sub(a);
    const along = away.dot(axis) / long;
    const aside = Math.sqrt(Math.max(0, away.lengthSq() - along * along));
    return joined([Math.max(-along, along - long), aside - radiusMm]);
  }
  if (shape.tube !== undefined) {
    const { pointsMm, radiusMm } = shape.tube;
    return Math.min(...pointsMm.map((point, i) => toSegment(p, pointsMm[i - 1] ?? point, point))) - radiusMm;
  }
  return Infinity;
}

/** Distances beyond faces that are square to each other, as one. */
function joined(over: readonly number[]): number {
  const outside = Math.hypot(...over.map((mm) => Math.max(0, mm)));
  return outside > 0 ? outside : Math.max(...over);
}

function toSegment(p: Vector3, a: readonly number[], b: readonly number[]): number {
  const from = new Vector3(a[0], a[1], a[2]);
  const step = new Vector3(b[0], b[1], b[2]).sub(from);
  const square = step.lengthSq();
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, p.clone().sub(from).dot(step) / square));
  return p.distanceTo(from.addScaledVector(step, share));
}
