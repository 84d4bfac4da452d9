import { type Outline, outlinePoints, type Point2 } from '#geometry';

/** A flat shape with openings as a grid of signed distances [mm], negative inside: quick to ask, exact away from corners. */
export interface FlatShape {
  readonly at: (x: number, y: number) => number;
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

const STEP_MM = 1;
const MARGIN_MM = 12;
const BLOCK = 8;

/** Distance to a closed chain of points, and whether the place is inside it by the number of crossings. */
function toRing(ring: readonly Point2[], x: number, y: number): { near: number; inside: boolean } {
  let near = Number.POSITIVE_INFINITY;
  let inside = false;
  for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
    const [ax, ay] = ring[j]!;
    const [bx, by] = ring[i]!;
    const [ex, ey] = [bx - ax, by - ay];
    const along = Math.min(1, Math.max(0, ((x - ax) * ex + (y - ay) * ey) / (ex * ex + ey * ey || 1)));
    near = Math.min(near, Math.hypot(x - ax - along * ex, y - ay - along * ey));
    if (ay > y !== by > y && x < ax + ((y - ay) / (by - ay)) * ex) inside = !inside;
  }
  return { near, inside };
}

export function flatShape(outline: Outline, openings: readonly Outline[]): FlatShape {
  const rings = [outline, ...openings].map((one) => outlinePoints(one, 0.05));
  const xs = rings[0]!.map((p) => p[0]);
  const ys = rings[0]!.map((p) => p[1]);
  const [minX, maxX] = [Math.min(...xs) - MARGIN_MM, Math.max(...xs) + MARGIN_MM];
  const [minY, maxY] = [Math.min(...ys) - MARGIN_MM, Math.max(...ys) + MARGIN_MM];
  const [nx, ny] = [Math.ceil((maxX - minX) / STEP_MM) + 2, Math.ceil((maxY - minY) / STEP_MM) + 2];
  const grid = new Float32Array(nx * ny);
  const signed = (i: number, j: number): number => {
    const found = rings.map((ring) => toRing(ring, minX + i * STEP_MM, minY + j * STEP_MM));
    const inside = found[0]!.inside && !found.slice(1).some((one) => one.inside);
    return (inside ? -1 : 1) * Math.min(...found.map((one) => one.near));
  };
  // block by block: far from every edge the distance at the block's middle is near enough
  for (let j = 0; j < ny; j += BLOCK)
    for (let i = 0; i < nx; i += BLOCK) {
      const middle = signed(i + BLOCK / 2, j + BLOCK / 2);
      const isFar = Math.abs(middle) > BLOCK * STEP_MM + 2;
      for (let v = j; v < Math.min(ny, j + BLOCK); v++)
        for (let u = i; u < Math.min(nx, i + BLOCK); u++) grid[v * nx + u] = isFar ? middle : signed(u, v);
    }
  const at = (x: number, y: number): number => {
    const gx = (x - minX) / STEP_MM;
    const gy = (y - minY) / STEP_MM;
    if (!(gx >= 0 && gy >= 0 && gx < nx - 1 && gy < ny - 1)) return MARGIN_MM;
    const i = Math.floor(gx);
    const j = Math.floor(gy);
    const [u, v] = [gx - i, gy - j];
    const k = j * nx + i;
    return (1 - v) * ((1 - u) * grid[k]! + u * grid[k + 1]!) + v * ((1 - u) * grid[k + nx]! + u * grid[k + nx + 1]!);
  };
  return { at, minX, minY, maxX, maxY };
}
