import { checkFinite, checkPositive } from './geometry-error.ts';
import { newRodSpace, type Rod, type RodReport, type RodSpace, settleRod } from './rod.kernel.ts';
import { spreadAlong } from './spread.ts';
import type { Vec } from './vec.ts';

/** Where the rod is held: at its ends, or somewhere along it. */
export interface RodHold {
  readonly point: Vec;
  /** Unit direction it is clamped in, along the rod from A to B; absent: it may turn there. */
  readonly direction?: Vec;
}

export interface RodProblem {
  readonly a: RodHold;
  /** Absent: the far end hangs free. */
  readonly b?: RodHold;
  readonly lengthMm: number;
  /** Holds between the ends, in order along the rod. */
  readonly clamps?: readonly (RodHold & { readonly alongMm: number })[];
  /** Any polyline near the wanted shape, x,y,z triples [mm]; its length need not be right. */
  readonly start: ArrayLike<number>;
  /** Tensions of a rod that lay as `start` does (its `tension`): from a shape near by it settles in half the steps. */
  readonly startTension?: Float64Array;
  /** Weight per length over bending stiffness, pointing down [1/mm^3]. */
  readonly weightPerStiffness?: Vec;
  /** Force on a free far end over bending stiffness [1/mm^2]. */
  readonly pullPerStiffness?: Vec;
  /** Spacing [mm]; a sixtieth of the length if not given. */
  readonly stepMm?: number;
  /** 300 if not given. */
  readonly maxIterations?: number;
}

export interface RodShape {
  /** `hangs`: in equilibrium; `too short`: it cannot reach; `not settled`: no equilibrium found within the count. */
  readonly state: 'hangs' | 'too short' | 'not settled';
  /** In equilibrium with every chord right to 1e-6. */
  readonly converged: boolean;
  /** The equilibrium is stable: the rod stays there if nudged. */
  readonly stable: boolean;
  /** x,y,z triples [mm], equal steps along the rod (between two holds). */
  readonly points: Float64Array;
  /** Greatest curvature, at the holds too [1/mm]. */
  readonly worstCurvature: number;
  /** Energy over bending stiffness, bending and loads [1/mm]. */
  readonly energyPerStiffness: number;
  /** Greatest pull along the rod over bending stiffness [1/mm^2]; negative: pushed everywhere. */
  readonly pullPerStiffness: number;
  readonly iterations: number;
  readonly residual: number;
  /** Multipliers of the chords' lengths, to start a rod near by from. */
  readonly tension: Float64Array;
}

const NOTHING: Vec = [0, 0, 0];
const POINTS = 60;
let space: RodSpace = newRodSpace(96);

/**
 * The shape a hose takes up by itself: an inextensible, untwisted elastic rod between its holds, from a start near by.
 * Which of several stable shapes it is depends on the start.
 *
 * @throws GeometryError where a length, hold or start is not a finite number
 */
export function rodShape(problem: RodProblem): RodShape {
  checkPositive('length of a rod', problem.lengthMm);
  checkPositive('step of a rod', problem.stepMm ?? 1);
  checkFinite('start of a rod', problem.start);
  for (const hold of holdsOf(problem)) {
    checkFinite('hold of a rod', hold.point);
    checkFinite('direction of a hold', hold.direction ?? NOTHING);
  }
  const rod = rodOf(problem);
  if (!rod) return unreached(problem);
  const n = rod.segments;
  if (n > space.capacity) space = newRodSpace(Math.ceil(1.5 * n));
  startShape(problem, rod, space.x);
  const { startTension } = problem;
  for (let i = 0; i < n; i++) space.tension[i] = startTension === undefined ? 0 : sampled(startTension, (i + 0.5) / n);
  const report: RodReport = { iterations: 0, energy: 0, spacing: Infinity, settled: false, stable: false };
  settleRod(rod, space, problem.maxIterations ?? 300, report, startTension !== undefined);
  const points = space.x.slice(0, 3 * (n + 1));
  const bends = bendsOf(rod, points);
  const converged = report.settled && report.spacing < 1e-6;
  return {
    state: converged ? 'hangs' : 'not settled',
    converged,
    stable: report.stable,
    points,
    worstCurvature: bends.reduce((worst, k) => Math.max(worst, k), 0),
    energyPerStiffness: report.energy,
    pullPerStiffness: greatestPull(rod, bends),
    iterations: report.iterations,
    residual: report.spacing,
    tension: space.tension.slice(0, n),
  };
}

/** The value at a share of the way along a rod of other chords. */
function sampled(values: Float64Array, share: number): number {
  const at = Math.min(Math.max(share * values.length - 0.5, 0), values.length - 1);
  const i = Math.min(Math.floor(at), values.length - 2);
  return i < 0 ? values[0]! : values[i]! + (at - i) * (values[i + 1]! - values[i]!);
}

/** Holds in order with where they are along the rod; the ends first and last. */
function holdsOf(problem: RodProblem): readonly (RodHold & { readonly alongMm: number })[] {
  const holds = [{ ...problem.a, alongMm: 0 }, ...(problem.clamps ?? [])];
  return problem.b ? [...holds, { ...problem.b, alongMm: problem.lengthMm }] : holds;
}

