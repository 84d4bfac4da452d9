import { chordAt } from './spread.ts';
import type { Vec } from './vec.ts';

/**
 * A smooth curve through the knots with the end directions given, at steps of at most `stepMm`: the clamped cubic spline over
 * chord length. Every knot is kept. For shapes whose curvature is itself smooth, as a rod's is; a refined curve, whose
 * curvature jumps to its limit, would ring: refine it at the step wanted instead (`arcStep`).
 *
 * @param knots - x,y,z triples [mm], two or more
 */
export function denseCurve(knots: ArrayLike<number>, leaving: Vec, arriving: Vec, stepMm = 3): Float64Array {
  const n = knots.length / 3 - 1;
  const h = new Float64Array(n);
  for (let i = 0; i < n; i++) h[i] = smoothChord(knots, i, n);
  const m = secondDerivatives(knots, h, leaving, arriving);
  const out: number[] = [knots[0]!, knots[1]!, knots[2]!];
  for (let i = 0; i < n; i++) {
    const count = Math.max(1, Math.ceil(h[i]! / stepMm - 1e-9));
    for (let j = 1; j <= count; j++) {
      const b = j / count;
      const a = 1 - b;
      for (let k = 0; k < 3; k++) {
        const p = knots[3 * i + k]!;
        const q = knots[3 * i + 3 + k]!;
        const bend = ((a ** 3 - a) * m[3 * i + k]! + (b ** 3 - b) * m[3 * i + 3 + k]!) * (h[i]! ** 2 / 6);
        out.push(j === count ? q : a * p + b * q + bend);
      }
    }
  }
  return Float64Array.from(out);
}

/** Chord i lengthened to its arc by the bends at its ends, so that the parameter is nearly the length along the curve. */
function smoothChord(p: ArrayLike<number>, i: number, n: number): number {
  const c = chordAt(p, i);
  let sum = 0;
  let count = 0;
  for (const j of [i, i + 1]) {
    if (j === 0 || j === n) continue;
    const a = chordAt(p, j - 1);
    const b = chordAt(p, j);
    for (let k = 0; k < 3; k++) {
      const bend = ((p[3 * j + 3 + k]! - p[3 * j + k]!) / b - (p[3 * j + k]! - p[3 * j - 3 + k]!) / a) / ((a + b) / 2);
      sum += bend * bend;
    }
    count++;
  }
  return c * (1 + ((count > 0 ? sum / count : 0) * (c * c)) / 24);
}

/** The spline's second derivatives at the knots (a tridiagonal system, one right-hand side a coordinate). */
function secondDerivatives(p: ArrayLike<number>, h: Float64Array, leaving: Vec, arriving: Vec): Float64Array {
  const n = h.length;
  const m = new Float64Array(3 * (n + 1));
  const upper = new Float64Array(n + 1);
  const slope = (i: number, k: number): number => (p[3 * i + 3 + k]! - p[3 * i + k]!) / h[i]!;
  for (let i = 0; i <= n; i++) {
    const before = i > 0 ? h[i - 1]! : 0;
    const after = i < n ? h[i]! : 0;
    const pivot = 2 * (before + after) - (i > 0 ? before * upper[i - 1]! : 0);
    upper[i] = after / pivot;
    for (let k = 0; k < 3; k++) {
      const out = i < n ? slope(i, k) : arriving[k]!;
      const into = i > 0 ? slope(i - 1, k) : leaving[k]!;
      m[3 * i + k] = (6 * (out - into) - (i > 0 ? before * m[3 * i - 3 + k]! : 0)) / pivot;
    }
  }
  for (let i = n - 1; i >= 0; i--)
    for (let k = 0; k < 3; k++) m[3 * i + k] = m[3 * i + k]! - upper[i]! * m[3 * i + 3 + k]!;
  return m;
}
