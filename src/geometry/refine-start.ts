// What a level of a refinement starts from: the seed, or the curve and the multipliers of the coarser level before.
import { MAX_BODY_SAMPLES, type PackedEnd, placeEnd } from './refine-model.kernel.ts';
import type { Space } from './refine.kernel.ts';
import { polylineLength, spreadAlong } from './spread.ts';

const scratchEnd = new Float64Array(18);

/** How far a start runs straight on at its ends, in bend radii: from a seed that doubles back at a tail it may never unfold. */
const LEAD = 0.8;

/** The seed with its beginnings replaced by the two straights' ends and a little straight on from each. */
export function seedCurve(
  seed: ArrayLike<number>,
  minBendRadiusMm: number,
  [a, phiA]: readonly [PackedEnd, number],
  [b, phiB]: readonly [PackedEnd, number],
  tails: readonly [readonly number[], readonly number[]],
): Float64Array {
  const out: number[] = [];
  placeEnd(a, phiA, scratchEnd);
  out.push(scratchEnd[0]!, scratchEnd[1]!, scratchEnd[2]!);
  const between = Math.max(polylineLength(seed) - a[16]! - b[16]!, 0.2 * minBendRadiusMm);
  const lead = Math.min(LEAD * minBendRadiusMm, between / 4);
  for (let k = 0; k < 3; k++) out.push(scratchEnd[k]! + lead * scratchEnd[6 + k]!);
  placeEnd(b, phiB, scratchEnd);
  for (let i = 0; i + 2 < seed.length; i += 3) {
    const p: [number, number, number] = [seed[i]!, seed[i + 1]!, seed[i + 2]!];
    const fromA = Math.hypot(p[0] - tails[0][0]!, p[1] - tails[0][1]!, p[2] - tails[0][2]!);
    const fromB = Math.hypot(p[0] - tails[1][0]!, p[1] - tails[1][1]!, p[2] - tails[1][2]!);
    const early = i * 2 < seed.length;
    if ((early ? fromA : fromB) > (early ? a[16]! : b[16]!) + lead) out.push(...p);
  }
  for (let k = 0; k < 3; k++) out.push(scratchEnd[k]! + lead * scratchEnd[6 + k]!);
  out.push(scratchEnd[0]!, scratchEnd[1]!, scratchEnd[2]!);
  return Float64Array.from(out);
}

/** The points with a mid-point between each two, by the four-point rule (exact for cubics), so that doubling keeps bends round. */
export function smoothed(x: Float64Array, n: number): Float64Array {
  const out = new Float64Array(3 * (2 * n + 1));
  for (let i = 0; i <= n; i++) {
    for (let k = 0; k < 3; k++) {
      out[6 * i + k] = x[3 * i + k]!;
      if (i === n) continue;
      const p = x[3 * i + k]!;
      const q = x[3 * i + 3 + k]!;
      const inner = i > 0 && i < n - 1;
      out[6 * i + 3 + k] = inner ? (9 * (p + q) - x[3 * i - 3 + k]! - x[3 * i + 6 + k]!) / 16 : (p + q) / 2;
    }
  }
  return out;
}

/** Multipliers of a level, as densities that mean the same at any spacing. */
export interface Carry {
  readonly n: number;
  readonly tension: Float64Array;
  readonly bends: Float64Array;
  readonly places: Float64Array;
  readonly bodies: Float64Array;
}

export function carryOf(s: Space, n: number): Carry {
  const { h } = s.state;
  return {
    n,
    tension: s.tension.slice(0, n),
    bends: s.z.slice(0, n + 1).map((m) => m * h),
    places: s.z.slice(n + 1, 3 * n + 2).map((p) => p / h),
    bodies: s.z.slice(3 * n + 2, 3 * n + 2 + 2 * MAX_BODY_SAMPLES),
  };
}

export function startLevel(
  s: Space,
  n: number,
  curve: Float64Array,
  h: number,
  phiA: number,
  phiB: number,
  carry: Carry | null,
): void {
  s.state.h = h;
  s.state.phiA = phiA;
  s.state.phiB = phiB;
  spreadAlong(curve, n, s.state.x);
  s.z.fill(0);
  for (let i = 0; i < n; i++) s.tension[i] = carry ? between(carry.tension, ((i + 0.5) / n) * carry.n - 0.5) : 1;
  if (!carry) return;
  for (let i = 0; i <= n; i++) s.z[i] = between(carry.bends, (i / n) * carry.n) / h;
  for (let i = 0; i <= 2 * n; i++) s.z[n + 1 + i] = between(carry.places, (i / n) * carry.n) * h;
  s.z.set(carry.bodies, 3 * n + 2);
}

function between(values: Float64Array, at: number): number {
  const i = Math.min(Math.max(0, Math.floor(at)), values.length - 2);
  const t = Math.min(Math.max(at - i, 0), 1);
  return values[i]! * (1 - t) + values[i + 1]! * t;
}