/** The discrete rod, or null when a piece is shorter than what it must span. */
function rodOf(problem: RodProblem): Rod | null {
  const step = problem.stepMm ?? problem.lengthMm / POINTS;
  const holds = holdsOf(problem);
  const h: number[] = [];
  const nodes = [0];
  for (let k = 0; k < holds.length; k++) {
    const next = holds[k + 1];
    const to = next?.alongMm ?? problem.lengthMm;
    const piece = to - holds[k]!.alongMm;
    if (!next && piece <= 1e-9) break;
    const [p, q] = [holds[k]!.point, next?.point];
    if (!(piece > 0) || (q && Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2]) > piece * (1 + 1e-9))) return null;
    const count = Math.max(4, Math.ceil(piece / step - 1e-9));
    for (let i = 0; i < count; i++) h.push(piece / count);
    nodes.push(h.length);
  }
  const n = h.length;
  const held = new Uint8Array(n + 1);
  const clamped = new Uint8Array(n + 1);
  const direction = new Float64Array(3 * (n + 1));
  holds.forEach((hold, k) => {
    const at = nodes[k]!;
    held[at] = 1;
    if (!hold.direction) return;
    clamped[at] = 1;
    direction.set(hold.direction, 3 * at);
  });
  const weight = problem.weightPerStiffness ?? NOTHING;
  return {
    segments: n,
    h: Float64Array.from(h),
    held,
    clamped,
    direction,
    weight,
    pull: problem.pullPerStiffness ?? NOTHING,
  };
}

/** The start drawn out evenly over the points, with the held points put where they are held. */
function startShape(problem: RodProblem, rod: Rod, x: Float64Array): void {
  const n = rod.segments;
  spreadAlong(Float64Array.from(problem.start), n, x);
  const holds = holdsOf(problem);
  let k = 0;
  const shifts: { at: number; by: Vec }[] = [];
  for (let i = 0; i <= n; i++) {
    if (!rod.held[i]) continue;
    const { point } = holds[k++]!;
    shifts.push({ at: i, by: [point[0] - x[3 * i]!, point[1] - x[3 * i + 1]!, point[2] - x[3 * i + 2]!] });
  }
  // Between holds the shift is shared out, so that the start bends where it must instead of kinking at the holds.
  for (let i = 0; i <= n; i++) {
    const before = shifts.findLast((s) => s.at <= i) ?? shifts[0]!;
    const after = shifts.find((s) => s.at >= i) ?? before;
    const t = after.at > before.at ? (i - before.at) / (after.at - before.at) : 0;
    for (let e = 0; e < 3; e++) x[3 * i + e] = x[3 * i + e]! + before.by[e]! * (1 - t) + after.by[e]! * t;
  }
}

/** Curvature at each point; at a clamp the greater of its two sides. */
function bendsOf(rod: Rod, x: Float64Array): Float64Array {
  const n = rod.segments;
  const out = new Float64Array(n + 1);
  const half = (i: number, j: number, h: number, sense: number): number => {
    let sum = 0;
    for (let k = 0; k < 3; k++) sum += (x[3 * j + k]! - x[3 * i + k]! - sense * h * rod.direction[3 * i + k]!) ** 2;
    return (2 * Math.sqrt(sum)) / (h * h);
  };
  for (let i = 0; i <= n; i++) {
    if (rod.clamped[i]) {
      if (i > 0) out[i] = half(i, i - 1, rod.h[i - 1]!, -1);
      if (i < n) out[i] = Math.max(out[i]!, half(i, i + 1, rod.h[i]!, 1));
    } else if (i > 0 && i < n) {
      const [a, b] = [rod.h[i - 1]!, rod.h[i]!];
      let sum = 0;
      for (let k = 0; k < 3; k++) {
        const now = x[3 * i + k]!;
        sum += (((x[3 * i + 3 + k]! - now) / b - (now - x[3 * i - 3 + k]!) / a) / ((a + b) / 2)) ** 2;
      }
      out[i] = Math.sqrt(sum);
    }
  }
  return out;
}

/**
 * Greatest pull along the rod. The spacing's multiplier is the pull less the curvature squared; the chords next to a
 * clamp's half cell are left out, where the discrete balance is not that simple.
 */
function greatestPull(rod: Rod, bends: Float64Array): number {
  let most = -Infinity;
  for (let i = 0; i < rod.segments; i++) {
    if (rod.clamped[i] || rod.clamped[i + 1]) continue;
    most = Math.max(most, space.tension[i]! + (bends[i]! ** 2 + bends[i + 1]! ** 2) / 2);
  }
  return most;
}

function unreached(problem: RodProblem): RodShape {
  return {
    state: 'too short',
    converged: false,
    stable: false,
    points: Float64Array.from(problem.start),
    worstCurvature: Infinity,
    energyPerStiffness: Infinity,
    pullPerStiffness: Infinity,
    iterations: 0,
    residual: Infinity,
    tension: new Float64Array(0),
  };
}
