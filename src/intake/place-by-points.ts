import { Matrix, SingularValueDecomposition } from 'ml-matrix';
import { turnAnglesDeg } from '#car';

type Triple = readonly [x: number, y: number, z: number];

/** One point seen both in the scan (already in millimetres) and on the car. */
export interface PointPair {
  readonly scan: Triple;
  readonly car: Triple;
}

/** Where a scan stands on the car, and how well its points agree. */
export type Placing =
  | {
      readonly ok: true;
      /** About car X, then Y, then Z, right-handed [deg]; before `atMm`. */
      readonly turnDeg: Triple;
      readonly atMm: Triple;
      /** How far each pair's scan point, placed, misses its car point [mm]. */
      readonly residualsMm: readonly number[];
      readonly rmsMm: number;
      /** How many times farther apart the car's points are than the scan's [-]; 1 when the unit is right. */
      readonly scale: number;
      readonly warnings: readonly string[];
    }
  | { readonly ok: false; readonly fault: string };

/** Points must spread at least this far to the side of their common line [mm], and as a share of its length [-]; our own measure. */
const LEAST_SIDE_MM = 5;
const LEAST_SIDE_SHARE = 0.02;
/** A scale farther from 1 is a wrong unit or a wrong pair, not measuring error; nearer than the second it is not worth a word [-]. */
const SCALE_REFUSED = 0.1;
const SCALE_WARNED = 0.01;
/** A mirror image that misses this many times less than the best turn is no accident [-]. */
const MIRROR_TIMES = 3;
const RESIDUAL_WARNED_MM = 5;
/** Ratios of the units meshes come in, and what they mean. */
const UNIT_RATIOS = [
  { ratio: 25.4, words: 'is the scan in inches, not millimetres' },
  { ratio: 1000, words: 'is the scan in metres, not millimetres' },
  { ratio: 10, words: 'is the scan in centimetres, not millimetres' },
  { ratio: 1 / 25.4, words: 'is the scan in millimetres, not inches' },
  { ratio: 1 / 1000, words: 'is the scan in millimetres, not metres' },
  { ratio: 1 / 10, words: 'is the scan in millimetres, not centimetres' },
  { ratio: 1000 / 25.4, words: 'is the scan in metres, not inches' },
  { ratio: 25.4 / 1000, words: 'is the scan in inches, not metres' },
] as const;

/**
 * The rigid motion that brings three or more scan points onto their car points with the least sum of squared misses.
 *
 *     minimise sum |R s_i + t - c_i|^2;  H = sum (s_i - s)(c_i - c)^T = U D V^T,  R = V diag(1, 1, det(V U^T)) U^T,  t = c - R s
 *
 * The method of Kabsch (Acta Crystallographica A 32, 1976, p. 922), with the sign that keeps R from being a mirror image.
 * Points all in one plane fit a mirror image as well as a turn, so that one can only be told with a point off the plane.
 */
export function placeByPoints(pairs: readonly PointPair[]): Placing {
  const wrong = pairsFault(pairs);
  if (wrong !== undefined) return { ok: false, fault: wrong };
  const scan = centred(pairs.map((pair) => pair.scan));
  const car = centred(pairs.map((pair) => pair.car));
  for (const [name, points] of [
    ['scan', scan],
    ['car', car],
  ] as const) {
    const line = oneLineFault(name, points.rows);
    if (line !== undefined) return { ok: false, fault: line };
  }
  const scale = Math.sqrt(squares(car.rows) / squares(scan.rows));
  const unit = scaleFault(scale);
  if (unit !== undefined) return { ok: false, fault: unit };
  const { turn, mirror } = bestTurns(scan.rows, car.rows);
  const misses = residuals(turn, scan.rows, car.rows);
  if (rms(residuals(mirror, scan.rows, car.rows)) * MIRROR_TIMES < rms(misses) && rms(misses) > RESIDUAL_WARNED_MM) {
    return {
      ok: false,
      fault:
        'pairs: the points fit a mirror image; allowed: points that fit a turn (are left and right mixed up, or was the scan mirrored?)',
    };
  }
  const shifted = times(turn, scan.middle);
  return {
    ok: true,
    turnDeg: turnAnglesDeg(turn),
    atMm: [car.middle[0] - shifted[0], car.middle[1] - shifted[1], car.middle[2] - shifted[2]],
    residualsMm: misses,
    rmsMm: rms(misses),
    scale,
    warnings: placingWarnings(misses, scale),
  };
}

