/**
 * The bending triangle with Kirchhoff's condition held at its corners and middles of sides (DKT): unknowns at each corner are the
 * deflection w and its two slopes; the slopes inside are quadratic. Source: dkt-1980.
 */
const NINE = 9;

/** The triangle's shape: doubled area, and the gradients of its area coordinates [1/mm]. */
export interface TriangleShape {
  readonly twice: number;
  readonly lx: readonly [number, number, number];
  readonly ly: readonly [number, number, number];
  /** Slopes wx, wy at the six nodes (corners, then middles of sides 12, 20, 01) by the nine unknowns: twelve rows of nine. */
  readonly slopes: Float64Array;
}

/** Sides opposite to each corner. */
const SIDES = [
  [1, 2],
  [2, 0],
  [0, 1],
] as const;

export function triangleShape(x: readonly number[], y: readonly number[]): TriangleShape {
  const twice = (x[1]! - x[0]!) * (y[2]! - y[0]!) - (y[1]! - y[0]!) * (x[2]! - x[0]!);
  const lx = [(y[1]! - y[2]!) / twice, (y[2]! - y[0]!) / twice, (y[0]! - y[1]!) / twice] as const;
  const ly = [(x[2]! - x[1]!) / twice, (x[0]! - x[2]!) / twice, (x[1]! - x[0]!) / twice] as const;
  const slopes = new Float64Array(12 * NINE);
  for (let i = 0; i < 3; i++) {
    slopes[i * NINE + 3 * i + 1] = 1;
    slopes[(6 + i) * NINE + 3 * i + 2] = 1;
  }
  for (let k = 0; k < 3; k++) {
    const [a, b] = SIDES[k]!;
    const [dx, dy] = [x[b]! - x[a]!, y[b]! - y[a]!];
    const long = Math.hypot(dx, dy);
    const [c, s] = [dx / long, dy / long];
    for (const [node, way] of [
      [a, -1],
      [b, 1],
    ] as const) {
      // Along the side the slope of a cubic through w and its end slopes; across it the mean of the ends.
      const along = [(way * 1.5) / long, -c / 4, -s / 4];
      const across = [0, -s / 2, c / 2];
      for (let d = 0; d < 3; d++) {
        slopes[(3 + k) * NINE + 3 * node + d]! += c * along[d]! - s * across[d]!;
        slopes[(9 + k) * NINE + 3 * node + d]! += s * along[d]! + c * across[d]!;
      }
    }
  }
  return { twice, lx, ly, slopes };
}

/** Curvatures (wxx, wyy, 2 wxy) by the nine unknowns at area coordinates: three rows of nine. */
export function curvatureRows(shape: TriangleShape, l: readonly number[], rows: Float64Array): void {
  rows.fill(0);
  const { lx, ly, slopes } = shape;
  for (let node = 0; node < 6; node++) {
    let [nx, ny] = [0, 0];
    if (node < 3) {
      const by = 4 * l[node]! - 1;
      [nx, ny] = [by * lx[node]!, by * ly[node]!];
    } else {
      const [a, b] = SIDES[node - 3]!;
      nx = 4 * (l[a]! * lx[b]! + l[b]! * lx[a]!);
      ny = 4 * (l[a]! * ly[b]! + l[b]! * ly[a]!);
    }
    for (let d = 0; d < NINE; d++) {
      const [gx, gy] = [slopes[node * NINE + d]!, slopes[(6 + node) * NINE + d]!];
      rows[d]! += nx * gx;
      rows[NINE + d]! += ny * gy;
      rows[2 * NINE + d]! += ny * gx + nx * gy;
    }
  }
}

/** Slopes wx, wy by the nine unknowns at area coordinates: two rows of nine. */
function slopeRows(shape: TriangleShape, l: readonly number[], rows: Float64Array): void {
  rows.fill(0);
  for (let node = 0; node < 6; node++) {
    const n = node < 3 ? l[node]! * (2 * l[node]! - 1) : 4 * l[SIDES[node - 3]![0]]! * l[SIDES[node - 3]![1]]!;
    for (let d = 0; d < NINE; d++) {
      rows[d]! += n * shape.slopes[node * NINE + d]!;
      rows[NINE + d]! += n * shape.slopes[(6 + node) * NINE + d]!;
    }
  }
}

/** Middles of sides: quadratics are summed exactly there, each with a third of the area. */
export const MIDDLES = [
  [0, 0.5, 0.5],
  [0.5, 0, 0.5],
  [0.5, 0.5, 0],
] as const;

/** Stiffness of the triangle, nine by nine; `stiff` is the plate's D [N mm]. */
export function bendingStiffness(shape: TriangleShape, stiff: number, poisson: number, into: Float64Array): void {
  into.fill(0);
  const rows = new Float64Array(3 * NINE);
  for (const l of MIDDLES) {
    curvatureRows(shape, l, rows);
    const by = (stiff * shape.twice) / 6;
    for (let i = 0; i < NINE; i++) {
      const [xx, yy, xy] = [rows[i]!, rows[NINE + i]!, rows[2 * NINE + i]!];
      const mx = by * (xx + poisson * yy);
      const my = by * (yy + poisson * xx);
      const mxy = (by * (1 - poisson) * xy) / 2;
      for (let j = 0; j < NINE; j++)
        into[i * NINE + j]! += mx * rows[j]! + my * rows[NINE + j]! + mxy * rows[2 * NINE + j]!;
    }
  }
}

/** What in-plane forces (nx, ny, nxy at the three middles, tension positive [N/mm]) add to the stiffness, nine by nine. */
export function pressedStiffness(shape: TriangleShape, forces: Float64Array, at: number, into: Float64Array): void {
  into.fill(0);
  const rows = new Float64Array(2 * NINE);
  for (let k = 0; k < 3; k++) {
    slopeRows(shape, MIDDLES[k]!, rows);
    const [nx, ny, nxy] = [forces[at + 3 * k]!, forces[at + 3 * k + 1]!, forces[at + 3 * k + 2]!];
    const by = shape.twice / 6;
    for (let i = 0; i < NINE; i++) {
      const [gx, gy] = [rows[i]!, rows[NINE + i]!];
      for (let j = 0; j < NINE; j++)
        into[i * NINE + j]! += by * ((nx * gx + nxy * gy) * rows[j]! + (nxy * gx + ny * gy) * rows[NINE + j]!);
    }
  }
}
