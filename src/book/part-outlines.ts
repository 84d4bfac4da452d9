import type { Part, Shape as PartShape } from '#car';
import {
  add,
  cross,
  movedPoint,
  norm,
  perpendicular,
  type RigidMotion,
  rotationFromDeg,
  scale,
  sub,
  type TriangleMesh,
  unit,
  type Vec,
} from '#geometry';
import type { Spot } from './drawing.ts';
import { hull } from './hull.ts';

/** Corners of a circle that is drawn as a polygon. */
const ROUND = 24;

/** A point of the car as it is seen. */
export type Seen = (point: Vec) => Spot;

/** Outlines of a part's shapes as they are seen: exact for boxes, cylinders and tubes, the convex outline for meshes. */
export function partOutlines(part: Part, meshes: ReadonlyMap<string, TriangleMesh>, seen: Seen): Spot[][] {
  return part.shapes
    .flatMap((shape) => shapePoints(shape, meshes))
    .flatMap((points) => {
      const outline = hull(points.map(seen));
      return outline.length > 2 ? [outline] : [];
    });
}

/** Points whose convex outline is the outline of a convex piece of a shape. */
function shapePoints(shape: PartShape, meshes: ReadonlyMap<string, TriangleMesh>): Vec[][] {
  const outer = placing(shape.turnDeg, shape.atMm);
  return piecesOf(shape, meshes).map((points) => points.map((point) => movedPoint(outer, point)));
}

function piecesOf(shape: PartShape, meshes: ReadonlyMap<string, TriangleMesh>): Vec[][] {
  if (shape.box !== undefined) return [corners(shape.box.minMm, shape.box.maxMm)];
  if (shape.cylinder !== undefined) {
    const { fromMm, toMm, radiusMm } = shape.cylinder;
    const axis = sub(toMm, fromMm);
    return [[...rim(fromMm, axis, radiusMm), ...rim(toMm, axis, radiusMm)]];
  }
  if (shape.tube !== undefined) {
    const { pointsMm, radiusMm } = shape.tube;
    if (pointsMm.length === 1) return [ball(pointsMm[0]!, radiusMm)];
    return pointsMm.slice(1).map((to, i) => [...ball(pointsMm[i]!, radiusMm), ...ball(to, radiusMm)]);
  }
  const mesh = shape.mesh === undefined ? undefined : meshes.get(shape.mesh.file);
  if (shape.mesh === undefined || mesh === undefined) return [];
  const inner = placing(shape.mesh.turnDeg, shape.mesh.atMm);
  return [meshPoints(mesh).map((point) => movedPoint(inner, point))];
}

/** Turned about car X, then Y, then Z, then moved. */
function placing(turnDeg: Vec | undefined, atMm: Vec | undefined): RigidMotion {
  return { rows: rotationFromDeg(turnDeg ?? [0, 0, 0]).rows, shift: atMm ?? [0, 0, 0] };
}

const corners = (min: Vec, max: Vec): Vec[] =>
  [0, 1, 2, 3, 4, 5, 6, 7].map((i) => [
    (i & 1) === 0 ? min[0] : max[0],
    (i & 2) === 0 ? min[1] : max[1],
    (i & 4) === 0 ? min[2] : max[2],
  ]);

function rim(centre: Vec, axis: Vec, radiusMm: number): Vec[] {
  if (norm(axis) === 0) return [];
  const along = unit(axis);
  const side = perpendicular(along);
  const other = cross(along, side);
  return Array.from({ length: ROUND }, (_, i) => {
    const rad = (i * 2 * Math.PI) / ROUND;
    return add(centre, add(scale(side, radiusMm * Math.cos(rad)), scale(other, radiusMm * Math.sin(rad))));
  });
}

/** Rims of a ball square to each axis: its outline in every square view. */
const ball = (centre: Vec, radiusMm: number): Vec[] =>
  (
    [
      [1, 0, 0],
      [0, 1, 0],
      [0, 0, 1],
    ] as const
  ).flatMap((axis) => rim(centre, axis, radiusMm));

function meshPoints(mesh: TriangleMesh): Vec[] {
  const points: Vec[] = [];
  const used = new Set<number>(mesh.indices);
  for (const i of used) points.push([mesh.positions[3 * i]!, mesh.positions[3 * i + 1]!, mesh.positions[3 * i + 2]!]);
  return points;
}