function pairsFault(pairs: readonly PointPair[]): string | undefined {
  if (pairs.length < 3) return `pairs: ${pairs.length}; allowed: three or more, not on one line`;
  const bad = pairs.findIndex((pair) => ![...pair.scan, ...pair.car].every(Number.isFinite));
  return bad < 0
    ? undefined
    : `pairs[${bad}]: a coordinate that is not a finite number; allowed: x, y, z in millimetres`;
}

function oneLineFault(name: string, rows: readonly Triple[]): string | undefined {
  const [long = 0, side = 0] = new SingularValueDecomposition(new Matrix(rows.map((row) => [...row]))).diagonal;
  const spread = (value: number): number => value / Math.sqrt(rows.length);
  if (spread(side) >= LEAST_SIDE_MM && side >= long * LEAST_SIDE_SHARE) return undefined;
  return `pairs: the ${name} points lie on one line (${spread(side).toFixed(1)} mm to its side); allowed: points at least ${LEAST_SIDE_MM} mm and ${LEAST_SIDE_SHARE * 100} % to the side of it`;
}

function scaleFault(scale: number): string | undefined {
  if (Math.abs(scale - 1) <= SCALE_REFUSED) return undefined;
  const hint =
    UNIT_RATIOS.find(({ ratio }) => Math.abs(scale / ratio - 1) < SCALE_REFUSED)?.words ??
    'is the unit right, and does each pair name one point';
  return `pairs: the car points lie ${Number(scale.toPrecision(3))} times as far apart as the scan points; allowed: ${1 - SCALE_REFUSED} to ${1 + SCALE_REFUSED} (${hint}?)`;
}

/** The best proper rotation and the best mirror image, row by row. */
function bestTurns(scan: readonly Triple[], car: readonly Triple[]): { turn: Rows; mirror: Rows } {
  const h = new Matrix(scan.map((row) => [...row])).transpose().mmul(new Matrix(car.map((row) => [...row])));
  const svd = new SingularValueDecomposition(h, { autoTranspose: true });
  const u = svd.leftSingularVectors;
  const v = svd.rightSingularVectors;
  const sign = determinant(rowsOf(v)) * determinant(rowsOf(u)) < 0 ? -1 : 1;
  const withLast = (last: number): Rows => rowsOf(v.mmul(Matrix.diag([1, 1, last])).mmul(u.transpose()));
  return { turn: withLast(sign), mirror: withLast(-sign) };
}

function placingWarnings(misses: readonly number[], scale: number): string[] {
  const warnings: string[] = [];
  if (Math.abs(scale - 1) > SCALE_WARNED)
    warnings.push(`the scan measures ${((1 / scale - 1) * 100).toFixed(1)} % against the car`);
  const worst = Math.max(...misses);
  if (worst > RESIDUAL_WARNED_MM)
    warnings.push(`pair ${misses.indexOf(worst) + 1} misses by ${worst.toFixed(1)} mm: measure it again`);
  return warnings;
}

type Rows = readonly [Triple, Triple, Triple];

function rowsOf(m: Matrix): Rows {
  const row = (i: number): Triple => [m.get(i, 0), m.get(i, 1), m.get(i, 2)];
  return [row(0), row(1), row(2)];
}

function centred(points: readonly Triple[]): { middle: Triple; rows: readonly Triple[] } {
  const sum = points.reduce<Triple>((s, p) => [s[0] + p[0], s[1] + p[1], s[2] + p[2]], [0, 0, 0]);
  const middle: Triple = [sum[0] / points.length, sum[1] / points.length, sum[2] / points.length];
  return { middle, rows: points.map((p) => [p[0] - middle[0], p[1] - middle[1], p[2] - middle[2]]) };
}

const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const times = (rows: Rows, p: Triple): Triple => [dot(rows[0], p), dot(rows[1], p), dot(rows[2], p)];
const squares = (rows: readonly Triple[]): number => rows.reduce((sum, row) => sum + dot(row, row), 0);
const rms = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
const determinant = ([a, b, c]: Rows): number =>
  a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);

function residuals(turn: Rows, scan: readonly Triple[], car: readonly Triple[]): number[] {
  return scan.map((point, i) => {
    const [x, y, z] = times(turn, point);
    const [cx, cy, cz] = car[i] ?? [0, 0, 0];
    return Math.hypot(x - cx, y - cy, z - cz);
  });
}
