/**
 * The six-node triangle of plane stress: displacement quadratic, stress linear; its sides may be bent to lie on a rim.
 * Nodes: corners 0 1 2, then middles of sides 12, 20, 01. Source: plate-theory.
 */
const SIDES = [
  [1, 2],
  [2, 0],
  [0, 1],
] as const;

/** Three places inside at which quadratics are summed exactly, each with a third of the area. */
export const INSIDE = [
  [2 / 3, 1 / 6, 1 / 6],
  [1 / 6, 2 / 3, 1 / 6],
  [1 / 6, 1 / 6, 2 / 3],
] as const;

/** Gradients of the six shapes at area coordinates into `grad` (x then y), and the doubled area there [mm2]. */
export function stretchGradients(
  x: readonly number[],
  y: readonly number[],
  l: readonly number[],
  grad: Float64Array,
): number {
  const [dr, ds] = [new Float64Array(6), new Float64Array(6)];
  const [lr, ls] = [
    [-1, 1, 0],
    [-1, 0, 1],
  ] as const;
  for (let i = 0; i < 3; i++) {
    dr[i] = (4 * l[i]! - 1) * lr[i]!;
    ds[i] = (4 * l[i]! - 1) * ls[i]!;
    const [a, b] = SIDES[i]!;
    dr[3 + i] = 4 * (l[a]! * lr[b]! + l[b]! * lr[a]!);
    ds[3 + i] = 4 * (l[a]! * ls[b]! + l[b]! * ls[a]!);
  }
  let [xr, xs, yr, ys] = [0, 0, 0, 0];
  for (let i = 0; i < 6; i++) {
    xr += dr[i]! * x[i]!;
    xs += ds[i]! * x[i]!;
    yr += dr[i]! * y[i]!;
    ys += ds[i]! * y[i]!;
  }
  const det = xr * ys - xs * yr;
  for (let i = 0; i < 6; i++) {
    grad[i] = (ys * dr[i]! - yr * ds[i]!) / det;
    grad[6 + i] = (xr * ds[i]! - xs * dr[i]!) / det;
  }
  return det;
}

/** Stiffness of the triangle, twelve by twelve (u, v of each node in turn), for a sheet of thickness t. */
export function stretchStiffness(
  x: readonly number[],
  y: readonly number[],
  stiffnessMpa: number,
  poisson: number,
  t: number,
  into: Float64Array,
): void {
  into.fill(0);
  const grad = new Float64Array(12);
  const plane = stiffnessMpa / (1 - poisson ** 2);
  const shear = stiffnessMpa / (2 * (1 + poisson));
  for (const l of INSIDE) {
    const by = (stretchGradients(x, y, l, grad) * t) / 6;
    for (let i = 0; i < 6; i++)
      for (let j = 0; j < 6; j++) {
        const [ix, iy, jx, jy] = [grad[i]!, grad[6 + i]!, grad[j]!, grad[6 + j]!];
        into[24 * i + 2 * j]! += by * (plane * ix * jx + shear * iy * jy);
        into[24 * i + 2 * j + 1]! += by * (plane * poisson * ix * jy + shear * iy * jx);
        into[24 * i + 12 + 2 * j]! += by * (plane * poisson * iy * jx + shear * ix * jy);
        into[24 * i + 12 + 2 * j + 1]! += by * (plane * iy * jy + shear * ix * jx);
      }
  }
}

/** Stress sx, sy, sxy at area coordinates, from the displacements of the six nodes. */
export function stretchStress(
  x: readonly number[],
  y: readonly number[],
  u: readonly number[],
  v: readonly number[],
  l: readonly number[],
  stiffnessMpa: number,
  poisson: number,
): [number, number, number] {
  const grad = new Float64Array(12);
  stretchGradients(x, y, l, grad);
  let [ex, ey, exy] = [0, 0, 0];
  for (let i = 0; i < 6; i++) {
    ex += grad[i]! * u[i]!;
    ey += grad[6 + i]! * v[i]!;
    exy += grad[6 + i]! * u[i]! + grad[i]! * v[i]!;
  }
  const plane = stiffnessMpa / (1 - poisson ** 2);
  return [plane * (ex + poisson * ey), plane * (ey + poisson * ex), (stiffnessMpa / (2 * (1 + poisson))) * exy];
}
