import { dot, type Vec } from '#geometry';
import { Matrix, solve } from 'ml-matrix';
import type { Fault } from '../fault.ts';
import type { Origin } from '../schema/car.ts';
import { TAPE_KNOWN_TO_MM } from '../usual-tolerance.ts';
import type { Fitted } from './sift.ts';
import { sift } from './sift.ts';
import type { SolvedOrigin } from './solved-origin.ts';
import { EXACT_MM } from './solved-origin.ts';
import { upInCar } from './up-in-car.ts';

const DEG = 180 / Math.PI;
/** Gauss-Newton on a lean of a few degrees gains two digits a step. */
const STEPS = 20;
/** Points in plan that leave the lean this loose do not give it [deg]. */
const LOOSEST_DEG = 3;
/** No shell stands on its stands leaning more than this [deg]. */
const MOST_LEAN_DEG = 45;

interface Height {
  readonly name: string;
  readonly atMm: Vec;
  readonly downMm: number;
  readonly knownToMm: number;
}
interface LevelFit extends Fitted {
  readonly pitchDeg: number;
  readonly rollDeg: number;
  readonly offsetMm: number;
  readonly up: Vec;
  /** Of pitch and roll [rad^2] and offset [mm^2]; of the offset alone where the lean is given. */
  readonly covariance: Matrix;
}

