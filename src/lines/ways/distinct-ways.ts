import { type Vec, distance } from '#geometry';
import type { Way, WayBody } from '../way.ts';

/** Ways whose joints lie nearer together than this, and whose ends point the same way, are one to the builder [mm]. */
const SAME_PLACE_MM = 90;
const SAME_CLOCK_DEG = 15;

/** Ways of one line through different places, without those that are the same but for where exactly they cross a panel. */
export function distinctWays(ways: readonly Way[]): Way[] {
  const kept: Way[] = [];
  for (const way of [...ways].sort((p, q) => Number(q.feasible) - Number(p.feasible) || p.cost - q.cost))
    if (!kept.some((other) => isSame(way, other))) kept.push(way);
  return kept;
}

function isSame(p: Way, q: Way): boolean {
  if (p.pieces.length !== q.pieces.length || p.feasible !== q.feasible) return false;
  const alike = (a: Way['ends'][number], b: Way['ends'][number] | undefined): boolean =>
    b !== undefined &&
    a.makeUp.join(' ') === b.makeUp.join(' ') &&
    Math.abs((((((a.clockDeg ?? 0) - (b.clockDeg ?? 0) + 540) % 360) + 360) % 360) - 180) <= SAME_CLOCK_DEG;
  return (
    p.ends.every((end, i) => alike(end, q.ends[i])) &&
    p.joints.length === q.joints.length &&
    p.joints.every((end, i) => alike(end, q.joints[i])) &&
    p.bodies.length === q.bodies.length &&
    p.bodies.every((body, i) => PLACES.every((share) => apartMm(body, q.bodies[i]!, share) < SAME_PLACE_MM))
  );
}

/** Shares of a body's length at which two of them are compared. */
const PLACES = [0, 0.25, 0.5, 0.75, 1] as const;

function apartMm(p: WayBody, q: WayBody, share: number): number {
  const [a, b] = [p, q].map(({ pathMm }) => pathMm[Math.round(share * (pathMm.length - 1))]!) as [Vec, Vec];
  return distance(a, b);
}
