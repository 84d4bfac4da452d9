import type { Vec } from '#geometry';

/** Farthest apart that points of a path may be [mm]; the outside contract is 3. */
const STEP_MM = 2.95;

/** Points joined into one path, long straights filled in. */
export function joinedPath(before: readonly Vec[], curve: Float64Array, after: readonly Vec[]): Float64Array {
  const points: number[] = [];
  const put = (x: number, y: number, z: number) => {
    const n = points.length;
    if (n >= 3) {
      const [px, py, pz] = [points[n - 3]!, points[n - 2]!, points[n - 1]!];
      const step = Math.hypot(x - px, y - py, z - pz);
      if (step < 1e-9) return;
      const parts = Math.ceil(step / STEP_MM);
      for (let k = 1; k < parts; k++)
        points.push(px + ((x - px) * k) / parts, py + ((y - py) * k) / parts, pz + ((z - pz) * k) / parts);
    }
    points.push(x, y, z);
  };
  for (const p of before) put(...p);
  for (let i = 0; i + 2 < curve.length; i += 3) put(curve[i]!, curve[i + 1]!, curve[i + 2]!);
  for (const p of after) put(...p);
  return Float64Array.from(points);
}
