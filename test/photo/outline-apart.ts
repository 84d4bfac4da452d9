import { type Outline, outlinePoints, type Point2 } from '#geometry';

/** How far two outlines with openings lie apart once the first is laid over the second as well as it goes. */
export interface Apart {
  /** The furthest that any place of either lies from the other [mm]. */
  readonly worstMm: number;
  /** 95 of 100 places lie nearer [mm]. */
  readonly mostMm: number;
  readonly rmsMm: number;
}

const STEP_MM = 3;

function places(outlines: readonly Outline[]): Point2[] {
  return outlines.flatMap((outline) => {
    const ring = outlinePoints(outline, 0.005);
    return ring.flatMap((p, i) => {
      const q = ring[(i + 1) % ring.length]!;
      const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
      const count = Math.max(1, Math.ceil(length / STEP_MM));
      return Array.from(
        { length: count },
        (_, k): Point2 => [p[0] + (k / count) * (q[0] - p[0]), p[1] + (k / count) * (q[1] - p[1])],
      );
    });
  });
}

function nearestOn(rings: readonly (readonly Point2[])[], [x, y]: Point2): Point2 {
  let best: Point2 = [0, 0];
  let least = Number.POSITIVE_INFINITY;
  for (const ring of rings)
    for (let i = 0, j = ring.length - 1; i < ring.length; j = i++) {
      const [ax, ay] = ring[j]!;
      const [ex, ey] = [ring[i]![0] - ax, ring[i]![1] - ay];
      const s = Math.min(1, Math.max(0, ((x - ax) * ex + (y - ay) * ey) / (ex * ex + ey * ey || 1)));
      const d = (x - ax - s * ex) ** 2 + (y - ay - s * ey) ** 2;
      if (d < least) [least, best] = [d, [ax + s * ex, ay + s * ey]];
    }
  return best;
}

/** Laid over by turning and shifting only (the nearest places, again and again), begun as they lie by their longest way. */
export function outlinesApart(found: readonly Outline[], truth: readonly Outline[]): Apart {
  const rings = truth.map((one) => outlinePoints(one, 0.005));
  const target = places(truth);
  let moved = places(found);
  const foundRings = found.map((one) => outlinePoints(one, 0.005));
  let best: { apart: number; motion: readonly number[] } | undefined;
  // four ways round: the reference may have been taken from any corner
  for (let quarter = 0; quarter < 8; quarter++) {
    const tried = laidOver(moved, rings, target, (quarter * Math.PI) / 4);
    if (best === undefined || tried.apart < best.apart) best = tried;
  }
  const motion = best!.motion;
  moved = moved.map((p) => movedBy(motion, p));
  const back = foundRings.map((ring) => ring.map((p) => movedBy(motion, p)));
  const off = [...moved.map((p) => gap(p, nearestOn(rings, p))), ...target.map((p) => gap(p, nearestOn(back, p)))].sort(
    (p, q) => p - q,
  );
  return {
    worstMm: off.at(-1)!,
    mostMm: off[Math.floor(0.95 * off.length)]!,
    rmsMm: Math.sqrt(off.reduce((sum, d) => sum + d * d, 0) / off.length),
  };
}

const gap = (p: Point2, q: Point2): number => Math.hypot(p[0] - q[0], p[1] - q[1]);
const movedBy = ([c, s, x, y]: readonly number[], p: Point2): Point2 => [
  c! * p[0] - s! * p[1] + x!,
  s! * p[0] + c! * p[1] + y!,
];
const middle = (points: readonly Point2[]): Point2 =>
  points.reduce<Point2>((m, p) => [m[0] + p[0] / points.length, m[1] + p[1] / points.length], [0, 0]);

function laidOver(
  points: readonly Point2[],
  rings: readonly (readonly Point2[])[],
  target: readonly Point2[],
  turn: number,
): { apart: number; motion: readonly number[] } {
  const [from, to] = [middle(points), middle(target)];
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  let motion: readonly number[] = [c, s, to[0] - c * from[0] + s * from[1], to[1] - s * from[0] - c * from[1]];
  let apart = Number.POSITIVE_INFINITY;
  const some = points.filter((_, i) => i % 4 === 0);
  for (let round = 0; round < 40; round++) {
    const now = some.map((p) => movedBy(motion, p));
    const near = now.map((p) => nearestOn(rings, p));
    const sum = now.reduce((total, p, i) => total + gap(p, near[i]!) ** 2, 0) / now.length;
    if (sum > apart * 0.99999) break;
    apart = sum;
    const [a, b] = [middle(some), middle(near)];
    let [along, across] = [0, 0];
    some.forEach((p, i) => {
      const q = near[i]!;
      along += (p[0] - a[0]) * (q[0] - b[0]) + (p[1] - a[1]) * (q[1] - b[1]);
      across += (p[0] - a[0]) * (q[1] - b[1]) - (p[1] - a[1]) * (q[0] - b[0]);
    });
    const angle = Math.atan2(across, along);
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    motion = [cos, sin, b[0] - cos * a[0] + sin * a[1], b[1] - sin * a[0] - cos * a[1]];
    // far off, one round shows it
    if (round === 6 && apart > 2500) break;
  }
  return { apart, motion };
}
