import type { Vec } from '#geometry';
import { Matrix, SingularValueDecomposition } from 'ml-matrix';

export interface PointPair {
  readonly from: Vec;
  readonly to: Vec;
  /** How well the pair is known [+-mm]. */
  readonly knownToMm: number;
}

export interface BestTurn {
  /** The proper rotation, row by row, and the shift: to = rows * from + shift. */
  readonly rows: readonly [Vec, Vec, Vec];
  readonly shift: Vec;
  /** Weighted mean of the target points. */
  readonly centre: Vec;
  /** Root mean square of the residuals [mm]. */
  readonly rmsMm: number;
  /** The same if a mirror image were allowed and a turn not [mm]. */
  readonly mirroredRmsMm: number;
  /** How far the target points spread to the side of the line they lie along best, and along it, rms [mm]. */
  readonly asideMm: number;
  readonly alongMm: number;
}

/**
 * The rigid turn and shift that bring one set of points nearest to another, by weighted least squares.
 *
 *     minimise sum w_i |R a_i + t - b_i|^2;  U S V^T = sum w_i (a_i - a)(b_i - b)^T;  R = V diag(1, 1, det(V U^T)) U^T
 *
 * The method of Kabsch, Acta Crystallographica A32 (1976) 922, in its form by singular value decomposition. The weights are
 * 1 / knownToMm^2. The last sign also gives the best mirror image, whose fit tells a reading with one axis reversed.
 */
export function bestTurn(pairs: readonly PointPair[]): BestTurn {
  const weights = pairs.map((pair) => 1 / pair.knownToMm ** 2);
  const from = mean(
    pairs.map((pair) => pair.from),
    weights,
  );
  const to = mean(
    pairs.map((pair) => pair.to),
    weights,
  );
  const h = Matrix.zeros(3, 3);
  const spread = Matrix.zeros(3, 3);
  pairs.forEach((pair, n) => {
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        h.set(i, j, h.get(i, j) + weights[n]! * (pair.from[i]! - from[i]!) * (pair.to[j]! - to[j]!));
        spread.set(i, j, spread.get(i, j) + ((pair.to[i]! - to[i]!) * (pair.to[j]! - to[j]!)) / pairs.length);
      }
    }
  });
  const svd = new SingularValueDecomposition(h);
  const u = svd.leftSingularVectors;
  const v = svd.rightSingularVectors;
  const sign = determinant(v) * determinant(u) < 0 ? -1 : 1;
  const turnWith = (last: number) => v.mmul(Matrix.diag([1, 1, last])).mmul(u.transpose());
  const spreads = new SingularValueDecomposition(spread).diagonal;
  const rows = rowsOf(turnWith(sign));
  return {
    rows,
    shift: shiftOf(rows, from, to),
    centre: to,
    rmsMm: rms(pairs, rows, from, to),
    mirroredRmsMm: rms(pairs, rowsOf(turnWith(-sign)), from, to),
    alongMm: Math.sqrt(Math.max(0, spreads[0]!)),
    asideMm: Math.sqrt(Math.max(0, spreads[1]!)),
  };
}

type Rows = readonly [Vec, Vec, Vec];

export function applied(rows: Rows, p: Vec): Vec {
  return [
    rows[0][0] * p[0] + rows[0][1] * p[1] + rows[0][2] * p[2],
    rows[1][0] * p[0] + rows[1][1] * p[1] + rows[1][2] * p[2],
    rows[2][0] * p[0] + rows[2][1] * p[1] + rows[2][2] * p[2],
  ];
}

function shiftOf(rows: Rows, from: Vec, to: Vec): Vec {
  const turned = applied(rows, from);
  return [to[0] - turned[0], to[1] - turned[1], to[2] - turned[2]];
}

function rms(pairs: readonly PointPair[], rows: Rows, from: Vec, to: Vec): number {
  const shift = shiftOf(rows, from, to);
  const squares = pairs.map((pair) => {
    const p = applied(rows, pair.from);
    return (
      (p[0] + shift[0] - pair.to[0]) ** 2 + (p[1] + shift[1] - pair.to[1]) ** 2 + (p[2] + shift[2] - pair.to[2]) ** 2
    );
  });
  return Math.sqrt(squares.reduce((a, b) => a + b, 0) / pairs.length);
}

function mean(points: readonly Vec[], weights: readonly number[]): Vec {
  const total = weights.reduce((a, b) => a + b, 0);
  const at = (i: 0 | 1 | 2) => points.reduce((sum, p, n) => sum + p[i] * weights[n]!, 0) / total;
  return [at(0), at(1), at(2)];
}

function rowsOf(m: Matrix): Rows {
  const row = (i: number): Vec => [m.get(i, 0), m.get(i, 1), m.get(i, 2)];
  return [row(0), row(1), row(2)];
}

function determinant(m: Matrix): number {
  const [a, b, c] = rowsOf(m);
  return a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
}
