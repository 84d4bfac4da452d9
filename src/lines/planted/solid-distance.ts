/**
 * Signed distance to the shapes of a car file, written out from the primitives' own definitions for the checks of this folder:
 * nothing of it is shared with the planner.
 */
export type Point = readonly [number, number, number];

export interface CarShape {
  readonly box?: { readonly minMm: Point; readonly maxMm: Point } | undefined;
  readonly cylinder?: { readonly fromMm: Point; readonly toMm: Point; readonly radiusMm: number } | undefined;
  readonly tube?: { readonly pointsMm: readonly Point[]; readonly radiusMm: number } | undefined;
  readonly mesh?: { readonly file: string; readonly unit?: string } | undefined;
  readonly turnDeg?: Point | undefined;
  readonly atMm?: Point | undefined;
}

/** Closed surfaces by file: corners and triangles. */
export type Meshes = ReadonlyMap<
  string,
  { readonly positions: ArrayLike<number>; readonly indices: ArrayLike<number> }
>;

/** Signed distance [mm], negative inside. */
export type Distance = (p: Point) => number;

const sub = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Point, b: Point): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Point, b: Point): Point => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const norm = (a: Point): number => Math.hypot(a[0], a[1], a[2]);
const clamp01 = (t: number): number => Math.min(1, Math.max(0, t));

/** The distance of one shape as placed. */
export function shapeDistance(shape: CarShape, meshes: Meshes): Distance {
  const own = unplaced(shape, meshes);
  const { turnDeg, atMm } = shape;
  if (turnDeg === undefined && atMm === undefined) return own;
  const back = turnedBack(turnDeg ?? [0, 0, 0]);
  const at = atMm ?? ([0, 0, 0] as const);
  return (p) => own(back(sub(p, at)));
}

/** The least distance to any of several. */
export function leastDistance(all: readonly Distance[]): Distance {
  return (p) => {
    let least = Number.POSITIVE_INFINITY;
    for (const distance of all) least = Math.min(least, distance(p));
    return least;
  };
}

/** Undoes a turn about X, then Y, then Z: about Z, Y, X the other way. */
function turnedBack(turnDeg: Point): (p: Point) => Point {
  const [sx, sy, sz] = turnDeg.map((deg) => Math.sin((deg * Math.PI) / 180)) as [number, number, number];
  const [cx, cy, cz] = turnDeg.map((deg) => Math.cos((deg * Math.PI) / 180)) as [number, number, number];
  return ([x, y, z]) => {
    const [x1, y1] = [cz * x + sz * y, cz * y - sz * x];
    const [x2, z2] = [cy * x1 - sy * z, cy * z + sy * x1];
    return [x2, cx * y1 + sx * z2, cx * z2 - sx * y1];
  };
}

function unplaced(shape: CarShape, meshes: Meshes): Distance {
  if (shape.box !== undefined) return boxDistance(shape.box.minMm, shape.box.maxMm);
  if (shape.cylinder !== undefined) return cylinderDistance(shape.cylinder);
  if (shape.tube !== undefined) return tubeDistance(shape.tube);
  const mesh = shape.mesh === undefined ? undefined : meshes.get(shape.mesh.file);
  return mesh === undefined ? () => Number.POSITIVE_INFINITY : meshDistance(mesh);
}

function boxDistance(min: Point, max: Point): Distance {
  return (p) => {
    const x = Math.max(min[0] - p[0], p[0] - max[0]);
    const y = Math.max(min[1] - p[1], p[1] - max[1]);
    const z = Math.max(min[2] - p[2], p[2] - max[2]);
    const most = Math.max(x, y, z);
    return most <= 0 ? most : Math.hypot(Math.max(x, 0), Math.max(y, 0), Math.max(z, 0));
  };
}

function cylinderDistance({ fromMm, toMm, radiusMm }: NonNullable<CarShape['cylinder']>): Distance {
  const axis = sub(toMm, fromMm);
  const length = norm(axis);
  return (p) => {
    const from = sub(p, fromMm);
    const along = dot(from, axis) / length;
    const across = norm(cross(from, axis)) / length - radiusMm;
    const beyond = Math.max(-along, along - length);
    return across > 0 || beyond > 0 ? Math.hypot(Math.max(across, 0), Math.max(beyond, 0)) : Math.max(across, beyond);
  };
}

function tubeDistance({ pointsMm, radiusMm }: NonNullable<CarShape['tube']>): Distance {
  return (p) => {
    let least = Number.POSITIVE_INFINITY;
    for (let i = 0; i + 1 < pointsMm.length; i++) least = Math.min(least, toSegment(p, pointsMm[i]!, pointsMm[i + 1]!));
    return least - radiusMm;
  };
}

function toSegment(p: Point, a: Point, b: Point): number {
  const ab = sub(b, a);
  const t = clamp01(dot(sub(p, a), ab) / dot(ab, ab));
  return norm([p[0] - a[0] - ab[0] * t, p[1] - a[1] - ab[1] * t, p[2] - a[2] - ab[2] * t]);
}

/** Every triangle asked in turn; inside where the triangles wind round the place. */
function meshDistance({
  positions,
  indices,
}: {
  readonly positions: ArrayLike<number>;
  readonly indices: ArrayLike<number>;
}): Distance {
  const corner = (i: number): Point => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  const triangles = Array.from(
    { length: indices.length / 3 },
    (_, t) => [0, 1, 2].map((k) => corner(indices[3 * t + k]!)) as [Point, Point, Point],
  );
  const low = [0, 1, 2].map((k) => Math.min(...triangles.flat().map((c) => c[k]!))) as [number, number, number];
  const high = [0, 1, 2].map((k) => Math.max(...triangles.flat().map((c) => c[k]!))) as [number, number, number];
  const bounds = boxDistance(low, high);
  return (p) => {
    let least = Number.POSITIVE_INFINITY;
    for (const [a, b, c] of triangles) least = Math.min(least, toTriangle(p, a, b, c));
    if (bounds(p) > 0) return least;
    const wound = triangles.reduce((sum, [a, b, c]) => sum + solidAngle(sub(a, p), sub(b, p), sub(c, p)), 0);
    return Math.abs(wound) > 2 * Math.PI ? -least : least;
  };
}

/** To the plane where the foot lies inside, else to the nearest edge. */
function toTriangle(p: Point, a: Point, b: Point, c: Point): number {
  const n = cross(sub(b, a), sub(c, a));
  const inside = [
    [a, b],
    [b, c],
    [c, a],
  ].every(([u, v]) => dot(cross(sub(v!, u!), sub(p, u!)), n) >= 0);
  if (inside) return Math.abs(dot(sub(p, a), n)) / norm(n);
  return Math.min(toSegment(p, a, b), toSegment(p, b, c), toSegment(p, c, a));
}

/** Solid angle of a triangle seen from the origin (van Oosterom and Strackee 1983, from memory). */
function solidAngle(a: Point, b: Point, c: Point): number {
  const [la, lb, lc] = [norm(a), norm(b), norm(c)];
  const volume = dot(a, cross(b, c));
  return 2 * Math.atan2(volume, la * lb * lc + dot(a, b) * lc + dot(b, c) * la + dot(c, a) * lb);
}
