import { add, scale, sub, type Vec } from '#geometry';
import { determinant, Matrix, SVD } from 'ml-matrix';

/** A turn and a shift that carry one set of points onto another as nearly as can be. Never a mirror image. */
export interface RigidFit {
  /** Rows of the turn. */
  readonly turn: readonly [Vec, Vec, Vec];
  readonly from: Vec;
  readonly to: Vec;
  readonly turnDeg: number;
  /** How far each point is left off [mm], car axes. */
  readonly left: readonly Vec[];
}

export const fitted = (fit: RigidFit, p: Vec): Vec => {
  const d = sub(p, fit.from);
  const [a, b, c] = fit.turn.map((row) => row[0] * d[0] + row[1] * d[1] + row[2] * d[2]) as [number, number, number];
  return add(fit.to, [a, b, c]);
};

/** Least squares over all points alike (Kabsch): the turn from the singular vectors of their spread, its handedness kept. */
export function rigidFit(points: readonly Vec[], onto: readonly Vec[]): RigidFit {
  const middle = (all: readonly Vec[]) =>
    scale(
      all.reduce<Vec>((s, p) => add(s, p), [0, 0, 0]),
      1 / all.length,
    );
  const [from, to] = [middle(points), middle(onto)];
  const spread = Matrix.zeros(3, 3);
  points.forEach((p, k) => {
    const [a, b] = [sub(p, from), sub(onto[k]!, to)];
    for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) spread.set(i, j, spread.get(i, j) + a[i]! * b[j]!);
  });
  const svd = new SVD(spread, { autoTranspose: true });
  const [u, v] = [svd.leftSingularVectors, svd.rightSingularVectors];
  const hand = determinant(v.mmul(u.transpose())) < 0 ? -1 : 1;
  // The weakest way is turned over where the best match would be a mirror image.
  const weakest = svd.diagonal.indexOf(Math.min(...svd.diagonal));
  const flip = Matrix.eye(3, 3);
  flip.set(weakest, weakest, hand);
  const r = v.mmul(flip).mmul(u.transpose());
  const row = (i: number): Vec => [r.get(i, 0), r.get(i, 1), r.get(i, 2)];
  const turn = [row(0), row(1), row(2)] as const;
  const trace = r.get(0, 0) + r.get(1, 1) + r.get(2, 2);
  const fit = {
    turn,
    from,
    to,
    turnDeg: (Math.acos(Math.min(1, Math.max(-1, (trace - 1) / 2))) * 180) / Math.PI,
    left: [],
  };
  return { ...fit, left: points.map((p, k) => sub(onto[k]!, fitted(fit, p))) };
}
