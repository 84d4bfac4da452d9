import { type Solid, type Vec, add, cross, perpendicular, scale, sub, unit } from '#geometry';

/** The flat of a panel: a place on its mid-plane, its normal, its two directions and half sizes. */
export interface PanelFlat {
  readonly centre: Vec;
  readonly normal: Vec;
  readonly u: Vec;
  readonly v: Vec;
  readonly halfU: number;
  readonly halfV: number;
  readonly halfThickness: number;
}

/** The flat of a thin solid: its thinnest direction by its surface, found from its bounds (boxes along the axes) or by feel. */
export function panelFlat(solid: Solid): PanelFlat {
  const { min, max } = solid.bounds;
  const centre = scale(add(min, max), 0.5);
  const half = scale(sub(max, min), 0.5);
  const axes: Vec[] = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const order = [0, 1, 2].sort((p, q) => half[p]! - half[q]!);
  const [thin, middle, long] = order as [number, number, number];
  if (half[thin]! < THIN_SHARE * half[middle]!)
    return {
      centre,
      normal: axes[thin]!,
      u: axes[middle]!,
      v: axes[long]!,
      halfU: half[middle]!,
      halfV: half[long]!,
      halfThickness: half[thin]!,
    };
  // A turned panel: the way off its surface at the centre is its normal.
  const { point } = solid.closest(centre[0] + FEEL_MM * 0.31, centre[1] + FEEL_MM * 0.57, centre[2] + FEEL_MM * 0.76);
  const off = sub([centre[0] + FEEL_MM * 0.31, centre[1] + FEEL_MM * 0.57, centre[2] + FEEL_MM * 0.76], point);
  const normal = unit(off);
  const u = perpendicular(normal);
  const v = cross(normal, u);
  const reach = (d: Vec) => Math.abs(d[0]) * half[0] + Math.abs(d[1]) * half[1] + Math.abs(d[2]) * half[2];
  const thickness = Math.max(0, -2 * solid.distance(...centre));
  return { centre, normal, u, v, halfU: reach(u), halfV: reach(v), halfThickness: thickness / 2 };
}

const THIN_SHARE = 0.2;
const FEEL_MM = 40;
