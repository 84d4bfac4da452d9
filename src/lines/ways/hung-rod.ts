import { type Vec, denseCurve, rodShape } from '#geometry';

/** A place and the direction of travel there. */
export interface RodPose {
  readonly point: Vec;
  readonly direction: Vec;
}

/** A hose between two holds as it hangs. */
export interface HungRod {
  readonly ok: boolean;
  readonly points: Float64Array;
  readonly leastRadiusMm: number;
  /** Along the rod, for one much like it; absent where rods are joined. */
  readonly tension?: Float64Array;
}

/** Any polyline near the wanted shape, or a hose that hangs much like it. */
export type Laid = Pick<HungRod, 'points' | 'tension'>;

/** Which of the shapes it may take: as laid, sagging under its weight, or thrown to the other side first. */
export type Lay = 'as laid' | 'sagging' | 'thrown up';

/**
 * Weight of a filled hose over its bending stiffness [1/mm^3]: about 7 N/m over 0.5 N m2, a -10 with oil in it. From memory,
 * unverified; hoses differ several times over, so shapes with and without weight both count.
 */
const WEIGHT_PER_STIFFNESS = 1.4e-8;
/** Knots of a hanging hose [mm], at most a tenth of the bend radius. */
const STEP_MM = 8;
/** How far a thrown hose starts off to the side, as a share of its length. */
const THROW = 0.12;

/** The hose between two holds at a length. */
export function hungRod(
  from: RodPose,
  to: RodPose,
  lengthMm: number,
  { points: laid, tension }: Laid,
  lay: Lay,
): HungRod {
  const shape = rodShape({
    a: from,
    b: to,
    lengthMm,
    start: lay === 'thrown up' ? thrownUp(laid, lengthMm) : laid,
    maxIterations: MOST_ITERATIONS,
    stepMm: Math.max(STEP_MM, lengthMm / MOST_KNOTS),
    ...(tension === undefined || lay === 'thrown up' ? {} : { startTension: tension }),
    ...(lay === 'sagging' ? { weightPerStiffness: [0, 0, -WEIGHT_PER_STIFFNESS] as Vec } : {}),
  });
  return {
    ok: shape.converged,
    points: shape.points,
    leastRadiusMm: shape.worstCurvature > 0 ? 1 / shape.worstCurvature : Number.POSITIVE_INFINITY,
    ...(shape.converged ? { tension: shape.tension } : {}),
  };
}

const MOST_KNOTS = 64;
/** A rod that has not settled by then is at the edge of snapping over: no shape to rely on. */
const MOST_ITERATIONS = 60;

function thrownUp(laid: Float64Array, lengthMm: number): Float64Array {
  const last = laid.length / 3 - 1;
  return laid.map((v, i) => (i % 3 === 2 ? v + THROW * lengthMm * Math.sin((Math.PI * Math.floor(i / 3)) / last) : v));
}

/** Knots of a hanging hose drawn as a smooth curve, points at most 3 mm apart. */
export const denseRod = (knots: Float64Array, start: RodPose, end: RodPose): Float64Array =>
  denseCurve(knots, start.direction, end.direction, DRAWN_STEP_MM);

const DRAWN_STEP_MM = 2.9;
