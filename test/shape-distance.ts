/** Signed distance to the shapes of a car file, written out for this folder alone: the tests must not lean on what they check. */
type Point = readonly [number, number, number];

export interface CarShape {
  readonly box?: { readonly minMm: Point; readonly maxMm: Point } | undefined;
  readonly cylinder?: { readonly fromMm: Point; readonly toMm: Point; readonly radiusMm: number } | undefined;
  readonly tube?: { readonly pointsMm: readonly Point[]; readonly radiusMm: number } | undefined;
  readonly turnDeg?: Point | undefined;
  readonly atMm?: Point | undefined;
}

const sub = (a: Point, b: Point): Point => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: Point, b: Point) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const norm = (a: Point) => Math.hypot(a[0], a[1], a[2]);

/** Turned back: about Z, then Y, then X, each the other way. */
function turnedBack(p: Point, turnDeg: Point): Point {
  let [x, y, z] = p;
  const [a, b, c] = turnDeg.map((deg) => (-deg * Math.PI) / 180) as [number, number, number];
  [x, y] = [x * Math.cos(c) - y * Math.sin(c), x * Math.sin(c) + y * Math.cos(c)];
  [z, x] = [z * Math.cos(b) - x * Math.sin(b), z * Math.sin(b) + x * Math.cos(b)];
  [y, z] = [y * Math.cos(a) - z * Math.sin(a), y * Math.sin(a) + z * Math.cos(a)];
  return [x, y, z];
}

function toBox(p: Point, box: NonNullable<CarShape['box']>): number {
  const out = [0, 1, 2].map((i) => Math.max(box.minMm[i]! - p[i]!, p[i]! - box.maxMm[i]!));
  const outside = Math.hypot(...out.map((d) => Math.max(d, 0)));
  return outside > 0 ? outside : Math.max(...out);
}

function toCylinder(p: Point, { fromMm, toMm, radiusMm }: NonNullable<CarShape['cylinder']>): number {
  const axis = sub(toMm, fromMm);
  const length = norm(axis);
  const along = dot(sub(p, fromMm), axis) / length;
  const across = Math.sqrt(Math.max(0, norm(sub(p, fromMm)) ** 2 - along ** 2)) - radiusMm;
  const ends = Math.max(-along, along - length);
  return across > 0 || ends > 0 ? Math.hypot(Math.max(across, 0), Math.max(ends, 0)) : Math.max(across, ends);
}

function toTube(p: Point, { pointsMm, radiusMm }: NonNullable<CarShape['tube']>): number {
  const each = pointsMm.slice(1).map((b, i) => {
    const a = pointsMm[i]!;
    const ab = sub(b, a);
    const t = Math.min(1, Math.max(0, dot(sub(p, a), ab) / dot(ab, ab)));
    return norm(sub(p, [a[0] + ab[0] * t, a[1] + ab[1] * t, a[2] + ab[2] * t]));
  });
  return Math.min(...each) - radiusMm;
}

/** Signed distance [mm], negative inside; infinite for a mesh, which is not looked at here. */
export function shapeDistance(p: Point, shape: CarShape): number {
  const q = turnedBack(sub(p, shape.atMm ?? [0, 0, 0]), shape.turnDeg ?? [0, 0, 0]);
  if (shape.box) return toBox(q, shape.box);
  if (shape.cylinder) return toCylinder(q, shape.cylinder);
  return shape.tube ? toTube(q, shape.tube) : Number.POSITIVE_INFINITY;
}
