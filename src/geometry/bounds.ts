import type { Vec } from './vec.ts';

/** An axis-aligned box that something fits in [mm]. */
export interface Bounds {
  readonly min: Vec;
  readonly max: Vec;
}

/** The smallest bounds round both. */
export function joined(a: Bounds, b: Bounds): Bounds {
  return {
    min: [Math.min(a.min[0], b.min[0]), Math.min(a.min[1], b.min[1]), Math.min(a.min[2], b.min[2])],
    max: [Math.max(a.max[0], b.max[0]), Math.max(a.max[1], b.max[1]), Math.max(a.max[2], b.max[2])],
  };
}

/** The bounds grown by `byMm` on every side. */
export function grown(a: Bounds, byMm: number): Bounds {
  return {
    min: [a.min[0] - byMm, a.min[1] - byMm, a.min[2] - byMm],
    max: [a.max[0] + byMm, a.max[1] + byMm, a.max[2] + byMm],
  };
}

/** Distance from a point to the bounds, 0 inside [mm]. */
export function distanceToBounds(b: Bounds, x: number, y: number, z: number): number {
  const dx = Math.max(b.min[0] - x, 0, x - b.max[0]);
  const dy = Math.max(b.min[1] - y, 0, y - b.max[1]);
  const dz = Math.max(b.min[2] - z, 0, z - b.max[2]);
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
}
