import {
  add,
  addScaled,
  cross,
  meshSolid,
  norm,
  perpendicular,
  scale,
  type Solid,
  sub,
  triangleMesh,
  type Vec,
} from '#geometry';
import { flatPiece, type HeatSurface, type Patch, patchOf } from '../exchange/patch.ts';

/** A flat plate in space: its middle, two unit vectors along its sides, and how long those are. */
export interface Plate {
  readonly middleMm: Vec;
  readonly along: Vec;
  readonly across: Vec;
  readonly longMm: number;
  readonly wideMm: number;
}

/** The way its front looks. */
export const plateFront = ({ along, across }: Plate): Vec => cross(along, across);

function corners({ middleMm, along, across, longMm, wideMm }: Plate): readonly [Vec, Vec, Vec, Vec] {
  const [u, v] = [scale(along, longMm / 2), scale(across, wideMm / 2)];
  return [sub(sub(middleMm, u), v), sub(add(middleMm, u), v), add(add(middleMm, u), v), add(sub(middleMm, u), v)];
}

/** A plate as radiation sees it: a sheet without thickness, with a finish on each face. */
export function plateSurface(id: string, plate: Plate, front: number, back: number): HeatSurface {
  const mesh = triangleMesh(Float64Array.from(corners(plate).flat()), Uint32Array.from([0, 1, 2, 0, 2, 3]));
  return { id, kind: 'part', solids: [meshSolid(mesh)], emissivity: front, backEmissivity: back };
}

/** Its two faces as patches, front first. */
export function platePatches(surface: number, plate: Plate, front: number, back: number): readonly [Patch, Patch] {
  const [a, b, , d] = corners(plate);
  return [
    patchOf(surface, front, [flatPiece(a, sub(b, a), sub(d, a))]),
    patchOf(surface, back, [flatPiece(a, sub(d, a), sub(b, a))]),
  ];
}

/** Finer than this two plates clear alike [mm]. */
const CLEAR_TO_MM = 0.5;

/** Whether every point of the plate keeps at least `mm` off the solid (told to half a millimetre, on the careful side). */
export function isClear(plate: Plate, solid: Solid, mm: number): boolean {
  const check = (middle: Vec, long: number, wide: number): boolean => {
    const reach = Math.hypot(long, wide) / 2;
    const off = solid.distanceWithin(...middle, mm + reach);
    if (off >= mm + reach) return true;
    if (off < mm || reach < CLEAR_TO_MM) return false;
    const isLong = long >= wide;
    const [axis, by] = isLong ? [plate.along, long / 4] : [plate.across, wide / 4];
    const [l, w] = isLong ? [long / 2, wide] : [long, wide / 2];
    return check(addScaled(middle, axis, by), l, w) && check(addScaled(middle, axis, -by), l, w);
  };
  return check(plate.middleMm, plate.longMm, plate.wideMm);
}

/** A plate as a box of the car file: about its own middle, turned about car X, then Y, then Z, then moved. */
export interface PlateShape {
  readonly minMm: Vec;
  readonly maxMm: Vec;
  readonly turnDeg: Vec;
  readonly atMm: Vec;
}

export function plateShape(plate: Plate, thicknessMm: number): PlateShape {
  const { along: x, across: y, longMm, wideMm } = plate;
  const z = cross(x, y);
  const half: Vec = [longMm / 2, wideMm / 2, thicknessMm / 2];
  const deg = (rad: number): number => (rad * 180) / Math.PI;
  // Columns x, y, z of Rz Ry Rx, read back to its three angles.
  const isUpright = Math.abs(x[2]) > 1 - 1e-12;
  const turnDeg: Vec = isUpright
    ? [deg(Math.atan2(-x[2] * y[0], y[1])), deg(Math.asin(Math.max(-1, Math.min(1, -x[2])))), 0]
    : [deg(Math.atan2(y[2], z[2])), deg(Math.asin(-x[2])), deg(Math.atan2(x[1], x[0]))];
  return { minMm: scale(half, -1), maxMm: half, turnDeg, atMm: plate.middleMm };
}

/** A plate square to a direction, its long side as near as can be along another. */
export function plateFacing(middleMm: Vec, front: Vec, along: Vec, longMm: number, wideMm: number): Plate {
  const square = addScaled(along, front, -(along[0] * front[0] + along[1] * front[1] + along[2] * front[2]));
  const long = norm(square);
  const x = long > 1e-6 ? scale(square, 1 / long) : perpendicular(front);
  return { middleMm, along: x, across: cross(front, x), longMm, wideMm };
}
