import { type RodHold, type RodProblem, type RodShape, rodShape } from './rod.ts';
import { polylineLength } from './spread.ts';
import { add, addScaled, cross, distance, dot, norm, perpendicular, scale, sub, unit, type Vec } from './vec.ts';

/** In how many directions round the chord a start bulges. */
const BULGES = 8;
const START_POINTS = 24;

export interface RodShapesOptions {
  /** Shapes nearer than this everywhere count as one [mm]; a hundredth of the length if not given. */
  readonly apartMm?: number;
}

/**
 * Every stable shape found from a fixed list of starts, least energy first: the start given, its mirror through the
 * chord, bulges in eight directions round the chord, and one that sags with the weight. Empty when the rod cannot reach
 * or nothing settles: `rodShape` says which.
 */
export function rodShapes(problem: RodProblem, options: RodShapesOptions = {}): readonly RodShape[] {
  const apart = options.apartMm ?? problem.lengthMm / 100;
  const found: RodShape[] = [];
  for (const start of startsOf(problem)) {
    const shape = rodShape({ ...problem, start });
    if (shape.state === 'too short') return [];
    if (!shape.converged || !shape.stable) continue;
    if (found.every((other) => greatestGap(shape.points, other.points) > apart)) found.push(shape);
  }
  // Array.sort is stable: equal energies stay in the order of the starts.
  return found.sort((p, q) => p.energyPerStiffness - q.energyPerStiffness);
}

function startsOf(problem: RodProblem): readonly ArrayLike<number>[] {
  if (!problem.b) return [problem.start];
  const holds = [{ ...problem.a, alongMm: 0 }, ...(problem.clamps ?? []), { ...problem.b, alongMm: problem.lengthMm }];
  const chord = sub(problem.b.point, problem.a.point);
  const axis: Vec = norm(chord) > 1e-6 * problem.lengthMm ? unit(chord) : (problem.a.direction ?? [1, 0, 0]);
  const u = perpendicular(axis);
  const v = cross(axis, u);
  const starts: ArrayLike<number>[] = [problem.start, mirrored(problem.start, problem.a.point, axis)];
  for (let k = 0; k < BULGES; k++) {
    const angle = (2 * Math.PI * k) / BULGES;
    starts.push(bulged(holds, add(scale(u, Math.cos(angle)), scale(v, Math.sin(angle)))));
  }
  const { weightPerStiffness: weight } = problem;
  if (weight && norm(weight) > 0) {
    const aside = addScaled(weight, axis, -dot(weight, axis));
    if (norm(aside) > 1e-9 * norm(weight)) starts.push(bulged(holds, unit(aside)));
  }
  return starts;
}

/** Half a turn about the chord's axis. */
function mirrored(points: ArrayLike<number>, at: Vec, axis: Vec): Float64Array {
  const out = new Float64Array(points.length);
  for (let i = 0; i + 2 < points.length; i += 3) {
    const r: Vec = [points[i]! - at[0], points[i + 1]! - at[1], points[i + 2]! - at[2]];
    const along = 2 * dot(r, axis);
    for (let k = 0; k < 3; k++) out[i + k] = at[k]! + along * axis[k]! - r[k]!;
  }
  return out;
}

/** A curve through the holds in their directions that bulges one way until each piece has its length. */
function bulged(holds: readonly (RodHold & { readonly alongMm: number })[], way: Vec): Float64Array {
  const out: number[] = [];
  for (let j = 0; j + 1 < holds.length; j++) {
    const p = holds[j]!;
    const q = holds[j + 1]!;
    const length = q.alongMm - p.alongMm;
    const through = unitOr(sub(q.point, p.point), way);
    const at = (amount: number): number[] => hermite(p, q, length, through, way, amount);
    let low = 0;
    let high = length / 2;
    for (let k = 0; k < 24; k++) {
      const middle = (low + high) / 2;
      if (polylineLength(at(middle)) < length) low = middle;
      else high = middle;
    }
    out.push(...(j === 0 ? at(low) : at(low).slice(3)));
  }
  return Float64Array.from(out);
}

const unitOr = (v: Vec, other: Vec): Vec => (norm(v) > 1e-9 ? unit(v) : other);

function hermite(p: RodHold, q: RodHold, length: number, through: Vec, way: Vec, amount: number): number[] {
  const reach = Math.min(distance(p.point, q.point), length);
  const m0 = scale(p.direction ?? through, reach);
  const m1 = scale(q.direction ?? through, reach);
  const out: number[] = [];
  for (let i = 0; i <= START_POINTS; i++) {
    const t = i / START_POINTS;
    const a = (1 + 2 * t) * (1 - t) ** 2;
    const b = t * (1 - t) ** 2;
    const c = t * t * (3 - 2 * t);
    const d = t * t * (t - 1);
    const bulge = amount * Math.sin(Math.PI * t) ** 2;
    for (let k = 0; k < 3; k++) {
      out.push(a * p.point[k]! + b * m0[k]! + c * q.point[k]! + d * m1[k]! + bulge * way[k]!);
    }
  }
  return out;
}

function greatestGap(a: Float64Array, b: Float64Array): number {
  let most = 0;
  for (let i = 0; i < a.length; i += 3)
    most = Math.max(most, Math.hypot(a[i]! - b[i]!, a[i + 1]! - b[i + 1]!, a[i + 2]! - b[i + 2]!));
  return most;
}
