import type { Car, Part, Shape } from '#car';
import type { Vec } from '#geometry';
import type { Way } from '#lines';
import { type Matrix4, Vector3 } from 'three';
import type { Colours } from './colours.ts';
import type { ColourAt } from './swept.ts';
import { shapePlacing } from './shape-geometry.ts';

/** Around a port a line leaves its own part: no colour there [mm]. */
const NEAR_MM = 60;

interface Limit {
  readonly shapes: readonly { readonly shape: Shape; readonly inShape: Matrix4 }[];
  readonly keepOffMm: number;
  /** What may be lost at worst [mm]. */
  readonly spreadMm: number;
  /** The limit near a port. */
  readonly nearKeepOffMm: number;
  readonly isOwn: boolean;
}

/**
 * How much room each stretch of a line has: red where a limit is broken as drawn, brass where it is broken at worst, blue elsewhere. The
 * numbers on the card are the proved ones; this tells where along the line they are. Scans are left to the numbers.
 */
export function gapColours(car: Car, way: Way, colours: Colours): ColourAt {
  const limits = way.gaps.flatMap((gap): readonly Limit[] => {
    const part = car.parts.find((candidate) => candidate.id === gap.part);
    if (part === undefined) return [];
    const { gapMm, worstMm, keepOffMm } = gap.beyond ?? gap;
    return [
      {
        shapes: placedShapes(part),
        keepOffMm,
        spreadMm: gapMm - worstMm,
        nearKeepOffMm: gap.near ? gap.keepOffMm : keepOffMm,
        isOwn: way.ends.some((end) => end.port.startsWith(`${part.id}.`)),
      },
    ];
  });
  const isNear = nearPorts(way);
  const [stop, fix, clear] = [colours.red, colours.brass, colours.blue.clone().lerp(colours.card, 0.35)].map(
    (c) => [c.r, c.g, c.b] as const,
  );
  return (pointMm, radiusMm, body) => {
    const near = isNear(pointMm, body);
    let level = 0;
    for (const limit of limits) {
      if (limit.isOwn && near) continue;
      const gap = distance(limit, pointMm) - radiusMm;
      const wants = near ? limit.nearKeepOffMm : limit.keepOffMm;
      if (gap < wants - DRAWN_MM) return stop!;
      if (gap - limit.spreadMm < wants) level = 1;
    }
    return level === 1 ? fix! : clear!;
  };
}

/** What is nearest to a line at one of its points, nearest beyond its limit first; scans are left out. */
export function gapsAt(
  car: Car,
  way: Way,
  pointMm: Vec,
): readonly { readonly part: string; readonly gapMm: number; readonly keepOffMm: number }[] {
  const body = way.bodies.find((one) =>
    one.pathMm.some((p) => Math.hypot(p[0] - pointMm[0], p[1] - pointMm[1], p[2] - pointMm[2]) < BODY_STEP_MM),
  );
  return way.gaps
    .flatMap((gap) => {
      const part = car.parts.find((candidate) => candidate.id === gap.part);
      if (part === undefined) return [];
      const gapMm = distance({ shapes: placedShapes(part) }, pointMm) - (body?.odMm ?? 0) / 2;
      return Number.isFinite(gapMm) ? [{ part: part.id, gapMm, keepOffMm: (gap.beyond ?? gap).keepOffMm }] : [];
    })
    .sort((a, b) => a.gapMm - a.keepOffMm - (b.gapMm - b.keepOffMm));
}

/** Points of a body stand at most 3 mm apart [mm]. */
const BODY_STEP_MM = 3;

/** A disc of the drawn line is its middle; its rim may be this much off where the line leans [mm]. */
const DRAWN_MM = 0.5;

/** Adapter, hose end and at least the first 60 mm at either port: other limits hold there. */
function nearPorts(way: Way): (pointMm: Vec, body: number) => boolean {
  const isRun = (part: string): boolean => part === 'hose' || part === 'tube';
  const first = way.bodies.findIndex((body) => isRun(body.part));
  const last = way.bodies.findLastIndex((body) => isRun(body.part));
  const ends = [way.bodies[0]?.pathMm[0], way.bodies.at(-1)?.pathMm.at(-1)];
  return (p, body) =>
    body < first ||
    body > last ||
    ends.some((end) => end !== undefined && Math.hypot(end[0] - p[0], end[1] - p[1], end[2] - p[2]) < NEAR_MM);
}

function placedShapes(part: Part): Limit['shapes'] {
  return part.shapes
    .filter((shape) => shape.mesh === undefined)
    .map((shape) => ({ shape, inShape: shapePlacing(shape).invert() }));
}

const at = new Vector3();

/** From a point to the nearest solid of a part; negative inside [mm]. */
function distance({ shapes }: Pick<Limit, 'shapes'>, pointMm: Vec): number {
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
