import { type Vec, rodShape } from '#geometry';

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
}

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

/** The hose between two holds at a length; `laid` is any polyline near the wanted shape. */
export function hungRod(from: RodPose, to: RodPose, lengthMm: number, laid: Float64Array, lay: Lay): HungRod {
  const shape = rodShape({
    a: from,
    b: to,
    lengthMm,
    start: lay === 'thrown up' ? thrownUp(laid, lengthMm) : laid,
    stepMm: Math.max(STEP_MM, lengthMm / MOST_KNOTS),
    ...(lay === 'sagging' ? { weightPerStiffness: [0, 0, -WEIGHT_PER_STIFFNESS] as Vec } : {}),
  });
  return { ok: shape.converged, points: shape.points, leastRadiusMm: shape.worstCurvature > 0 ? 1 / shape.worstCurvature : Number.POSITIVE_INFINITY };
}

const MOST_KNOTS = 160;

function thrownUp(laid: Float64Array, lengthMm: number): Float64Array {
  const last = laid.length / 3 - 1;
  return laid.map((v, i) => (i % 3 === 2 ? v + THROW * lengthMm * Math.sin((Math.PI * Math.floor(i / 3)) / last) : v));
}

/** Knots of a hanging hose drawn as a smooth curve, points at most 3 mm apart. */
export function denseRod(knots: Float64Array, start: RodPose, end: RodPose): Float64Array {
  const last = knots.length / 3 - 1;
  const tangent = (i: number): Vec => {
    if (i === 0) return start.direction;
    if (i === last) return end.direction;
    const d: Vec = [knots[3 * i + 3]! - knots[3 * i - 3]!, knots[3 * i + 4]! - knots[3 * i - 2]!, knots[3 * i + 5]! - knots[3 * i - 1]!];
    const n = Math.hypot(...d);
    return [d[0] / n, d[1] / n, d[2] / n];
  };
  const out: number[] = [...knots.subarray(0, 3)];
  for (let i = 0; i < last; i++) {
    const p: Vec = [knots[3 * i]!, knots[3 * i + 1]!, knots[3 * i + 2]!];
    const q: Vec = [knots[3 * i + 3]!, knots[3 * i + 4]!, knots[3 * i + 5]!];
    const [u, v] = [tangent(i), tangent(i + 1)];
    const h = Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2]);
    const parts = Math.max(1, Math.ceil(h / 2.9));
    for (let k = 1; k <= parts; k++) {
      const t = k / parts;
      const a = 2 * t ** 3 - 3 * t ** 2 + 1;
      const b = (t ** 3 - 2 * t ** 2 + t) * h;
      const c = -2 * t ** 3 + 3 * t ** 2;
      const d = (t ** 3 - t ** 2) * h;
      for (let e = 0; e < 3; e++) out.push(a * p[e]! + b * u[e]! + c * q[e]! + d * v[e]!);
    }
  }
  return Float64Array.from(out);
}