/** A level line or laser plane: heights only. Three or more points give the lean of the shell; else it is as stated. */
export function solveLevel(origin: Origin, place: string): SolvedOrigin | Fault {
  const heights: Height[] = origin.points.map((point) => ({
    name: point.name,
    atMm: point.atMm,
    downMm: point.downMm ?? 0,
    knownToMm: Math.max(EXACT_MM, point.knownToMm ?? TAPE_KNOWN_TO_MM),
  }));
  const lean = { pitchDeg: origin.pitchDeg ?? 0, rollDeg: origin.rollDeg ?? 0 };
  const isFree = heights.length >= 3;
  const fitOf = (some: readonly Height[]) => (isFree ? leaningFit(some) : heldFit(some, lean));
  const sifted = sift(
    heights,
    fitOf,
    (height, fit) => miss(height, fit) / Math.sqrt(height.knownToMm ** 2 + variance(fit, height.atMm)),
  );
  if (sifted === undefined) {
    return {
      place: `${place}.points`,
      stands: 'points that do not give the lean of the shell',
      allowed: 'three points well apart in plan, not on one line; or one point with pitchDeg and rollDeg',
    };
  }
  const { fit, apart, quarrel } = sifted;
  const readings = heights.map((height) => ({
    name: height.name,
    residualMm: miss(height, fit),
    knownToMm: height.knownToMm,
    disagrees: apart.includes(height),
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
      `the heights of ${origin.id} do not agree (${rmsMm.toFixed(0)} mm rms), and there are too few to tell which is wrong`,
    );
  if (isFree)
    remarks.push(
      `by ${origin.id} the shell stands nose ${fit.pitchDeg < 0 ? 'down' : 'up'} ${Math.abs(fit.pitchDeg).toFixed(1)} deg, right side ${fit.rollDeg < 0 ? 'up' : 'down'} ${Math.abs(fit.rollDeg).toFixed(1)} deg`,
    );
  return {
    id: origin.id,
    kind: 'level',
    level: { up: fit.up, offsetMm: fit.offsetMm },
    variance: (atMm) => variance(fit, atMm),
    report: { origin: origin.id, kind: 'level', readings, rmsMm, remarks },
  };
}

function miss(height: Height, fit: Pick<LevelFit, 'up' | 'offsetMm'>): number {
  return Math.abs(fit.offsetMm - height.downMm - dot(fit.up, height.atMm));
}

function variance(fit: LevelFit, atMm: Vec): number {
  const whole = gradient(fit.pitchDeg, fit.rollDeg, atMm);
  const g = fit.covariance.rows === 1 ? [1] : whole;
  let sum = 0;
  for (let i = 0; i < g.length; i++) for (let j = 0; j < g.length; j++) sum += g[i]! * fit.covariance.get(i, j) * g[j]!;
  return Math.max(0, sum);
}

/** How offset - up . p changes with pitch, roll [mm/rad] and the offset. */
function gradient(pitchDeg: number, rollDeg: number, p: Vec): readonly [number, number, number] {
  const [a, b] = [pitchDeg / DEG, rollDeg / DEG];
  const byPitch = -Math.cos(a) * p[0] + Math.sin(a) * Math.sin(b) * p[1] - Math.sin(a) * Math.cos(b) * p[2];
  const byRoll = -Math.cos(a) * Math.cos(b) * p[1] - Math.cos(a) * Math.sin(b) * p[2];
  return [-byPitch, -byRoll, 1];
}

function heldFit(
  heights: readonly Height[],
  lean: { readonly pitchDeg: number; readonly rollDeg: number },
): LevelFit | undefined {
  if (heights.length === 0) return undefined;
  const up = upInCar(lean.pitchDeg, lean.rollDeg);
  const weight = heights.reduce((sum, height) => sum + 1 / height.knownToMm ** 2, 0);
  const offsetMm =
    heights.reduce((sum, height) => sum + (dot(up, height.atMm) + height.downMm) / height.knownToMm ** 2, 0) / weight;
  const chi = heights.reduce((sum, height) => sum + (miss(height, { up, offsetMm }) / height.knownToMm) ** 2, 0);
  const spare = heights.length - 1;
  return {
    ...lean,
    up,
    offsetMm,
    chi,
    spare,
    covariance: new Matrix([[Math.max(1, spare > 0 ? chi / spare : 1) / weight]]),
  };
}

function leaningFit(heights: readonly Height[]): LevelFit | undefined {
  if (heights.length < 3) return undefined;
  let pitchDeg = 0;
  let rollDeg = 0;
  let offsetMm = heights.reduce((sum, height) => sum + height.atMm[2] + height.downMm, 0) / heights.length;
  let normal = Matrix.zeros(3, 3);
  for (let step = 0; step < STEPS; step++) {
    normal = Matrix.zeros(3, 3);
    const right = Matrix.zeros(3, 1);
    const up = upInCar(pitchDeg, rollDeg);
    for (const height of heights) {
      const g = gradient(pitchDeg, rollDeg, height.atMm);
      const left = dot(up, height.atMm) + height.downMm - offsetMm;
      const weight = 1 / height.knownToMm ** 2;
      for (let i = 0; i < 3; i++) {
        right.set(i, 0, right.get(i, 0) + g[i]! * left * weight);
        for (let j = 0; j < 3; j++) normal.set(i, j, normal.get(i, j) + g[i]! * g[j]! * weight);
      }
    }
    const move = solve(normal, right, true);
    pitchDeg += move.get(0, 0) * DEG;
    rollDeg += move.get(1, 0) * DEG;
    offsetMm += move.get(2, 0);
    if (!(Math.abs(pitchDeg) < MOST_LEAN_DEG && Math.abs(rollDeg) < MOST_LEAN_DEG && Number.isFinite(offsetMm)))
      return undefined;
  }
  const bare = solve(normal, Matrix.eye(3, 3), true);
  if (
    !(Math.sqrt(Math.max(bare.get(0, 0), bare.get(1, 1))) * DEG < LOOSEST_DEG) ||
    bare.get(0, 0) <= 0 ||
    bare.get(1, 1) <= 0
  )
    return undefined;
  const up = upInCar(pitchDeg, rollDeg);
  const chi = heights.reduce((sum, height) => sum + (miss(height, { up, offsetMm }) / height.knownToMm) ** 2, 0);
  const spare = heights.length - 3;
  return {
    pitchDeg,
    rollDeg,
    offsetMm,
    up,
    chi,
    spare,
    covariance: bare.mul(Math.max(1, spare > 0 ? chi / spare : 1)),
  };
}
