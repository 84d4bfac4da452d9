import { add, cross, distance, sub, type Vec } from '#geometry';
import { Matrix, solve } from 'ml-matrix';
import { TAPE_KNOWN_TO_MM } from '../usual-tolerance.ts';
import type { Fault } from '../fault.ts';
import type { Origin } from '../schema/car.ts';
import type { PointPair } from './best-turn.ts';
import { applied, bestTurn } from './best-turn.ts';
import type { Fitted } from './sift.ts';
import { sift } from './sift.ts';
import type { OriginReport, ReadingMiss, SolvedOrigin } from './solved-origin.ts';
import { EXACT_MM } from './solved-origin.ts';

/** A mirror image that fits this many times better than any turn is no accident of measuring. */
const MIRROR_TIMES = 3;
/** Points that spread less than this share of their length to the side do not fix the turn about their own line [-]. */
const LEAST_ASIDE = 0.01;
const AXES: readonly Vec[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

interface Named extends PointPair {
  readonly name: string;
}
interface TurnFit extends Fitted {
  readonly rows: readonly [Vec, Vec, Vec];
  readonly shift: Vec;
  readonly centre: Vec;
  readonly covariance: Matrix;
}

/** An origin read at three or more points whose places on the car are known, by least squares. */
export function solvePoints(origin: Origin, place: string): SolvedOrigin | Fault {
  const pairs: Named[] = origin.points.map((point) => ({
    name: point.name,
    from: point.readMm ?? [0, 0, 0],
    to: point.atMm,
    knownToMm: Math.max(EXACT_MM, point.knownToMm ?? TAPE_KNOWN_TO_MM),
  }));
  const whole = bestTurn(pairs);
  const known = Math.max(...pairs.map((pair) => pair.knownToMm));
  const lineFault = oneLineFault(pairs, known, place);
  if (lineFault !== undefined) return lineFault;
  if (whole.rmsMm > known && whole.mirroredRmsMm * MIRROR_TIMES < whole.rmsMm) {
    return {
      place: `${place}.points`,
      stands: `readings that fit only as a mirror image (off by ${whole.rmsMm.toFixed(0)} mm as read, ${whole.mirroredRmsMm.toFixed(0)} mm mirrored)`,
      allowed: 'right-handed readings: one axis has the wrong sign, or two are exchanged',
    };
  }
  const sifted = sift(pairs, turnFit, (pair, fit) => miss(pair, fit) / carried(pair, fit));
  if (sifted === undefined) return oneLine(place, 'reference points');
  const { fit } = sifted;
  return {
    id: origin.id,
    kind: 'points',
    frame: { rows: fit.rows, shift: fit.shift },
    variance: (atMm, along) => poseVariance(fit, atMm, along),
    report: reportOf(origin, pairs, fit, sifted.apart, sifted.quarrel),
  };
}

function oneLineFault(pairs: readonly Named[], known: number, place: string): Fault | undefined {
  for (const [end, words] of [
    ['to', 'known places'],
    ['from', 'readings'],
  ] as const) {
    const spread = bestTurn(pairs.map((pair) => ({ from: pair[end], to: pair[end], knownToMm: 1 })));
    if (spread.asideMm < Math.max(known / 2, LEAST_ASIDE * spread.alongMm)) return oneLine(place, words);
  }
  return undefined;
}

function oneLine(place: string, words: string): Fault {
  return {
    place: `${place}.points`,
    stands: `${words} that lie on one line, or at one point`,
    allowed: 'three points of which one stands well to the side of the line through the others',
  };
}

function turnFit(pairs: readonly Named[]): TurnFit | undefined {
  if (pairs.length < 3) return undefined;
  const best = bestTurn(pairs);
  if (best.asideMm < LEAST_ASIDE * best.alongMm) return undefined;
  const pose = { rows: best.rows, shift: best.shift, centre: best.centre };
  const chi = pairs.reduce((sum, pair) => sum + (miss(pair, pose) / pair.knownToMm) ** 2, 0);
  const spare = pairs.length * 3 - 6;
  const normal = Matrix.zeros(6, 6);
  for (const pair of pairs) {
    for (const axis of AXES) {
      const g = poseGradient(best.centre, pair.to, axis);
      for (let i = 0; i < 6; i++)
        for (let j = 0; j < 6; j++) normal.set(i, j, normal.get(i, j) + (g[i]! * g[j]!) / pair.knownToMm ** 2);
    }
  }
  const covariance = solve(normal, Matrix.eye(6, 6), true).mul(Math.max(1, chi / spare));
  return { ...pose, chi, spare, covariance };
}

/** How the place of a point along a direction changes with a small turn about the centre, and with a shift. */
function poseGradient(centre: Vec, atMm: Vec, along: Vec): readonly number[] {
  return [...cross(sub(atMm, centre), along), ...along];
}

function poseVariance(fit: TurnFit, atMm: Vec, along: Vec): number {
  const g = poseGradient(fit.centre, atMm, along);
  let sum = 0;
  for (let i = 0; i < 6; i++) for (let j = 0; j < 6; j++) sum += g[i]! * fit.covariance.get(i, j) * g[j]!;
  return Math.max(0, sum);
}

function miss(pair: PointPair, pose: Pick<TurnFit, 'rows' | 'shift'>): number {
  return distance(add(applied(pose.rows, pair.from), pose.shift), pair.to);
}

/** Tolerance of a point against a fit it took no part in: its own, and how well the fit carries to where it is. */
function carried(pair: PointPair, fit: TurnFit): number {
  const worst = Math.max(...AXES.map((axis) => poseVariance(fit, pair.to, axis)));
  return Math.sqrt(pair.knownToMm ** 2 + worst);
}

function reportOf(
  origin: Origin,
  pairs: readonly Named[],
  fit: TurnFit,
  apart: readonly Named[],
  quarrel: boolean,
): OriginReport {
  const readings: ReadingMiss[] = pairs.map((pair) => ({
    name: pair.name,
    residualMm: miss(pair, fit),
    knownToMm: pair.knownToMm,
    disagrees: apart.includes(pair),
  }));
  const took = readings.filter((reading) => !reading.disagrees);
  const rmsMm = Math.sqrt(took.reduce((sum, reading) => sum + reading.residualMm ** 2, 0) / took.length);
  const remarks = readings
    .filter((reading) => reading.disagrees)
    .map(
      (reading) =>
        `${origin.id}.${reading.name} reads ${reading.residualMm.toFixed(0)} mm from where the others put it (known to ${reading.knownToMm} mm): measure it again; it is left out`,
    );
  if (quarrel)
    remarks.push(
      `the points of ${origin.id} do not agree (${rmsMm.toFixed(0)} mm rms), and there are too few to tell which is wrong: measure again, or add a point`,
    );
  if (fit.rows[2][2] < 0)
    remarks.push(
      `the third axis of ${origin.id} comes out pointing down; if it was read upward, one axis has the wrong sign`,
    );
  return { origin: origin.id, kind: 'points', readings, rmsMm, remarks };
}
