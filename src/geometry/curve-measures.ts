import { chordAt } from './spread.ts';

/** Curvature at each point: second difference over the mean chord squared; at the ends with the tail's direction. */
export function bendsOf(x: Float64Array, endA: Float64Array, endB: Float64Array): Float64Array {
  const n = x.length / 3 - 1;
  const out = new Float64Array(n + 1);
  for (let i = 1; i < n; i++) {
    const h = (chordAt(x, i - 1) + chordAt(x, i)) / 2;
    let sum = 0;
    for (let k = 0; k < 3; k++) sum += (x[3 * i - 3 + k]! - 2 * x[3 * i + k]! + x[3 * i + 3 + k]!) ** 2;
    out[i] = Math.sqrt(sum) / (h * h);
  }
  for (const [end, at, i, h] of [
    [endA, 1, 0, chordAt(x, 0)],
    [endB, n - 1, n, chordAt(x, n - 1)],
  ] as const) {
    let sum = 0;
    for (let k = 0; k < 3; k++) sum += (x[3 * at + k]! - end[k]! - h * end[6 + k]!) ** 2;
    out[i] = (2 * Math.sqrt(sum)) / (h * h);
  }
  return out;
}

/** Least distance between places of the curve further apart along it than half a turn of least radius. */
export function selfGap(x: Float64Array, h: number, radius: number): number {
  const apart = Math.ceil((Math.PI * radius) / h);
  let least = Infinity;
  for (let i = 0; i < x.length; i += 3) {
    for (let j = i + 3 * apart; j < x.length; j += 3) {
      const d = (x[i]! - x[j]!) ** 2 + (x[i + 1]! - x[j + 1]!) ** 2 + (x[i + 2]! - x[j + 2]!) ** 2;
      if (d < least) least = d;
    }
  }
  return Math.sqrt(least);
}
