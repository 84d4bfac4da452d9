import { add, cross, norm, scale, sub, type Vec } from '#geometry';
import { EigenvalueDecomposition, Matrix } from 'ml-matrix';

/** The plane that points lie nearest to, least squares: through their middle, square to the way they spread least. */
export interface BestPlane {
  readonly middle: Vec;
  readonly normal: Vec;
  /** Spread in the plane's narrow way [mm]; near 0 the points lie in one line and no plane is told by them. */
  readonly narrowMm: number;
}

export function bestPlane(points: readonly Vec[]): BestPlane {
  const middle = scale(
    points.reduce<Vec>((sum, p) => add(sum, p), [0, 0, 0]),
    1 / points.length,
  );
  if (points.length === 3) {
    // Three points lie in their plane: no rounding of an eigenvalue between.
    const square = cross(sub(points[1]!, points[0]!), sub(points[2]!, points[0]!));
    const area = norm(square);
    const longest = Math.max(...points.map((p, i) => norm(sub(points[(i + 1) % 3]!, p))));
    if (area > 0) return { middle, normal: scale(square, 1 / area), narrowMm: area / longest };
  }
  const spread = Matrix.zeros(3, 3);
  for (const p of points) {
    const d = sub(p, middle);
    for (let i = 0; i < 3; i++) for (let j = 0; j < 3; j++) spread.set(i, j, spread.get(i, j) + d[i]! * d[j]!);
  }
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(spread, { assumeSymmetric: true });
  const order = [0, 1, 2].sort((a, b) => realEigenvalues[a]! - realEigenvalues[b]!);
  const axis = eigenvectorMatrix.getColumn(order[0]!);
  const length = Math.hypot(axis[0]!, axis[1]!, axis[2]!);
  return {
    middle,
    normal: [axis[0]! / length, axis[1]! / length, axis[2]! / length],
    narrowMm: Math.sqrt(Math.max(0, realEigenvalues[order[1]!]!)),
  };
}
