/** Length of a polyline of x,y,z triples [mm]. */
export function polylineLength(points: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i + 5 < points.length; i += 3) sum += chordAt(points, i / 3);
  return sum;
}

/** Length of a polyline's piece from point i to i + 1 [mm]. */
export function chordAt(p: ArrayLike<number>, i: number): number {
  const dx = p[3 * i + 3]! - p[3 * i]!;
  const dy = p[3 * i + 4]! - p[3 * i + 1]!;
  const dz = p[3 * i + 5]! - p[3 * i + 2]!;
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
}

/** n + 1 points at equal steps along a polyline of two or more points, ends included, into `out`. */
export function spreadAlong(points: ArrayLike<number>, n: number, out: Float64Array): Float64Array {
  const total = polylineLength(points);
  const last = points.length / 3 - 1;
  let i = 0;
  let start = 0;
  let piece = chordAt(points, 0);
  for (let j = 0; j <= n; j++) {
    const at = (total * j) / n;
    while (start + piece < at && i < last - 1) {
      start += piece;
      i++;
      piece = chordAt(points, i);
    }
    const t = j === n ? 1 : piece > 0 ? Math.min(1, (at - start) / piece) : 0;
    for (let k = 0; k < 3; k++) out[3 * j + k] = points[3 * i + k]! * (1 - t) + points[3 * i + 3 + k]! * t;
  }
  return out;
}

/** The polyline at equal steps of at most `stepMm` along it, ends kept. */
export function resampled(points: ArrayLike<number>, stepMm: number): Float64Array {
  const n = Math.max(1, Math.ceil(polylineLength(points) / stepMm - 1e-9));
  return spreadAlong(points, n, new Float64Array(3 * (n + 1)));
}
